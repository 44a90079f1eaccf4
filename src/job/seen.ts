/**
 * What was seen, beside what the plan would show at that moment were nothing wrong: the build as planned, with the edits
 * made up to then, run on the bench. For people who want to compare; it decides nothing.
 */
import { type Build, compile } from '../core/bench/build.ts'
import type { Edit } from '../core/bench/edit.ts'
import type { Observable, Value } from '../core/bench/observable.ts'
import { run } from '../core/bench/run.ts'
import type { Power, Prompt } from '../core/checks/prompt.ts'
import type { Plan } from '../core/plan/plan.ts'
import type { TrailEntry } from './view.ts'

export interface Seen {
  /** The step of the trail that says it. */
  readonly seq: number
  readonly observe: Observable
  readonly power: Power
  readonly seen: Value
  /** Null where the plan alone cannot say. */
  readonly planned: Value | null
}

const builds = new WeakMap<Plan, Build>()

function buildOf(plan: Plan): Build {
  const known = builds.get(plan)
  if (known) return known
  const build = compile(plan)
  builds.set(plan, build)
  return build
}

/** What an answered question says of each thing that it looks at; nothing for questions about the past. */
function sightings(prompt: Prompt, reply: TrailEntry['reply']): { o: Observable; value: Value }[] {
  if (prompt.show !== 'ask' || typeof reply === 'string') return []
  if (prompt.many)
    return prompt.marks
      .filter((m) => reply.includes(m.id))
      .map(({ observe, value }) => ({ o: observe, value }))
  if ('about' in prompt) return []
  const means = prompt.answers.find((a) => a.id === reply[0])?.means ?? []
  return prompt.observe.flatMap((o, i) => {
    const value = means[i]
    return value === null || value === undefined ? [] : [{ o, value }]
  })
}

/** All sightings that still count, in the order in which they were made. */
export function seenAgainstPlan(plan: Plan, trail: readonly TrailEntry[]): Seen[] {
  const build = buildOf(plan)
  const edits: Edit[] = []
  const out: Seen[] = []
  for (const { seq, prompt, reply, undone } of trail) {
    if (undone) continue
    if (prompt.show === 'do') {
      if (reply === 'done') edits.push(...prompt.edits)
      continue
    }
    const made = sightings(prompt, reply)
    if (made.length === 0) continue
    const sight = run(build, { plants: [], edits: [...edits], power: prompt.power })
    for (const { o, value } of made)
      out.push({ seq, observe: o, power: prompt.power, seen: value, planned: sight.see(o) })
  }
  return out
}
