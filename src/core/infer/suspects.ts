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

const alike = (checks: readonly PlannedCheck[], a: number, b: number): boolean =>
  checks.every(({ broken: table }) => {
    const rowA = table[a]
    const rowB = table[b]
    return rowA?.every((p, o) => Math.abs(p - (rowB?.[o] ?? 0)) < SAME) ?? true
  })

/** @param most how many to tell, groups counted once */
export function suspectsOf(
  alive: readonly Alive[],
  checks: readonly PlannedCheck[],
  most = 8,
): readonly Suspect[] {
  const groups: number[][] = []
  alive.forEach(({ h, p }, i) => {
    if (p < LEAST_SHARE) return
    const group =
      h.kind === 'none'
        ? undefined
        : groups.find(([first]) => {
            const head = first ?? 0
            return alive[head]?.h.kind !== 'none' && alike(checks, head, i)
          })
    if (group) group.push(i)
    else groups.push([i])
  })
  return groups
    .map((group) => ({
      faults: alive[group[0] ?? 0]?.h.faults ?? [],
      p: group.reduce((sum, i) => sum + (alive[i]?.p ?? 0), 0),
      alike: group.slice(1).map((i) => ({ faults: alive[i]?.h.faults ?? [], p: alive[i]?.p ?? 0 })),
    }))
    .sort((a, b) => b.p - a.p)
    .slice(0, most)
}
