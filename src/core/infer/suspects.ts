/**
 * Suspects as they are told: likeliest first, with those that no available check tells apart put together. Two are
 * alike when everything still on offer would be answered the same way under both. Of a contact that comes and goes a
 * single look shows only one side: whether it is loose or broken for good, no check of its own tells.
 */
import type { Suspect } from '../checks/prompt.ts'
import type { Alive } from './alive.ts'
import type { PlannedCheck } from './foresee.ts'

const LEAST_SHARE = 0.002
const SAME = 1e-6

type Numbered = Alive & { readonly i: number }

const alike = (checks: readonly PlannedCheck[], a: Numbered, b: Numbered): boolean =>
  a.h.kind !== 'none' &&
  b.h.kind !== 'none' &&
  checks.every(({ broken }) => broken[a.i]!.every((p, o) => Math.abs(p - broken[b.i]![o]!) < SAME))

/** @param most how many to tell, groups counted once */
export function suspectsOf(
  alive: readonly Alive[],
  checks: readonly PlannedCheck[],
  most = 8,
): readonly Suspect[] {
  const groups: [Numbered, ...Numbered[]][] = []
  for (const one of alive.map((a, i) => ({ ...a, i }))) {
    if (one.p < LEAST_SHARE) continue
    const group = groups.find(([first]) => alike(checks, first, one))
    if (group) group.push(one)
    else groups.push([one])
  }
  return groups
    .map(([first, ...others]) => ({
      faults: first.h.faults,
      p: others.reduce((sum, { p }) => sum + p, first.p),
      alike: others.map(({ h, p }) => ({ faults: h.faults, p })),
    }))
    .sort((a, b) => b.p - a.p)
    .slice(0, most)
}
