/**
 * What can bear on some parts: everything upstream of them, and what shares a hub, a splitter, a channel or a header
 * with them. Suspects and checks are drawn from here, so the work grows with the neighbourhood, not with the build.
 */
import { BOARD, type Build, NOWHERE, SUPPLY } from '../bench/build.ts'
import { channelsOf } from '../bench/channel.ts'
import { headerPlace } from '../bench/drive.ts'
import { refOf } from '../faults/entry.ts'
import type { Fault } from '../faults/fault.ts'

export interface Region {
  readonly parts: ReadonlySet<number>
  /** Sockets of the board and the supply, and of every part in the region. */
  readonly sockets: ReadonlySet<number>
}

export const wholeBuild = (build: Build): Region => ({
  parts: new Set(build.parts.keys()),
  sockets: new Set(build.sockets),
})

/** @param seeds parts that show the symptom */
export function regionOf(build: Build, seeds: readonly number[]): Region {
  const parts = new Set<number>()
  const sockets = new Set<number>()
  const queue = [...seeds]
  const hang = (socket: number): void => {
    // Siblings come in as they are, without what feeds their other leads.
    const plug = build.plugIn[socket] ?? NOWHERE
    const index = build.partOf[plug] ?? NOWHERE
    if (plug < 0 || index < 0 || parts.has(index)) return
    parts.add(index)
    for (const s of build.parts[index]?.sockets ?? []) {
      sockets.add(s)
      hang(s)
    }
  }
  while (queue.length > 0) {
    const index = queue.shift() ?? NOWHERE
    const entry = build.parts[index]
    if (!entry) continue
    parts.add(index)
    for (const s of entry.sockets) {
      sockets.add(s)
      hang(s)
    }
    for (const plug of entry.plugs) {
      const socket = build.socketOf[plug] ?? NOWHERE
      if (socket < 0 || sockets.has(socket)) continue
      sockets.add(socket)
      const above = build.partOf[socket] ?? NOWHERE
      if (above === BOARD && !build.usbHeaders.has(socket)) hang(socket)
      if (above === BOARD || above === SUPPLY) continue
      if (!queue.includes(above)) queue.push(above)
    }
  }
  return { parts, sockets }
}

const partAt = (build: Build, ref: string): number =>
  build.partAt.get(ref) ?? build.partOf[build.portAt.get(ref) ?? NOWHERE] ?? NOWHERE

/** Whether a fault sits on something in the region, or reaches into it. */
export function nearTo(build: Build, region: Region): (fault: Fault) => boolean {
  const places = new Set<string>(['program', 'global_effect'])
  for (const socket of region.sockets) {
    places.add(refOf(build, socket))
    places.add(headerPlace(build, socket))
  }
  for (const channel of channelsOf(build))
    if (channel.sockets.some((s) => region.sockets.has(s))) places.add(channel.place)
  const inside = (ref: string): boolean => {
    const port = build.portAt.get(ref)
    if (port !== undefined && region.sockets.has(port)) return true
    return region.parts.has(partAt(build, ref))
  }
  const leads = new Set(
    [...region.sockets].map((s) => `supply.${build.plan.supply.leads[build.supplyLead[s] ?? NOWHERE]?.id}`),
  )
  return ({ at, mode }) => {
    if (at.includes('/'))
      return places.has(
        at
          .split('/')
          .slice(1, at.startsWith('host/') ? undefined : -1)
          .join('/'),
      )
    const arg = /^swapped-with-(.+)$/.exec(mode)?.[1]
    return leads.has(at) || inside(at) || (arg !== undefined && inside(arg))
  }
}
