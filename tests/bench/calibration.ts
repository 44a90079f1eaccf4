/**
 * Whether "80 %" means 80 %: plays jobs whose faults are drawn by their priors and whose answers go wrong now and then, and
 * notes at each step how sure the program was of its first suspect, and whether that was right.
 */
import type { Plan } from '../../src/core/plan/plan.ts'
import { runJob, sameFaults } from '../support/run-job.ts'
import { type Case, seeded, singles } from './accuracy.ts'

export interface Said {
  /** Share given to the first suspect with all that are alike. */
  readonly p: number
  readonly right: boolean
}

const weightOf = (one: Case): number => one.faults.reduce((product, f) => product * f.weight, 1)

/** The case whose share of the weights a number falls into. */
function drawnAt(place: number, cases: readonly Case[]): Case | undefined {
  let left = place
  for (const one of cases) {
    left -= weightOf(one)
    if (left < 0) return one
  }
  return cases[0]
}

/** @param wrong chance that a look is told wrong   @returns one entry for each time suspects were told */
export async function saidInJobs(plan: Plan, jobs: number, wrong: number, seed: number): Promise<Said[]> {
  const chance = seeded(seed)
  const { cases } = singles(plan)
  const total = cases.reduce((sum, one) => sum + weightOf(one), 0)
  const said: Said[] = []
  for (let job = 0; job < jobs; job++) {
    const drawn = drawnAt(chance() * total, cases)
    if (!drawn) continue
    const faults = drawn.faults.map((f) => f.fault)
    const ran = await runJob(plan, drawn.symptom, faults, { errs: () => chance() < wrong })
    for (const event of ran.events) {
      const first = event.e === 'suspects' ? event.suspects[0] : undefined
      if (first)
        said.push({ p: first.p, right: [first, ...first.alike].some((s) => sameFaults(s.faults, faults)) })
    }
  }
  return said
}
