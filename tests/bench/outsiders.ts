/**
 * Causes that the catalogue does not have: on the map of a symptom some things that share nothing are seen to be wrong in
 * different ways, whatever is done to the build. No fault and no pair of faults shows that, so the job should be
 * declined: "none of these". Beside the answers to these things everything is as the healthy build shows it.
 */
import { flows } from '../../flows/all.ts'
import { audit } from '../../src/core/audit/audit.ts'
import { compile } from '../../src/core/bench/build.ts'
import { type Observable, observableKey, type Value } from '../../src/core/bench/observable.ts'
import { mapAsk } from '../../src/core/checks/maps.ts'
import { faultText } from '../../src/core/faults/fault.ts'
import { knowledgeOf } from '../../src/core/infer/assess.ts'
import { wanted } from '../../src/core/infer/planned.ts'
import type { Plan } from '../../src/core/plan/plan.ts'
import { groundFor, runJob } from '../support/run-job.ts'
import { seeded } from './accuracy.ts'

export interface Outsider {
  readonly symptom: string
  readonly stuck: ReadonlyMap<string, Value>
}

export interface Ended {
  readonly of: Outsider
  readonly outcome: string
  readonly first: string
  readonly minutes: number
}

/**
 * @param each how many for each symptom whose map has enough things on it
 * @param wrong so many things at once: three are one more than a pair of faults could make wrong each in its own way
 */
export function outsiders(plan: Plan, each: number, seed: number, wrong = 3): readonly Outsider[] {
  const build = compile(plan)
  const chance = seeded(seed)
  const drawn = <T>(list: readonly T[]): T | undefined => list[Math.floor(chance() * list.length)]
  return flows.flatMap((flow): Outsider[] => {
    const topic = flow.scoping.find((t) => 'map' in t)
    if (!topic || !('map' in topic)) return []
    const ask = mapAsk(build, [topic.map], 'scope')
    if (!ask.many) return []
    const places = [...new Set(ask.marks.map((m) => m.observe.at))]
    if (places.length < wrong) return []
    return Array.from({ length: each }, () => {
      const stuck = new Map<string, Value>()
      const values = new Set<Value>()
      for (let tries = 0; stuck.size < wrong && tries < 200; tries++) {
        const mark = drawn(ask.marks)
        if (!mark || stuck.has(observableKey(mark.observe)) || mark.value === wanted(build, mark.observe))
          continue
        // Alike things could have one reason, as long as there is another way to be wrong.
        if (values.has(mark.value) && tries < 100) continue
        values.add(mark.value)
        stuck.set(observableKey(mark.observe), mark.value)
      }
      return { symptom: flow.id, stuck }
    })
  })
}

export async function endOf(plan: Plan, of: Outsider): Promise<Ended> {
  const build = compile(plan)
  const ground = { ...groundFor(plan, of.symptom), build, known: knowledgeOf(build, audit(plan)) }
  // With the mains off a blade turns as ever: what is seen is seen while it runs.
  const sees = (o: Observable, shown: Value | null): Value | null =>
    shown === null ? null : (of.stuck.get(observableKey(o)) ?? shown)
  const { end } = await runJob(plan, of.symptom, [], { sees, past: { spare: 'yes', tool: 'yes' } }, ground)
  return {
    of,
    outcome: end.outcome,
    first: end.suspects[0]?.faults.map(faultText).join(' + ') ?? '',
    minutes: end.minutes,
  }
}
