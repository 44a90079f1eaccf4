/** Jobs summed up: how they ended, which causes and which kinds of things, and the minutes that went into them. */
import type { Outcome } from '../../core/checks/prompt.ts'
import { faultText } from '../../core/faults/fault.ts'
import type { Summary } from '../report/summary.ts'

export interface Row {
  readonly name: string
  readonly jobs: number
  readonly minutes: number
}

export interface Sums {
  readonly jobs: number
  readonly minutes: number
  readonly outcomes: readonly Row[]
  /** By fault mode, without its place: `loose`, `open-TACH`. */
  readonly causes: readonly Row[]
  /** By place: `F2.motor`. Only of use where one build comes back. */
  readonly places: readonly Row[]
  readonly builds: readonly Row[]
}

/** Sums in memory, as the store's own come out (`postgres/adding-up.ts`). */
export function sumsOf(jobs: readonly Summary[]): Sums {
  const faults = jobs.flatMap((job) => (job.cause?.faults ?? []).map((fault) => ({ fault, job })))
  return {
    jobs: jobs.length,
    minutes: rounded(jobs.reduce((sum, job) => sum + job.minutes, 0)),
    outcomes: rows(jobs.map((job): [Outcome | 'open', number] => [job.outcome, job.minutes])),
    causes: rows(faults.map(({ fault, job }) => [fault.mode, job.minutes])),
    places: rows(faults.map(({ fault, job }) => [`${job.build}: ${faultText(fault)}`, job.minutes])),
    builds: rows(jobs.map((job) => [job.build, job.minutes])),
  }
}

const rounded = (minutes: number): number => Math.round(minutes * 10) / 10

/** Most jobs first; where as many, by name. */
function rows(items: readonly (readonly [name: string, minutes: number])[]): Row[] {
  const by = new Map<string, { jobs: number; minutes: number }>()
  for (const [name, minutes] of items) {
    const row = by.get(name) ?? { jobs: 0, minutes: 0 }
    by.set(name, { jobs: row.jobs + 1, minutes: row.minutes + minutes })
  }
  return [...by]
    .map(([name, row]) => ({ name, jobs: row.jobs, minutes: rounded(row.minutes) }))
    .sort((a, b) => b.jobs - a.jobs || (a.name < b.name ? -1 : 1))
}
