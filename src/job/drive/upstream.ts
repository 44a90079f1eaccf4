/** What a part hangs on by the plan: the parts, sockets and supply leads above it, by the leads that matter. */
import { type Build, NOWHERE } from '../../core/bench/build.ts'
import { channelsOf } from '../../core/bench/channel.ts'
import type { What } from '../../core/bench/observable.ts'
import { refOf } from '../../core/faults/entry.ts'

/** Which leads of a part bear on what was looked at. */
export type Route = 'light' | 'motor' | 'usb'

const ROUTES: Readonly<Partial<Record<What, Route>>> = {
  lit: 'light',
  flickers: 'light',
  shows: 'light',
  effect: 'light',
  answers: 'light',
  listed: 'usb',
}

export const routeOf = (what: What): Route => ROUTES[what] ?? 'motor'

/** The part that an observable is about: itself, what is plugged in there, or what drives the channel. */
export function partAt(build: Build, at: string): number {
  const own = build.partAt.get(at)
  if (own !== undefined) return own
  const port = build.portAt.get(at) ?? NOWHERE
  const plugged = build.partOf[build.plugIn[port] ?? NOWHERE] ?? NOWHERE
  return plugged >= 0 ? plugged : (channelsOf(build).find((c) => c.ref === at)?.driver ?? NOWHERE)
}

/** The plugs by which a part hangs on what feeds or drives it. */
export function plugsFor(build: Build, part: number, route: Route): readonly number[] {
  const entry = build.parts[part]
  if (!entry) return []
  if (route === 'usb') return [entry.usbPlug, entry.power]
  if (route === 'light')
    return entry.lights.length > 0 ? entry.lights.map((l) => l.plug) : [entry.power, entry.usbPlug]
  return [entry.motorPlug, entry.motorPower]
}

/**
 * References of all that is above the part. @param what is in question: what turns hangs on other leads than what is
 * lit
 */
export function upstream(build: Build, part: number, what: What): ReadonlySet<string> {
  const found = new Set<string>()
  const queue = [...plugsFor(build, part, routeOf(what))]
  for (let i = 0; i < queue.length; i++) {
    const socket = build.socketOf[queue[i] ?? NOWHERE] ?? NOWHERE
    if (socket < 0 || found.has(refOf(build, socket))) continue
    found.add(refOf(build, socket))
    const lead = build.plan.supply.leads[build.supplyLead[socket] ?? NOWHERE]
    if (lead) found.add(`supply.${lead.id}`)
    const above = build.parts[build.partOf[socket] ?? NOWHERE]
    if (!above) continue
    found.add(above.part.id)
    for (const plug of above.plugs) queue.push(plug)
  }
  return found
}
