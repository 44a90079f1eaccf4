import { describe, expect, it } from 'vitest'
import { chooseStep } from '../../../../src/core/infer/choose/choose.ts'
import type { Problem } from '../../../../src/core/infer/problem.ts'
import { drawBuild, drawProblem } from './draw-problem.ts'
import { handProblem, startOf } from './hand-problem.ts'

/** The best step by name, with its minutes to six digits. */
function bestOf(problem: Problem, change: Parameters<typeof startOf>[1] = {}): string {
  const { best } = chooseStep(problem, startOf(problem, change))
  const name =
    best.do === 'escalate'
      ? 'escalate'
      : (best.do === 'check' ? problem.checks : problem.repairs)[best.index]!.id
  return `${name} ${Number(best.minutes.toFixed(6))}`
}

describe('the next step', () => {
  it('is the repair at once where telling suspects apart would not pay', () => {
    // Asking costs 2 and saves at most 0.1 · 1.
    const problem = handProblem({
      priors: [0.9, 0.1],
      checks: [
        {
          minutes: 2,
          rows: [
            [1, 0],
            [0, 1],
          ],
        },
      ],
      repairs: [
        { minutes: 1, cures: [0] },
        { minutes: 1, cures: [1] },
      ],
    })
    expect(bestOf(problem)).toBe('r0 1.1')
  })

  it('is the check where repairs are dear', () => {
    const problem = handProblem({
      priors: [0.5, 0.5],
      checks: [
        {
          minutes: 2,
          rows: [
            [1, 0],
            [0, 1],
          ],
        },
      ],
      repairs: [
        { minutes: 10, cures: [0] },
        { minutes: 10, cures: [1] },
      ],
    })
    expect(bestOf(problem)).toBe('c0 12')
  })

  it('is a check that tells something only together with another', () => {
    // Whether the two answers agree decides between the repairs; one answer alone says nothing.
    const problem = handProblem({
      priors: [0.25, 0.25, 0.25, 0.25],
      checks: [
        {
          minutes: 1,
          rows: [
            [1, 0],
            [1, 0],
            [0, 1],
            [0, 1],
          ],
        },
        {
          minutes: 1,
          rows: [
            [1, 0],
            [0, 1],
            [1, 0],
            [0, 1],
          ],
        },
      ],
      repairs: [
        { minutes: 20, cures: [0, 3] },
        { minutes: 20, cures: [1, 2] },
      ],
    })
    expect(bestOf(problem)).toBe('c0 22')
  })

  it('is what needs the present power state, where the gain is the same', () => {
    const rows = [
      [1, 0],
      [0, 1],
    ]
    const problem = handProblem({
      priors: [0.5, 0.5],
      checks: [
        { minutes: 1, mode: 'off', rows },
        { minutes: 1.5, mode: 'on', rows },
      ],
      repairs: [
        { minutes: 30, cures: [0] },
        { minutes: 30, cures: [1] },
      ],
    })
    expect(bestOf(problem)).toBe('c1 31.5')
    // From off: 1 + switch 2 + 30, against 2 + 1.5 + 30.
    expect(bestOf(problem, { mode: 'off' })).toBe('c0 33')
  })

  it('is handing over where that takes fewer minutes, where nothing is left, and where nothing is believed', () => {
    const problem = handProblem({
      priors: [0.5, 0.5],
      repairs: [{ minutes: 40, cures: [0, 1] }],
      escalateMinutes: 30,
    })
    expect(bestOf(problem)).toBe('escalate 30')
    const cheap = handProblem({
      priors: [0.5, 0.5],
      repairs: [{ minutes: 4, cures: [0] }],
      escalateMinutes: 30,
    })
    expect(bestOf(cheap)).toBe('r0 19')
    expect(bestOf(cheap, { repairsLeft: [] })).toBe('escalate 30')
    expect(bestOf(cheap, { belief: new Float64Array(2) })).toBe('escalate 30')
  })

  it('is handing over alone where nothing is believed, with nothing to search', () => {
    const problem = handProblem({ priors: [1], repairs: [{ minutes: 4, cures: [0] }], escalateMinutes: 30 })
    expect(chooseStep(problem, startOf(problem, { belief: new Float64Array(1) }))).toEqual({
      best: { do: 'escalate', minutes: 30 },
      others: [],
      nodes: 0,
      atLeast: 30,
    })
  })

  it('is never something that is not left', () => {
    const { problem } = drawProblem(7, 'plain', false)
    const { best, others } = chooseStep(
      problem,
      startOf(problem, { checksLeft: [1, 3], repairsLeft: [0, 2] }),
    )
    for (const choice of [best, ...others]) {
      if (choice.do === 'check') expect([1, 3]).toContain(choice.index)
      if (choice.do === 'repair') expect([0, 2]).toContain(choice.index)
    }
  })
})

describe('ties', () => {
  const rows = [
    [1, 0],
    [0, 1],
  ]
  const repairs = [
    { minutes: 30, cures: [0] },
    { minutes: 30, cures: [1] },
  ]

  it('go by id, not by place', () => {
    const problem = handProblem({
      priors: [0.5, 0.5],
      checks: [
        { id: 'z', minutes: 1, rows },
        { id: 'a', minutes: 1, rows },
      ],
      repairs,
    })
    expect(bestOf(problem)).toBe('a 31')
  })

  it('are ties to a billionth of a minute', () => {
    const at = (minutes: number): Problem =>
      handProblem({
        priors: [0.5, 0.5],
        checks: [
          { id: 'z', minutes: 1, rows },
          { id: 'a', minutes, rows },
        ],
        repairs,
      })
    expect(bestOf(at(1 + 1e-10))).toMatch(/^a /)
    expect(bestOf(at(1 + 1e-7))).toMatch(/^z /)
  })

  it('go to a repair before handing over', () => {
    const problem = handProblem({ priors: [1], repairs: [{ minutes: 30, cures: [0] }], escalateMinutes: 30 })
    expect(bestOf(problem)).toBe('r0 30')
  })
})

describe('the others', () => {
  it('are the next best, at most five, dearer step by step, without the best', () => {
    const { problem } = drawProblem(9, 'deep', false)
    const { best, others } = chooseStep(problem, startOf(problem))
    expect(others).toHaveLength(5)
    const minutes = [best, ...others].map((c) => c.minutes)
    expect(minutes).toEqual([...minutes].sort((a, b) => a - b))
    expect(new Set([best, ...others].map((c) => JSON.stringify([c.do, 'index' in c && c.index]))).size).toBe(
      6,
    )
  })

  it('have the minutes that taking them costs', () => {
    const problem = handProblem({
      priors: [0.5, 0.5],
      checks: [
        {
          minutes: 2,
          rows: [
            [1, 0],
            [0, 1],
          ],
        },
      ],
      repairs: [
        { minutes: 10, cures: [0] },
        { minutes: 10, cures: [1] },
      ],
      escalateMinutes: 100,
    })
    // A repair first, and if the symptom stays the other: 10 + 0.5 · 10.
    expect(chooseStep(problem, startOf(problem)).others).toEqual([
      { do: 'repair', index: 0, minutes: 15 },
      { do: 'repair', index: 1, minutes: 15 },
      { do: 'escalate', minutes: 100 },
    ])
  })
})

describe('a large problem', () => {
  const problem = drawBuild(1, 48, 8)
  const standing = startOf(problem)

  it('of a real size is bounded in its work', () => {
    expect([problem.suspects.length, problem.checks.length, problem.repairs.length]).toEqual([385, 144, 192])
    expect(chooseStep(problem, standing).nodes).toBeLessThan(3000)
  })

  it('gets the same step each time', () => {
    const once = chooseStep(problem, standing)
    expect(chooseStep(problem, standing)).toEqual(once)
  })

  it('never proposes the stand-in for the tail', () => {
    // Fifty equal suspects, forty are kept: the stand-in cures ten at once, but no such repair exists.
    const many = handProblem({
      priors: new Array(50).fill(0.02),
      repairs: new Array(50).fill(0).map((_, s) => ({ minutes: 5, cures: [s] })),
      escalateMinutes: 200,
    })
    const { best, others } = chooseStep(many, startOf(many))
    for (const choice of [best, ...others])
      if (choice.do === 'repair') expect(choice.index).toBeGreaterThanOrEqual(0)
    expect(best.do).toBe('repair')
  })

  it('is decided before any search where no nodes are allowed', () => {
    const quick = chooseStep(problem, standing, { nodes: 0 })
    expect(quick.nodes).toBeLessThan(chooseStep(problem, standing).nodes)
    expect(quick.best.do).toBe('check')
  })
})
