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

/** Lessons added up. Sums of counts are counts, so they can be kept and added to. */
export interface Counts {
  /** Closed jobs that taught something, and the weight of all causes in them. */
  readonly jobs: number
  readonly weight: number
  /** By class: what turned up, and what the catalogue would have expected of as many jobs. */
  readonly classes: ReadonlyMap<string, { readonly counted: number; readonly expected: number }>
}

export function countsOf(lessons: readonly Lesson[]): Counts {
  const classes = new Map<string, { counted: number; expected: number }>()
  const of = (key: string) => classes.get(key) ?? { counted: 0, expected: 0 }
  let jobs = 0
  let weight = 0
  for (const { shares, causes } of lessons) {
    const each = [...causes.values()].reduce((sum, c) => sum + c, 0)
    if (each <= 0) continue
    jobs++
    weight += each
    for (const [key, q] of shares) classes.set(key, { ...of(key), expected: of(key).expected + q * each })
    for (const [key, n] of causes) classes.set(key, { ...of(key), counted: of(key).counted + n })
  }
  return { jobs, weight, classes }
}

/** Pure. @returns a factor for each class that could have turned up; with nothing counted, nothing. */
export const learnFrom = ({ weight, classes }: Counts, priorJobs = PRIOR_JOBS): Learned =>
  new Map(
    [...classes]
      .filter(([, { expected }]) => expected > 0)
      .sort(([a], [b]) => (a < b ? -1 : 1))
      .map(([key, { counted, expected }]) => {
        const q = expected / weight
        return [key, (priorJobs * q + counted) / ((priorJobs + weight) * q)]
      }),
  )

export const learn = (lessons: readonly Lesson[], priorJobs = PRIOR_JOBS): Learned =>
  learnFrom(countsOf(lessons), priorJobs)
