import { describe, expect, it } from 'vitest'
import { entropyBits, informationGainBits, outcomeOdds, posterior } from '../../../src/core/infer/belief.ts'
import fc from '../../support/fast-check.ts'

const share = fc.double({ min: 0.001, max: 1, noNaN: true })
const column = (n: number): fc.Arbitrary<number[]> => fc.array(share, { minLength: n, maxLength: n })

describe('the belief after some answers', () => {
  it('is the prior where nothing was answered, whatever its scale', () => {
    expect([...posterior([3, 1], [])]).toEqual([0.75, 0.25])
  })

  it('does not depend on the order of the answers', () => {
    fc.assert(
      fc.property(column(4), fc.array(column(4), { maxLength: 6 }), (prior, columns) => {
        const there = posterior(prior, columns)
        const back = posterior(prior, [...columns].reverse())
        there.forEach((p, s) => {
          expect(back[s]).toBeCloseTo(p, 12)
        })
      }),
    )
  })

  it('is a long product taken in logarithms, where a plain product would be lost', () => {
    // 400 answers of 1e-3 against 1.001e-3: the product is 1e-1200, the ratio 1.001^400.
    const columns = Array.from({ length: 400 }, () => [1e-3, 1.001e-3])
    const ratio = Math.exp(400 * Math.log(1.001))
    const belief = posterior([0.5, 0.5], columns)
    expect(belief[1]! / belief[0]!).toBeCloseTo(ratio, 9)
    expect(belief[0]! + belief[1]!).toBeCloseTo(1, 12)
  })

  it('holds even where one likelihood alone is near the smallest number there is', () => {
    const belief = posterior([0.5, 0.5], [[2e-308, 6e-308]])
    expect(belief[0]).toBeCloseTo(0.25, 9)
  })

  it('is nothing where the answers rule out every suspect, and stays so', () => {
    expect([
      ...posterior(
        [0.5, 0.5],
        [
          [1, 0],
          [0, 1],
          [1, 1],
        ],
      ),
    ]).toEqual([0, 0])
    expect([...posterior([0, 0], [[1, 1]])]).toEqual([0, 0])
  })

  it('is not moved by an answer that everyone would give alike', () => {
    const belief = posterior([0.2, 0.3, 0.5], [[0.1, 0.1, 0.1]])
    ;[0.2, 0.3, 0.5].forEach((p, s) => {
      expect(belief[s]).toBeCloseTo(p, 12)
    })
  })

  it('leaves the prior that it was given alone', () => {
    const prior = Float64Array.of(0.5, 0.5)
    posterior(prior, [[1, 0]])
    expect([...prior]).toEqual([0.5, 0.5])
  })
})

describe('entropy and what a check tells', () => {
  it('is log2 of the count for equal shares, and a plain zero for certainty', () => {
    expect(entropyBits(new Array(8).fill(1 / 8))).toBe(3)
    expect(Object.is(entropyBits([1, 0]), 0)).toBe(true)
  })

  it('expects each outcome with its share of the belief', () => {
    const odds = outcomeOdds(
      [0.25, 0.75],
      [
        [1, 0],
        [0.2, 0.8],
      ],
      2,
    )
    expect(odds[0]).toBeCloseTo(0.25 + 0.75 * 0.2, 12)
    expect(odds[1]).toBeCloseTo(0.6, 12)
  })

  it('gains what the entropy falls by, followed outcome by outcome', () => {
    const row = column(3).map((r) => {
      const sum = r.reduce((a, b) => a + b, 0)
      return r.map((x) => x / sum)
    })
    fc.assert(
      fc.property(column(4), fc.array(row, { minLength: 4, maxLength: 4 }), (prior, table) => {
        const belief = posterior(prior, [])
        const odds = outcomeOdds(belief, table, 3)
        let after = 0
        for (let o = 0; o < 3; o++) {
          const left = posterior(belief, [table.map((r) => r[o]!)])
          after += odds[o]! * entropyBits(left)
        }
        expect(informationGainBits(belief, table, 3)).toBeCloseTo(entropyBits(belief) - after, 9)
      }),
    )
  })

  it('gains nothing from suspects that are not believed', () => {
    expect(
      informationGainBits(
        [1, 0],
        [
          [1, 0],
          [0, 1],
        ],
        2,
      ),
    ).toBe(0)
  })
})
