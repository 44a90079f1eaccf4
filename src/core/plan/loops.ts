/**
 * Leads that lead back to where they began: splitters in a ring, a fan daisy-chained to itself. Supply, fan, light
 * and USB wiring are looked at apart, since two parts may well feed each other with different things.
 */

import { familyOf } from './joint.ts'
import type { PlannedLead } from './plan.ts'
import { type Notebook, report } from './problem.ts'
import type { PortBook } from './reference.ts'

const partOf = (ref: string): string => ref.slice(0, ref.indexOf('.'))

/** Reports each ring of leads once, at the lead that closes it. */
export function reportLoops(book: Notebook, leads: readonly PlannedLead[], ports: PortBook): void {
  const families = new Map<string, Map<string, PlannedLead[]>>()
  for (const lead of leads) {
    const port = ports.byRef.get(lead.plug)
    if (!port || lead.socket.startsWith('board.') || lead.socket.startsWith('supply.')) continue
    const family = familyOf(port.connector).split(' ')[0] ?? ''
    const feeds = families.get(family) ?? new Map<string, PlannedLead[]>()
    families.set(family, feeds)
    const from = partOf(lead.plug)
    const list = feeds.get(from)
    if (list) list.push(lead)
    else feeds.set(from, [lead])
  }
  for (const feeds of families.values()) ringsOf(book, feeds)
}

/** Walks up from each part; a stack of its own, because a chain may be a thousand fans long. */
function ringsOf(book: Notebook, feeds: ReadonlyMap<string, readonly PlannedLead[]>): void {
  const settled = new Set<string>()
  for (const start of feeds.keys()) {
    if (settled.has(start)) continue
    const path: { part: string; next: number }[] = [{ part: start, next: 0 }]
    const onPath = new Set([start])
    while (path.length > 0) {
      const here = path[path.length - 1]
      if (!here) break
      const lead = feeds.get(here.part)?.[here.next++]
      if (!lead) {
        settled.add(here.part)
        onPath.delete(here.part)
        path.pop()
        continue
      }
      const up = partOf(lead.socket)
      if (onPath.has(up)) {
        const ring = path.slice(path.findIndex((step) => step.part === up)).map((step) => step.part)
        report(
          book,
          lead.place,
          `leads in a ring: ${[...ring, up].slice(0, 8).join(' -> ')}`,
          'a way from every plug to the board or the supply',
          'change the lead that goes back',
        )
      } else if (!settled.has(up)) {
        path.push({ part: up, next: 0 })
        onPath.add(up)
      }
    }
  }
}
