/**
 * Plays whole jobs with planted faults, the bench standing in for the person, and counts how they end. The faults are all
 * those of a plan that show under a symptom at all: something on the symptom's own map is not as the plan has it.
 */
import { flows } from '../../flows/all.ts'
import { type Build, compile } from '../../src/core/bench/build.ts'
import { run } from '../../src/core/bench/run.ts'
import { mapAsk } from '../../src/core/checks/maps.ts'
import { faultsOf, type KnownFault } from '../../src/core/faults/catalogue.ts'
import { type Fault, faultText } from '../../src/core/faults/fault.ts'
import type { Plan } from '../../src/core/plan/plan.ts'
import type { Ground } from '../../src/job/drive/job.ts'
import { groundFor, runJob } from '../support/run-job.ts'

export interface Case {
  readonly symptom: string
  readonly faults: readonly KnownFault[]
}

export interface Score {
  readonly case: Case
  readonly outcome: string
  readonly named: boolean
  readonly minutes: number
  readonly asked: number
  readonly waits: readonly number[]
  /** What was named instead. */
  readonly instead: string
}

const nameOf = (faults: readonly Fault[]): string => faults.map(faultText).join(' + ')

export const caseName = ({ symptom, faults }: Case): string =>
  `${symptom} ${nameOf(faults.map((f) => f.fault))}`

/** What a person marks on the map of each symptom, having these faults; the healthy build's own sights are no symptom. */
function marked(build: Build, faults: readonly KnownFault[]): ReadonlyMap<string, string> {
  const healthy = run(build, { plants: [], edits: [] })
  const sick = run(build, { plants: faults.map((f) => f.plant), edits: [] })
  return new Map(
    flows.flatMap((flow): [string, string][] => {
      const topic = flow.scoping.find((t) => 'map' in t)
      if (!topic || !('map' in topic)) return []
      const ask = mapAsk(build, [topic.map], 'scope')
      if (!ask.many) return []
      const held = ask.marks.filter(
        (m) => sick.see(m.observe) === m.value && healthy.see(m.observe) !== m.value,
      )
      return held.length === 0 ? [] : [[flow.id, held.map((m) => m.id).join(' ')]]
    }),
  )
}

/**
 * Every single fault of a plan under every symptom it shows, and how many show under none.
 * @param each only each Nth fault is looked at: all symptoms of a fault on a thousand fans take a tenth of a second
 */
export function singles(
  plan: Plan,
  each = 1,
): {
  readonly cases: readonly Case[]
  readonly unseen: number
  readonly all: number
} {
  const build = compile(plan)
  const all = faultsOf(build).filter((_, i) => i % each === 0)
  const shown = all.map((fault) => ({ fault, symptoms: [...marked(build, [fault]).keys()] }))
  return {
    cases: shown.flatMap(({ fault, symptoms }) => symptoms.map((symptom) => ({ symptom, faults: [fault] }))),
    unseen: shown.filter((e) => e.symptoms.length === 0).length,
    all: all.length,
  }
}

/**
 * Pairs of the likeliest faults of a plan, each under the first symptom that both show. A pair of which one hides the
 * other (together they show what one alone does) is left out: nobody could see that there are two.
 */
export function pairs(plan: Plan, most: number): Case[] {
  const build = compile(plan)
  const likely = [...faultsOf(build)]
    .sort((a, b) => b.weight - a.weight)
    .slice(0, most)
    .map((fault) => ({ fault, shows: marked(build, [fault]) }))
  return likely.flatMap((a, i) =>
    likely.slice(i + 1).flatMap((b): Case[] => {
      const both = marked(build, [a.fault, b.fault])
      const symptom = [...both].find(
        ([id, marks]) =>
          a.shows.has(id) && b.shows.has(id) && marks !== a.shows.get(id) && marks !== b.shows.get(id),
      )?.[0]
      return symptom === undefined ? [] : [{ symptom, faults: [a.fault, b.fault] }]
    }),
  )
}

/** Numbers from 0 to 1 that are the same for the same seed (a linear congruential generator, Numerical Recipes' constants). */
export function seeded(seed: number): () => number {
  let state = seed >>> 0
  return () => {
    state = (Math.imul(state, 1664525) + 1013904223) >>> 0
    return state / 4294967296
  }
}

const grounds = new Map<Plan, Map<string, Ground>>()

/** Knowledge of a plan takes a while to make and is the same for each job. */
export function groundOf(plan: Plan, symptom: string): Ground {
  const known = grounds.get(plan) ?? new Map<string, Ground>()
  grounds.set(plan, known)
  const ground = known.get(symptom) ?? groundFor(plan, symptom)
  known.set(symptom, ground)
  return ground
}

/** @param wrong chance that a look or a mark is told wrong, 0 to 1 */
export async function score(plan: Plan, one: Case, wrong = 0, seed = 1): Promise<Score> {
  const chance = seeded(seed)
  const past = {
    since: 'new',
    worked: 'never',
    'comes-and-goes': one.faults.some((f) => f.intermittent) ? 'yes' : 'no',
    spare: 'yes',
    tool: 'yes',
    consent: 'yes',
  }
  try {
    const ran = await runJob(
      plan,
      one.symptom,
      one.faults.map((f) => f.fault),
      { past, ...(wrong > 0 ? { errs: () => chance() < wrong } : {}) },
      groundOf(plan, one.symptom),
    )
    return {
      case: one,
      outcome: ran.end.outcome,
      named: ran.named,
      minutes: ran.end.minutes,
      asked: ran.prompts.length,
      waits: ran.waits,
      instead: nameOf(ran.end.suspects[0]?.faults ?? []),
    }
  } catch (error) {
    const instead = error instanceof Error ? error.message : String(error)
    return { case: one, outcome: 'failed', named: false, minutes: 0, asked: 0, waits: [], instead }
  }
}
