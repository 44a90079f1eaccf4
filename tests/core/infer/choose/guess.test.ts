import { describe, expect, it } from 'vitest'
import { cautious, guessFor, repairBits } from '../../../../src/core/infer/choose/guess.ts'
import { reduce } from '../../../../src/core/infer/choose/reduce.ts'
import { type HandProblem, handProblem, startOf } from './hand-problem.ts'

const reducedOf = (written: HandProblem) => {
  const problem = handProblem(written)
  return reduce(problem, startOf(problem))
}

const quarters = [0.25, 0.25, 0.25, 0.25]

describe('bits over what would be repaired', () => {
  it('count suspects with the same quickest repair as one, and those that nothing cures as one', () => {
    const reduced = reducedOf({
      priors: [0.2, 0.2, 0.2, 0.2, 0.2],
      checks: [{ minutes: 1, rows: [0.1, 0.2, 0.3, 0.4, 0.5].map((p) => [p, 1 - p]) }],
      repairs: [
        { minutes: 9, cures: [0, 1, 2] },
        { minutes: 3, cures: [0, 1] },
        { minutes: 3, cures: [0] },
      ],
    })
    // r1 is the quickest for 0 and 1 (r2 is no quicker), r0 for 2; 3 and 4 have none.
    const bits = -(0.4 * Math.log2(0.4) * 2 + 0.2 * Math.log2(0.2))
    expect(repairBits(reduced)(reduced.weight)).toBeCloseTo(bits, 12)
  })

  it('count the two switches of a repair with power off', () => {
    const reduced = reducedOf({
      priors: [0.5, 0.5],
      checks: [
        {
          minutes: 1,
          rows: [
            [0, 1],
            [1, 0],
          ],
        },
      ],
      repairs: [
        { minutes: 1, mode: 'off', cures: [0, 1] },
        { minutes: 4.9, cures: [0] },
        { minutes: 5.1, cures: [1] },
      ],
    })
    expect(repairBits(reduced)(Float64Array.of(0.5, 0.5))).toBeCloseTo(1, 12)
  })

  it('grow with the mass, and are nothing for one suspect', () => {
    const reduced = reducedOf({
      priors: quarters,
      repairs: quarters.map((_, s) => ({ minutes: 1, cures: [s] })),
    })
    const bits = repairBits(reduced)
    expect(bits(Float64Array.of(1, 1, 1, 1))).toBeCloseTo(8, 12)
    expect(bits(Float64Array.of(0, 3, 0, 0))).toBe(0)
  })
})

describe('the guess', () => {
  const written = (checks: HandProblem['checks']): HandProblem => ({
    priors: quarters,
    ...(checks ? { checks } : {}),
    repairs: quarters.map((_, s) => ({ minutes: 1, cures: [s] })),
  })
  const half = [
    [1, 0],
    [1, 0],
    [0, 1],
    [0, 1],
  ] as const
  const other = [
    [1, 0],
    [0, 1],
    [1, 0],
    [0, 1],
  ] as const

  it('adds to being told the minutes of the bits at the going rate', () => {
    // One bit for 3 minutes, one for 1 minute and half a switch: 2.5 minutes a bit, and two bits to go.
    const reduced = reducedOf(
      written([
        { minutes: 3, rows: half },
        { minutes: 1, mode: 'off', rows: other },
      ]),
    )
    expect(guessFor(reduced)(Float64Array.from(quarters), 10, 100)).toBeCloseTo(10 + 2 * 2.5, 9)
  })

  it('has half the rate where a check tells twice as much', () => {
    const each = quarters.map((_, s) => quarters.map((_, o) => (o === s ? 1 : 0)))
    const reduced = reducedOf(written([{ minutes: 3, rows: each }]))
    expect(guessFor(reduced)(Float64Array.from(quarters), 10, 100)).toBeCloseTo(10 + 2 * (3 / 2), 9)
  })

  it('is never above what repairs alone take', () => {
    const reduced = reducedOf(written([{ minutes: 3, rows: half }]))
    expect(guessFor(reduced)(Float64Array.from(quarters), 10, 11)).toBe(11)
  })

  it('takes the rate of the best five checks only', () => {
    const reduced = reducedOf(written([60, 5, 1, 4, 2, 3].map((minutes) => ({ minutes, rows: half }))))
    expect(guessFor(reduced)(Float64Array.from(quarters), 0, 100)).toBeCloseTo(2 * 3, 9)
  })

  it('is what repairs alone take where no check tells anything', () => {
    const reduced = reducedOf(written(undefined))
    expect(guessFor(reduced)).toBe(cautious)
    expect(cautious(Float64Array.from(quarters), 1, 7)).toBe(7)
  })

  it('takes no rate from a check that tells apart only what one repair cures', () => {
    const reduced = reducedOf({
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
      repairs: [{ minutes: 1, cures: [0, 1] }],
    })
    expect(guessFor(reduced)).toBe(cautious)
  })
})
