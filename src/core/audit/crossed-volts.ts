/** Light plugs in sockets of the other voltage, judged by what a socket really gives. */
import type { PortRef } from '../plan/plan.ts'
import type { Hit } from './finding.ts'
import { partOf, type Wiring } from './wiring.ts'

const voltsOf = (w: Wiring, ref: PortRef): 5 | 12 | undefined => {
  const connector = w.ports.get(ref)?.connector
  return connector === 'light5' ? 5 : connector === 'light12' ? 12 : undefined
}

/** The plug of a part that only hands on, from which one of its light sockets is fed. */
function handedOn(w: Wiring, socket: PortRef): PortRef | undefined {
  const part = w.parts.get(partOf(socket))
  const from =
    part?.kind === 'adapter' ? `${part.id}.in` : (w.inside(socket, '5V') ?? w.inside(socket, '12V'))
  return from !== undefined && voltsOf(w, from) !== undefined ? from : undefined
}

/** What a light socket really gives, by where it is fed from; undefined where nothing feeds it. */
function givenAt(w: Wiring, socket: PortRef): 5 | 12 | undefined {
  const seen = new Set<PortRef>()
  for (let at = socket; !seen.has(at); ) {
    seen.add(at)
    const from = handedOn(w, at)
    if (from === undefined) return voltsOf(w, at)
    const lead = w.leadAt(from)
    if (!lead) return undefined
    at = lead.socket
  }
  return undefined
}

/** What of the other voltage hangs on a part that only hands on: to move that part would move it too. */
const otherBehind = (w: Wiring, plug: PortRef, has: 5 | 12): string[] =>
  (w.portsOf.get(partOf(plug)) ?? [])
    .flatMap(({ ref }) => w.plugIn(ref) ?? [])
    .filter((on) => (voltsOf(w, on) ?? has) !== has)
    .map(partOf)

/** Told where the change is made: at a plug in a socket of the other kind, or behind an adapter that hides it. */
export function* crossed(w: Wiring, plugVolts: 5 | 12): Generator<Hit> {
  for (const { plug, socket } of w.plan.leads) {
    const has = voltsOf(w, plug)
    const gives = has === plugVolts ? givenAt(w, socket) : undefined
    const shown = voltsOf(w, socket) !== has || w.parts.get(partOf(socket))?.kind === 'adapter'
    if (shown && has !== undefined && gives !== undefined && gives !== has)
      yield {
        refs: [plug, socket],
        figure: gives,
        limit: has,
        facts: { plug, socket, other: otherBehind(w, plug, has) },
      }
  }
}
