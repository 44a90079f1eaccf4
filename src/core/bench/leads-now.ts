/** Where each plug is after what hands have done, by the plan and by them alone: what a fault has moved is not in it. */
import type { Plan, PortRef } from '../plan/plan.ts'
import type { Edit } from './edit.ts'

/** By plug its socket, or null where it hangs free. @param done to the build as planned, in order */
export function leadsNow(plan: Plan, done: readonly Edit[]): ReadonlyMap<PortRef, PortRef | null> {
  const now = new Map<PortRef, PortRef | null>(plan.leads.map((l) => [l.plug, l.socket]))
  for (const edit of done) {
    if (edit.do === 'unplug') now.set(edit.plug, null)
    if (edit.do === 'plug') now.set(edit.plug, edit.socket)
    if (edit.do === 'swap') {
      const [a, b] = [now.get(edit.a) ?? null, now.get(edit.b) ?? null]
      now.set(edit.a, b)
      now.set(edit.b, a)
    }
  }
  return now
}
