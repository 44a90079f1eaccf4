/**
 * Jobs with a fault that comes and goes, its contact drawn anew after each change to the build: broken as the job begins,
 * holding for a share of the times after that. Counted is which jobs are closed with the fault alive: it would show again.
 */
import { flows } from '../../flows/all.ts'
import { compile } from '../../src/core/bench/build.ts'
import type { Edit } from '../../src/core/bench/edit.ts'
import { run } from '../../src/core/bench/run.ts'
import { HAND_OVER_MINUTES } from '../../src/core/checks/looks.ts'
import { type MapKind, mappedAll } from '../../src/core/checks/maps.ts'
import { scopeAfter } from '../../src/core/infer/foresee.ts'
import { wantedAfter } from '../../src/core/infer/planned.ts'
import type { Plan } from '../../src/core/plan/plan.ts'
import { runJob } from '../support/run-job.ts'
import { type Case, groundOf, seeded, singles } from './accuracy.ts'

/** What is looked over whatever the symptom. */
const GLANCES: readonly MapKind[] = ['spins', 'lit', 'shows', 'rpm']
/** So often a contact that is drawn anew holds. */
const HOLDS = 0.35

export interface Closed {
  readonly weight: number
  readonly outcome: string
  /** What was planted shows something that is not as wanted, in its bad moment. */
  readonly alive: boolean
  readonly named: boolean
  readonly minutes: number
  /** With what a job costs that is not fixed, or comes back. */
  readonly cost: number
}

/** Every fault of a plan that comes and goes, under every symptom it shows. */
export const unsteadyCases = (plan: Plan): readonly Case[] =>
  singles(plan).cases.filter((one) => one.faults.some((f) => f.intermittent))

/** Plays the job, with true answers. */
export async function closed(plan: Plan, one: Case, seed: number): Promise<Closed> {
  const build = compile(plan)
  const chance = seeded(seed)
  const faults = one.faults.map((f) => f.fault)
  const past = {
    since: 'new',
    worked: 'never',
    'comes-and-goes': 'yes',
    spare: 'yes',
    tool: 'yes',
    consent: 'yes',
  }
  const ground = groundOf(plan, one.symptom)
  const { end, named, prompts } = await runJob(
    plan,
    one.symptom,
    faults,
    { past, holds: () => chance() < HOLDS },
    ground,
  )
  const history: Edit[] = prompts.flatMap((p) => (p.show === 'do' ? p.edits : []))
  const { see } = run(build, { plants: one.faults.map((f) => f.plant), edits: history })
  const about =
    flows.find((f) => f.id === one.symptom)?.scoping.flatMap((t) => ('map' in t ? [t.map] : [])) ?? []
  const looks = mappedAll(build, [...new Set<MapKind>([...GLANCES, ...about])])
  const seenBy = scopeAfter(build, looks, history)
  const alive = looks.some((o, i) => see(seenBy[i]!) !== wantedAfter(build, o, history))
  const lost = end.outcome !== 'fixed' || alive
  return {
    weight: one.faults.reduce((p, f) => p * f.weight, 1),
    outcome: end.outcome,
    alive,
    named,
    minutes: end.minutes,
    cost: end.minutes + (lost ? HAND_OVER_MINUTES : 0),
  }
}
