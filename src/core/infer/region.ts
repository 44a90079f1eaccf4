/**
 * What can bear on some parts: everything upstream of them, and what shares a hub, a splitter, a channel or a header
 * with them. Suspects and checks are drawn from here, so the work grows with the neighbourhood, not with the build.
 */
import { type Build, NOWHERE } from '../bench/build.ts'
import { channelsOf } from '../bench/channel.ts'
import { headerPlace } from '../bench/drive.ts'
import type { Observable } from '../bench/observable.ts'
import { settingParts } from '../bench/setting.ts'
import { refOf } from '../faults/entry.ts'
import type { Fault } from '../faults/fault.ts'

export interface Region {
  readonly parts: ReadonlySet<number>
  readonly plugs: ReadonlySet<number>
  /** Sockets that these plugs sit in, and those of every part upstream. */
  readonly sockets: ReadonlySet<number>
}

export const wholeBuild = (build: Build): Region => ({
  parts: new Set(build.parts.keys()),
  plugs: new Set(build.plugs),
  sockets: new Set(build.sockets),
})

const wired = (plugs: readonly number[]): readonly number[] => plugs.filter((plug) => plug >= 0)

/** Plugs of all motors below a socket, and the plug in it. */
function motorsBelow(build: Build, socket: number): readonly number[] {
  const plug = build.plugIn[socket] ?? NOWHERE
  const entry = build.parts[build.partOf[plug] ?? NOWHERE]
  if (!entry) return []
  return [
    plug,
    ...wired([entry.motorPlug, entry.motorPower]),
    ...entry.sockets.flatMap((s) => motorsBelow(build, s)),
  ]
}

/** The plugs by which something that was seen is fed, told and read: lights by their light leads, not by the motor's. */
export function plugsBehind(build: Build, { what, at }: Observable): readonly number[] {
  const port = build.portAt.get(at.split('/')[0] ?? at)
  const entry = build.parts[build.partAt.get(at) ?? NOWHERE]
  if (port !== undefined) {
    if (build.ports[port]?.gender === 'plug') return [port]
    return what === 'answers' || what === 'effect'
      ? wired([build.plugIn[port] ?? NOWHERE])
      : motorsBelow(build, port)
  }
  if (!entry) return []
  if (what === 'spins' || what === 'steady') return wired([entry.motorPlug, entry.motorPower])
  const lights = entry.lights.map((light) => light.plug)
  const own = wired([entry.usbPlug, entry.power])
  if (what === 'lit' || what === 'shows' || what === 'flickers')
    return lights.some((l) => (build.socketOf[l] ?? NOWHERE) >= 0) ? lights : [...lights, ...own]
  if (what === 'listed') return own
  // A channel named by its driver: the driver, and what hangs on it.
  return [...entry.plugs, ...entry.sockets.flatMap((s) => wired([build.plugIn[s] ?? NOWHERE]))]
}

/** @param seeds plugs behind what was seen to be wrong */
export function regionOf(build: Build, seeds: readonly number[]): Region {
  const parts = new Set<number>()
  const plugs = new Set<number>()
  const sockets = new Set<number>()
  const upstream = new Set<number>()
  const queue = [...seeds]
  const enter = (plug: number): void => {
    plugs.add(plug)
    parts.add(build.partOf[plug] ?? NOWHERE)
  }
  // Siblings come in with the lead that they share, without what feeds their other leads.
  const hang = (socket: number): void => {
    sockets.add(socket)
    const plug = build.plugIn[socket] ?? NOWHERE
    if (plug < 0 || plugs.has(plug)) return
    enter(plug)
    for (const s of build.parts[build.partOf[plug] ?? NOWHERE]?.sockets ?? []) hang(s)
  }
  for (let i = 0; i < queue.length; i++) {
    const plug = queue[i] ?? NOWHERE
    enter(plug)
    const socket = build.socketOf[plug] ?? NOWHERE
    if (socket < 0) continue
    const above = build.partOf[socket] ?? NOWHERE
    sockets.add(socket)
    const entry = build.parts[above]
    if (!entry || upstream.has(above)) continue
    upstream.add(above)
    parts.add(above)
    for (const s of entry.sockets) hang(s)
    queue.push(...entry.plugs)
  }
  return { parts, plugs, sockets }
}

/** Whether a fault sits on something in the region, or reaches into it. */
export function nearTo(build: Build, region: Region): (fault: Fault) => boolean {
  const places = new Set<string>()
  for (const socket of region.sockets) {
    places.add(refOf(build, socket))
    places.add(headerPlace(build, socket))
  }
  for (const channel of channelsOf(build))
    if (channel.sockets.some((s) => region.sockets.has(s))) places.add(channel.place)
  const inside = (ref: string): boolean => {
    const port = build.portAt.get(ref)
    if (port === undefined) return region.parts.has(build.partAt.get(ref) ?? NOWHERE)
    return region.sockets.has(port) || region.plugs.has(port)
  }
  const leads = new Set(
    [...region.sockets].map((s) => `supply.${build.plan.supply.leads[build.supplyLead[s] ?? NOWHERE]?.id}`),
  )
  return ({ at, mode }) => {
    if (at.includes('/')) return at.startsWith('host/') || places.has(settingParts(at).place)
    const arg = /^swapped-with-(.+)$/.exec(mode)?.[1]
    return leads.has(at) || inside(at) || (arg !== undefined && inside(arg))
  }
}
