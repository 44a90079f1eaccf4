/** Where in the file a reference stands, so that every finding can point at a line. */

import type { Plan } from '../plan/plan.ts'
import type { Place } from '../plan/problem.ts'
import type { Wiring } from './wiring.ts'

/** The place of a path, or of the nearest thing above it that has one. */
function placeOfPath(plan: Plan, path: string): Place {
  for (let at = path; at !== ''; at = at.slice(0, Math.max(0, at.lastIndexOf('.')))) {
    const place = plan.places.get(at)
    if (place) return place
  }
  const first = plan.places.values().next().value ?? plan.leads[0]?.place
  return { file: first?.file ?? '', line: 1, col: 1 }
}

/** `F1.motor`, `board.SYS1`, `supply.SA.1`, `headers/SYS1/curve`, `F1`, `light_order`. */
export function placeOfRef(w: Wiring, ref: string): Place {
  const { plan } = w
  if (ref.includes('/')) return placeOfPath(plan, `settings.${ref.replaceAll('/', '.')}`)
  const lead = w.leadAt(ref)
  if (lead) return lead.place
  const [first = '', second = ''] = ref.split('.')
  if (first === 'supply') return placeOfPath(plan, `supply.leads.${second}`)
  if (first === 'board') {
    for (const section of ['fan_headers', 'light_headers', 'usb_headers'])
      if (plan.places.has(`board.${section}.${second}`))
        return placeOfPath(plan, `board.${section}.${second}`)
    return placeOfPath(plan, 'board')
  }
  return w.parts.has(first) ? placeOfPath(plan, `parts.${ref}`) : placeOfPath(plan, ref)
}

export const placeKey = ({ file, line, col }: Place): string => `${file}:${line}:${col}`

/** Each place once, in the order of the references. */
export function placesOf(w: Wiring, refs: readonly string[]): Place[] {
  const found = new Map<string, Place>()
  for (const ref of refs) {
    const place = placeOfRef(w, ref)
    found.set(placeKey(place), place)
  }
  return found.size > 0 ? [...found.values()] : [placeOfPath(w.plan, 'build')]
}
