/**
 * What differs between two readings of a plan, for a person who takes up a job after the plan was changed: parts that
 * came or went, leads that go elsewhere, single values. Notes and places in the file are no difference.
 */
import type { Plan } from './plan.ts'

export interface Change {
  readonly of: 'part' | 'lead' | 'value'
  /** A part, a plug, or the path of a value such as `F1.motor.amps`. */
  readonly at: string
  /** What stood there; undefined where there was nothing, and the same for what stands there now. */
  readonly before: string | undefined
  readonly now: string | undefined
}

type Flat = ReadonlyMap<string, string>

const LEFT_OUT: readonly string[] = ['id', 'place', 'note']

/** Records by path; lists of things with an id by that id, other values as text. */
function flatten(value: unknown, path: string, into: Map<string, string>): void {
  if (Array.isArray(value) && value.every((v) => typeof v === 'object' && v !== null && 'id' in v)) {
    for (const v of value) flatten(v, path === '' ? v.id : `${path}.${v.id}`, into)
  } else if (typeof value === 'object' && value !== null && !Array.isArray(value)) {
    for (const [key, v] of Object.entries(value))
      if (!LEFT_OUT.includes(key)) flatten(v, path === '' ? key : `${path}.${key}`, into)
  } else if (value !== undefined) into.set(path, typeof value === 'string' ? value : JSON.stringify(value))
}

function valuesIn(plan: Plan): Flat {
  const flat = new Map<string, string>()
  flatten(plan.supply, 'supply', flat)
  flatten(plan.board, 'board', flat)
  flatten(plan.settings, 'settings', flat)
  flatten(plan.parts, '', flat)
  flatten({ lightOrder: plan.lightOrder, spares: plan.spares }, '', flat)
  for (const { name, ref } of plan.readings) flat.set(`readings.${name}`, ref)
  for (const { plug, mm, awg } of plan.leads) flatten({ mm, awg }, plug, flat)
  return flat
}

function changesIn(of: Change['of'], then: Flat, now: Flat, told: (at: string) => boolean): Change[] {
  return [...new Set([...then.keys(), ...now.keys()])]
    .filter((at) => then.get(at) !== now.get(at) && told(at))
    .map((at) => ({ of, at, before: then.get(at), now: now.get(at) }))
}

/** In the order: parts, leads, values; each in the order of the plans. Empty where both say the same. */
export function planChanges(then: Plan, now: Plan): readonly Change[] {
  const kinds = (plan: Plan): Flat => new Map(plan.parts.map((p) => [p.id, p.kind]))
  const leads = (plan: Plan): Flat => new Map(plan.leads.map((l) => [l.plug, l.socket]))
  const parts = changesIn('part', kinds(then), kinds(now), () => true)
  const changed = new Set(parts.map((c) => c.at))
  // A part that came or went is told as a whole, not value by value.
  const elsewhere = (at: string): boolean => !changed.has(at.split('.')[0] ?? '')
  return [
    ...parts,
    ...changesIn('lead', leads(then), leads(now), elsewhere),
    ...changesIn('value', valuesIn(then), valuesIn(now), elsewhere),
  ]
}
