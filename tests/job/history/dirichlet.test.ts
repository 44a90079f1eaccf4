/**
 * Counts to factors. With prior shares q worth A jobs and n of N jobs, the posterior mean of a share is (A q + n) / (A + N)
 * (Gelman and others, Bayesian Data Analysis, section 3.4; from memory).
 */
import { describe, expect, test } from 'vitest'
import { factorsOf, lnGamma } from '../../../src/job/history/dirichlet.ts'
import fc from '../../support/fast-check.ts'

const tallies = (counted: readonly number[], shares: readonly number[]) => {
  const jobs = counted.reduce((a, b) => a + b, 0)
  return new Map(counted.map((n, i) => [`c${i}`, { counted: n, expected: (shares[i] ?? 0) * jobs }]))
}

// NIST Digital Library of Mathematical Functions, 5.4.1 and 5.4.6: Γ(n + 1) = n!, Γ(1/2) = √π; and 5.5.1: Γ(x + 1) = x Γ(x).
describe('the logarithm of the gamma function', () => {
  test('is that of the factorials, and of the root of π', () => {
    expect(lnGamma(1)).toBeCloseTo(0, 9)
    expect(lnGamma(6)).toBeCloseTo(Math.log(120), 9)
    expect(lnGamma(21)).toBeCloseTo(Math.log(2432902008176640000), 9)
    expect(lnGamma(0.5)).toBeCloseTo(Math.log(Math.PI) / 2, 9)
  })

  test('grows by ln x from x to x + 1', () => {
    fc.assert(
      fc.property(fc.double({ min: 1e-3, max: 2000, noNaN: true }), (x) => {
        expect(lnGamma(x + 1) - lnGamma(x)).toBeCloseTo(Math.log(x), 7)
      }),
    )
  })
})

// A = 10, N = 10, all of them in a class of 0.3: (10 × 0.3 + 10) / 20 = 0.65, which is 0.65 / 0.3 = 2.1667 times the share.
test('with one strength the factor is the mean of the posterior over the share', () => {
  const factors = factorsOf(tallies([0, 10, 0], [0.5, 0.3, 0.2]), [10])
  expect(factors.get('c1')).toBeCloseTo(0.65 / 0.3, 10)
  expect(factors.get('c0')).toBeCloseTo(0.5, 10)
  expect(factors.get('c2')).toBeCloseTo(0.5, 10)
})

/** The same drawn from an urn: each job after the other, by what came before it; no gamma function in it. */
function byUrn(
  counted: readonly number[],
  shares: readonly number[],
  strengths: readonly number[],
): number[] {
  const jobs = counted.flatMap((n, i) => Array.from({ length: n }, () => i))
  const chances = strengths.map((a) =>
    jobs.reduce((chance, at, j) => {
      const before = jobs.slice(0, j).filter((i) => i === at).length
      return (chance * (a * (shares[at] ?? 0) + before)) / (a + j)
    }, 1),
  )
  const all = chances.reduce((sum, c) => sum + c, 0)
  return shares.map((q, i) =>
    strengths.reduce((sum, a, k) => {
      const share = (a * q + (counted[i] ?? 0)) / (a + jobs.length)
      return sum + (((chances[k] ?? 0) / all) * share) / q
    }, 0),
  )
}

test('with several strengths each counts by how likely it makes the jobs, drawn one after the other', () => {
  const counts = fc.array(fc.nat(12), { minLength: 3, maxLength: 3 })
  fc.assert(
    fc.property(counts, (counted) => {
      fc.pre(counted.some((n) => n > 0))
      const shares = [0.6, 0.3, 0.1]
      const factors = [...factorsOf(tallies(counted, shares), [5, 50, 500]).values()]
      byUrn(counted, shares, [5, 50, 500]).forEach((f, i) => {
        expect(factors[i]).toBeCloseTo(f, 6)
      })
    }),
  )
})

test('the shares to come sum to 1, also of counts in parts', () => {
  const counts = fc.array(fc.double({ min: 0, max: 300, noNaN: true }), { minLength: 4, maxLength: 4 })
  fc.assert(
    fc.property(counts, (counted) => {
      fc.pre(counted.some((n) => n > 0.1))
      const shares = [0.4, 0.3, 0.2, 0.1]
      const factors = factorsOf(tallies(counted, shares))
      const sum = shares.reduce((s, q, i) => s + q * (factors.get(`c${i}`) ?? 0), 0)
      expect(sum).toBeCloseTo(1, 9)
    }),
  )
})

test('one rare thing that did not turn up is hardly doubted where the rest is as expected', () => {
  // Expected once in 200; without a held back strength 30 jobs of prior would make it 30 / 230, an eighth.
  const factors = factorsOf(tallies([101, 60, 39, 0], [0.5, 0.3, 0.195, 0.005]))
  expect(factors.get('c3')).toBeGreaterThan(0.5)
})
