import { describe, expect, it } from 'vitest'
import { cautious, guessFor } from '../../../../src/core/infer/choose/guess.ts'
import { reduce } from '../../../../src/core/infer/choose/reduce.ts'
import { type Step, searching } from '../../../../src/core/infer/choose/search.ts'
import { whole } from '../../../../src/core/infer/parts.ts'
import { drawBuild, drawProblem } from './draw-problem.ts'
import { handProblem, startOf } from './hand-problem.ts'
import { optimum, optimumWithoutNoise } from './optimum.ts'

const ALL = { checks: Number.POSITIVE_INFINITY, repairs: Number.POSITIVE_INFINITY }
const search = (...of: Parameters<typeof searching>) => whole(searching(...of))
const PLAIN = { hope: 0.7, width: ALL, guess: cautious }

describe('a search to the end', () => {
  it.each(['plain', 'deep', 'trap'] as const)('finds the exact optimum without noise (%s)', (shape) => {
    for (const seed of [501, 502, 503]) {
      const { problem } = drawProblem(seed, shape, true)
      const found = search(reduce(problem, startOf(problem)), { ...PLAIN, nodes: 1e6 })
      const exact = optimumWithoutNoise(problem, 'on')
      expect(found.least).toBeCloseTo(exact, 6)
      expect(found.most).toBeCloseTo(exact, 6)
      expect(Math.min(...found.steps.map((s) => s.guess))).toBeCloseTo(exact, 6)
    }
  })

  it('finds it whatever it hopes for', () => {
    const { problem } = drawProblem(502, 'trap', true)
    const exact = optimumWithoutNoise(problem, 'on')
    for (const hope of [0, 0.5, 1])
      expect(search(reduce(problem, startOf(problem)), { ...PLAIN, hope, nodes: 1e6 }).most).toBeCloseTo(
        exact,
        6,
      )
  })

  it('finds it from the other power state', () => {
    const { problem } = drawProblem(503, 'deep', true)
    const exact = optimumWithoutNoise(problem, 'off')
    const standing = startOf(problem, { mode: 'off' })
    expect(search(reduce(problem, standing), { ...PLAIN, nodes: 1e6 }).most).toBeCloseTo(exact, 6)
  })
})

describe('a search that is cut short', () => {
  const { problem } = drawProblem(5152, 'plain', false)
  const reduced = reduce(problem, startOf(problem))

  it('has the optimum between its values, and closes in on it with more nodes', () => {
    const exact = optimum(problem, 'on')
    let gap = Number.POSITIVE_INFINITY
    for (const nodes of [0, 200, 1000, 5000]) {
      const found = search(reduced, { ...PLAIN, nodes })
      expect(found.least).toBeLessThanOrEqual(exact + 1e-6)
      expect(found.most).toBeGreaterThanOrEqual(exact - 1e-6)
      expect(found.most - found.least).toBeLessThanOrEqual(gap)
      gap = found.most - found.least
      for (const s of found.steps) {
        expect(s.guess).toBeGreaterThanOrEqual(s.least - 1e-9)
        expect(s.guess).toBeLessThanOrEqual(s.most + 1e-9)
      }
    }
  })

  it('stays within its nodes but for the last state opened', () => {
    const { nodes: first } = search(reduced, { ...PLAIN, nodes: 0 })
    for (const nodes of [500, 2000])
      expect(search(reduced, { ...PLAIN, nodes }).nodes).toBeLessThan(nodes + 2 * first)
  })

  it.each([
    { hope: 0, looks: 'probably' as const },
    { hope: 1, looks: 'at least' as const },
  ])(
    'looks first behind the step that takes $looks the fewest minutes, at a hope of $hope',
    ({ hope, looks }) => {
      for (const seed of [5152, 5153, 5154]) {
        const drawn = drawProblem(seed, 'plain', false).problem
        const small = reduce(drawn, startOf(drawn))
        const once = search(small, { ...PLAIN, hope, nodes: 0 })
        const value = (s: Step): number => (looks === 'probably' ? s.guess : s.least)
        const first = once.steps.reduce((a, b) => (value(b) < value(a) ? b : a))
        const { steps } = search(small, { ...PLAIN, hope, nodes: once.nodes + 1 })
        expect(
          steps.filter((s, i) => s.least !== once.steps[i]!.least || s.most !== once.steps[i]!.most),
        ).toEqual([expect.objectContaining({ kind: first.kind, index: first.index })])
      }
    },
  )

  it('stops where one step is no dearer at most than all others at least, and its minutes are known well enough', () => {
    const unsettled = Array.from({ length: 12 }, (_, i) => 5150 + i).filter((seed) => {
      const drawn = drawProblem(seed, 'plain', false).problem
      const within = (nodes: number) => search(reduce(drawn, startOf(drawn)), { ...PLAIN, nodes })
      const { nodes, least, most, steps } = within(2000)
      if (most - least < 1e-9 || within(4000).nodes > nodes) return false
      const [best, ...others] = steps.toSorted((a, b) => a.most - b.most)
      expect(best!.most - best!.least, `${seed}`).toBeLessThanOrEqual(1)
      for (const other of others) expect(other.least, `${seed}`).toBeGreaterThan(best!.most)
      return true
    })
    expect(unsettled.length).toBeGreaterThan(0)
  })

  it('counts the leaf values and the states that it made', () => {
    // A sure check with two answers and two repairs: a leaf value for each answer and each repair, and the first state.
    const two = handProblem({
      priors: [0.5, 0.5],
      checks: [
        {
          minutes: 1,
          rows: [
            [1, 0],
            [0, 1],
          ],
        },
      ],
      repairs: [0, 1].map((s) => ({ minutes: 9, cures: [s] })),
    })
    expect(search(reduce(two, startOf(two)), { ...PLAIN, nodes: 0 }).nodes).toBe(4 + 1)
  })

  it('values every first step even with no nodes at all', () => {
    const found = search(reduced, { ...PLAIN, nodes: 0 })
    expect(found.steps.filter((s) => s.kind === 'check')).toHaveLength(reduced.checkOf.length)
    expect(found.steps.filter((s) => s.kind === 'repair')).toHaveLength(reduced.repairOf.length)
    expect(found.steps.at(-1)).toMatchObject({ kind: 'escalate', most: problem.escalateMinutes })
  })
})

describe('a search in a large problem', () => {
  it('comes to an end, with the values in order', () => {
    const problem = drawBuild(4, 12, 5)
    const reduced = reduce(problem, startOf(problem))
    const found = search(reduced, {
      hope: 0.3,
      width: { checks: 12, repairs: 8 },
      guess: guessFor(reduced),
      nodes: 1500,
    })
    expect(found.nodes).toBeLessThan(3000)
    expect(found.least).toBeLessThan(found.most)
  })

  it('comes to an end where a suspect is all but ruled out', () => {
    const problem = handProblem({
      priors: [1 - 3e-10, 2e-10, 1e-10],
      checks: [
        {
          minutes: 0.1,
          rows: [
            [1, 0],
            [0, 1],
            [1, 0],
          ],
        },
      ],
      repairs: [0, 1, 2].map((s) => ({ minutes: 1, cures: [s] })),
    })
    expect(search(reduce(problem, startOf(problem)), { ...PLAIN, nodes: 1e5 }).most).toBeCloseTo(1, 6)
  })
})
