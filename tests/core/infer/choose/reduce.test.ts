import { describe, expect, it } from 'vitest'
import { ALWAYS_KEPT, classesOf, MOST_KEPT } from '../../../../src/core/infer/choose/classes.ts'
import { reduce } from '../../../../src/core/infer/choose/reduce.ts'
import { handProblem, startOf } from './hand-problem.ts'

/** As many suspects as shares, each told apart by a check of its own kind and cured by its own repair. */
function apart(shares: readonly number[]) {
  const sum = shares.reduce((a, b) => a + b, 0)
  return handProblem({
    priors: shares.map((x) => x / sum),
    checks: [{ minutes: 1, rows: shares.map((_, s) => [s / shares.length, 1 - s / shares.length]) }],
    repairs: shares.map((_, s) => ({ minutes: 1 + s, cures: [s] })),
  })
}

describe('the classes to plan with', () => {
  it('hold suspects that nothing tells apart together, likeliest first', () => {
    const problem = handProblem({
      priors: [0.1, 0.5, 0.15, 0.25],
      checks: [
        {
          minutes: 1,
          rows: [
            [1, 0],
            [0, 1],
            [1, 0],
            [1, 0],
          ],
        },
      ],
      repairs: [{ minutes: 1, cures: [0, 2] }],
    })
    expect(classesOf(problem, startOf(problem))).toEqual({ kept: [[1], [2, 0], [3]], tail: [] })
  })

  it('leave out suspects that are not believed', () => {
    const problem = apart([1, 1, 1])
    const belief = Float64Array.of(0.5, 0.5 - 1e-13, 1e-13)
    expect(classesOf(problem, startOf(problem, { belief })).kept).toEqual([[0], [1]])
  })

  it('are all kept while there are few, however unlikely', () => {
    const shares = Array.from({ length: ALWAYS_KEPT }, (_, s) => 10 ** -(s / 2))
    expect(classesOf(apart(shares), startOf(apart(shares)))).toMatchObject({ tail: [] })
    const more = apart([...shares, 1e-9])
    const { kept, tail } = classesOf(more, startOf(more))
    expect(kept).toHaveLength(ALWAYS_KEPT)
    expect(tail).toEqual([ALWAYS_KEPT])
  })

  it('are kept beyond the few until nearly all of the belief is reached', () => {
    // 20 equal suspects: 16 are 80 %, so all 20 are wanted.
    const equal = apart(new Array(20).fill(1))
    expect(classesOf(equal, startOf(equal)).kept).toHaveLength(20)
  })

  it('are never more than the most', () => {
    const many = apart(new Array(60).fill(1))
    const { kept, tail } = classesOf(many, startOf(many))
    expect(kept).toHaveLength(MOST_KEPT)
    expect(tail).toEqual(Array.from({ length: 20 }, (_, i) => MOST_KEPT + i))
  })

  it('go by index where suspects are equally likely', () => {
    const problem = apart([1, 2, 1, 2])
    expect(classesOf(problem, startOf(problem)).kept).toEqual([[1], [3], [0], [2]])
  })
})

describe('a problem made small', () => {
  const problem = handProblem({
    priors: [0.2, 0.5, 0.3],
    checks: [
      {
        minutes: 1,
        mode: 'off',
        rows: [
          [0.9, 0.1],
          [0.2, 0.8],
          [0.2, 0.8],
        ],
      },
      {
        minutes: 2,
        rows: [
          [0.5, 0.5],
          [0.5, 0.5],
          [0.5, 0.5],
        ],
      },
    ],
    repairs: [
      { minutes: 4, cures: [1] },
      { minutes: 3, cures: [1] },
      { minutes: 3.5, mode: 'off', cures: [1] },
      { minutes: 1, cures: [] },
      { minutes: 2, cures: [0, 2] },
      { minutes: 2, cures: [0, 2] },
    ],
  })

  it('has its classes by likelihood, with weights that sum to 1 whatever the belief sums to', () => {
    const reduced = reduce(problem, startOf(problem))
    expect([...reduced.weight]).toEqual([0.5, 0.3, 0.2])
    const half = reduce(problem, startOf(problem, { belief: Float64Array.of(0.1, 0.25, 0.15) }))
    expect([...half.weight]).toEqual([0.5, 0.3, 0.2])
  })

  it('has no check whose answer is expected alike by all', () => {
    const reduced = reduce(problem, startOf(problem))
    expect([...reduced.checkOf]).toEqual([0])
    expect([...reduced.checkMode]).toEqual([1])
    expect([...reduced.rowStart]).toEqual([0, 2])
    expect([...reduced.rows]).toEqual([0.2, 0.2, 0.9, 0.8, 0.8, 0.1])
  })

  it('has of repairs that cure just the same in one power state the quickest, of equals the first', () => {
    const reduced = reduce(problem, startOf(problem))
    expect([...reduced.repairOf]).toEqual([1, 2, 4])
    expect([...reduced.repairMinutes]).toEqual([3, 3.5, 2])
    expect([...reduced.repairMode]).toEqual([0, 1, 0])
    expect([...reduced.fixedStart]).toEqual([0, 1, 2, 4])
    expect([...reduced.fixed]).toEqual([0, 0, 1, 2])
  })

  it('has its repairs in the order in which they are written, whichever was the first to cure the same', () => {
    const written = handProblem({
      priors: [0.6, 0.4],
      repairs: [
        { minutes: 4, cures: [0] },
        { minutes: 2, cures: [1] },
        { minutes: 3, cures: [0] },
      ],
    })
    expect([...reduce(written, startOf(written)).repairOf]).toEqual([1, 2])
  })

  it('takes power modes as seen from where repairs are proven', () => {
    const turned = { ...problem, verifyMode: 'off' as const }
    const reduced = reduce(turned, startOf(turned))
    expect(reduced.mode).toBe(1)
    expect([...reduced.checkMode]).toEqual([0])
    expect([...reduced.repairMode]).toEqual([1, 0, 1])
    expect(reduce(turned, startOf(turned, { mode: 'off' })).mode).toBe(0)
  })

  it('has only what is left to do', () => {
    const reduced = reduce(problem, startOf(problem, { checksLeft: [1], repairsLeft: [3, 4] }))
    expect([...reduced.checkOf]).toEqual([])
    expect([...reduced.repairOf]).toEqual([4])
    expect(reduced.n).toBe(2)
  })

  it('is empty where nothing is believed', () => {
    expect(reduce(problem, startOf(problem, { belief: new Float64Array(3) })).n).toBe(0)
  })
})

describe('the tail', () => {
  // 41 likely suspects of share 1 and two of the tail, of share 0.1 and 0.3, in shares of 41.4 … but for the kept 40.
  const shares = [...new Array(40).fill(1), 0.3, 0.1]
  const sum = 40.4
  const problem = handProblem({
    priors: shares.map((x) => x / sum),
    checks: [
      {
        minutes: 1,
        rows: shares.map((_, s) => (s < 40 ? [s / 100, 1 - s / 100] : s === 40 ? [1, 0] : [0, 1])),
      },
    ],
    repairs: [
      ...new Array(40).fill(0).map((_, s) => ({ minutes: 1 + s / 100, cures: [s] })),
      { minutes: 4, cures: [40] },
      { minutes: 3, mode: 'off' as const, cures: [41] },
    ],
    escalateMinutes: 20,
  })
  const reduced = reduce(problem, startOf(problem))

  it('is one class more, with all the belief that is left', () => {
    expect(reduced.n).toBe(41)
    expect(reduced.weight[40]).toBeCloseTo(0.4 / sum, 12)
  })

  it('answers as its suspects do on average', () => {
    expect(reduced.rows[40]).toBeCloseTo(0.75, 12)
    expect(reduced.rows[41 + 40]).toBeCloseTo(0.25, 12)
  })

  it('is cured by a stand-in that takes the minutes of its own repairs one after the other', () => {
    const last = reduced.repairOf.length - 1
    expect(reduced.repairOf[last]).toBe(-1)
    expect(reduced.repairMode[last]).toBe(0)
    expect([...reduced.fixed.slice(reduced.fixedStart[last])]).toEqual([40])
    // 4 first (0.75 / 4), then with a quarter left 3 and two switches.
    expect(reduced.repairMinutes[last]).toBeCloseTo(4 + 0.25 * 7, 12)
  })

  it('is handed over where its repairs take longer', () => {
    const dear = { ...problem, escalateMinutes: 5 }
    const r = reduce(dear, startOf(dear))
    expect(r.repairMinutes[r.repairOf.length - 1]).toBe(5)
  })

  it('takes no time from repairs that cure nothing of it', () => {
    // The one repair left for it cures three quarters, then the rest is handed over.
    const r = reduce(problem, startOf(problem, { repairsLeft: [...new Array(41).keys()] }))
    expect(r.repairMinutes[r.repairOf.length - 1]).toBeCloseTo(4 + 0.25 * 20, 12)
  })

  it('is handed over where nothing cures it', () => {
    const r = reduce(problem, startOf(problem, { repairsLeft: [...new Array(40).keys()] }))
    expect(r.repairMinutes[r.repairOf.length - 1]).toBe(20)
  })
})
