/**
 * Closed jobs to factors: Dirichlet counts over classes of faults, with the catalogue as prior. With shares q of the
 * catalogue, a prior worth A jobs and n of N jobs in a class, the class is expected in (A q + n) / (A + N) of the
 * jobs to come; the factor is that over q. (The Dirichlet's posterior mean; any textbook on Bayesian statistics.)
 */
import type { Learned } from '../../core/infer/learned.ts'

/** What one closed job teaches. */
export interface Lesson {
  /** The catalogue's shares on that build. */
  readonly shares: ReadonlyMap<string, number>
  /** The causes by class; where several cannot be told apart, each has its part of 1. */
  readonly causes: ReadonlyMap<string, number>
}

/** The catalogue counts as much as this many jobs: found on simulated benches, see `tests/bench/learning.mjs`. */
export const PRIOR_JOBS = 30

/** Pure. @returns a factor for each class that could have turned up; with no lessons, nothing. */
export function learn(lessons: readonly Lesson[], priorJobs = PRIOR_JOBS): Learned {
  const expected = new Map<string, number>()
  const counted = new Map<string, number>()
  let jobs = 0
  for (const { shares, causes } of lessons) {
    const weight = [...causes.values()].reduce((sum, c) => sum + c, 0)
    if (weight <= 0) continue
    jobs += weight
    for (const [key, q] of shares) expected.set(key, (expected.get(key) ?? 0) + q * weight)
    for (const [key, n] of causes) counted.set(key, (counted.get(key) ?? 0) + n)
  }
  return new Map(
    [...expected]
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, e]) => {
        const q = e / jobs
        return [key, (priorJobs * q + (counted.get(key) ?? 0)) / ((priorJobs + jobs) * q)]
      }),
  )
}
