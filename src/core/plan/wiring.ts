/**
 * The leads of a plan: each from a plug to a socket that it goes into, no port taken twice. What people really do
 * although they should not (a 5 V light in a 12 V socket, a 3-pin fan on a 4-pin header) is wiring; only what does
 * not go in at all is refused.
 */
import { joint, sameMetal, type WiringInput } from './joint.ts'
import { endsOf, writtenLead } from './lead-line.ts'
import { given } from './parts/form.ts'
import type { PlannedLead, PortRef } from './plan.ts'
import type { Port } from './ports.ts'
import type { Place } from './problem.ts'
import { type Notebook, report } from './problem.ts'
import { noSuchPort } from './reference.ts'
import type { Node } from './tree-node.ts'

/** All leads of a plan, shorthands spelled out, in written order. */
export function readLeads(book: Notebook, nodes: readonly Node[], input: WiringInput): PlannedLead[] {
  const leads: PlannedLead[] = []
  const taken = new Map<PortRef, Place>()

  const find = (ref: string, place: Place): Port | undefined => {
    const port = input.ports.byRef.get(ref)
    if (port || input.failed.has(ref.split('.')[0] ?? '')) return port
    const { found, expected, todo } = noSuchPort(ref, input.ports, input.parts)
    report(book, place, found, expected, todo)
    return undefined
  }

  const free = (ref: PortRef, others: readonly PortRef[], place: Place): boolean => {
    const clash = others.find((other) => taken.has(other))
    const earlier = clash === undefined ? undefined : taken.get(clash)
    if (!earlier) return true
    const first = clash === ref ? '' : ` through ${clash}`
    report(
      book,
      place,
      `${ref} a second time`,
      `one lead a port (line ${earlier.line} has it already${first})`,
      'change one of the two leads, or put a splitter between',
    )
    return false
  }

  for (const node of nodes) {
    const written = writtenLead(book, node)
    if (!written) continue
    for (const [from, to] of endsOf(book, written)) {
      const a = find(from, written.place)
      const b = find(to, written.toPlace)
      const made = a && b && joint(book, a, b, written, input)
      if (!made) continue
      const { plug, socket } = made
      const plugFree = free(plug.ref, [plug.ref], written.place)
      const socketFree = free(socket.ref, sameMetal(socket, input), written.place)
      if (plugFree) taken.set(plug.ref, written.place)
      if (socketFree) taken.set(socket.ref, written.place)
      if (!plugFree || !socketFree) continue
      book.places.set(`leads.${leads.length}`, written.place)
      leads.push({
        plug: plug.ref,
        socket: socket.ref,
        ...given('mm', written.mm),
        ...given('awg', written.awg),
        place: written.place,
      })
    }
  }
  return leads
}
