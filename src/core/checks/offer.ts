/**
 * Which checks a build offers while some suspects are in question: looks at everything that the suspects touch,
 * exchanges with a neighbour that works, moves to a free place. Only what can be observed on the bench; whether a
 * check tells anything is decided by its predictions, not here.
 */
import { type Build, type BuildPart, conductorIndex, NOWHERE } from '../bench/build.ts'
import { channelsOf, lightablePorts } from '../bench/channel.ts'
import type { Edit } from '../bench/edit.ts'
import { editText } from '../bench/edit.ts'
import { type Observable, observableKey, pinRef } from '../bench/observable.ts'
import { mayBeMoved } from '../bench/steady.ts'
import { supplyLeadAt } from '../bench/world.ts'
import { comesAndGoes } from '../faults/catalogue.ts'
import { refOf } from '../faults/entry.ts'
import type { Fault } from '../faults/fault.ts'
import { governedPorts } from '../faults/governed.ts'
import { plugAndBelow } from './below.ts'
import { BLADE, type LookCost, lookCost, REACH } from './looks.ts'
import { otherSockets } from './repair.ts'
import type { CheckDef } from './step.ts'

const reachOf = (build: Build, ref: string): number => {
  const part = build.parts[build.partAt.get(ref.split('.')[0] ?? '') ?? NOWHERE]?.part
  return part ? REACH[part.reach] : 1
}

const lookAt = (build: Build, o: Observable, cost: LookCost = lookCost[o.what]): CheckDef => ({
  id: `look ${observableKey(o)}${cost === BLADE ? ' by hand' : ''}`,
  edits: [],
  observe: [o],
  power: cost.power,
  hands: cost.hands,
  minutes: cost.minutes * (cost.hands === 'in' ? reachOf(build, o.at) : 1),
  error: cost.error,
  tools: cost.tools,
  fit: o.what === 'volts' || o.what === 'when-moved',
})

const attempt = (edits: readonly Edit[], observe: readonly Observable[], minutes: number): CheckDef => ({
  id: `try ${edits.map(editText).join(', ')} and look ${observe.map(observableKey).join(', ')}`,
  edits,
  observe,
  power: 'on',
  hands: 'out',
  minutes,
  error: 0.05,
  tools: [],
  fit: false,
})

/** What the suspects in question touch. */
export interface Touched {
  readonly parts: ReadonlySet<string>
  readonly plugs: ReadonlySet<number>
  readonly sockets: ReadonlySet<number>
  readonly settings: ReadonlySet<string>
  readonly supplyLeads: ReadonlySet<string>
  /** Plugs at which something may come and go. */
  readonly unsteady: ReadonlySet<number>
}

/** The places where these faults sit, with the other end of each joint and the part that it belongs to. */
export function touchedBy(build: Build, faults: readonly Fault[]): Touched {
  const parts = new Set<string>()
  const plugs = new Set<number>()
  const sockets = new Set<number>()
  const settings = new Set<string>()
  const supplyLeads = new Set<string>()
  const unsteady = new Set<number>()
  const note = (ref: string, gives = false): void => {
    if (ref.includes('/')) settings.add(ref)
    else if (supplyLeadAt(build, ref) >= 0) supplyLeads.add(ref)
    else if (build.partAt.has(ref)) parts.add(ref)
    const port = build.portAt.get(ref)
    if (port === undefined) return
    const isPlug = build.ports[port]?.gender === 'plug'
    const plug = isPlug ? port : (build.plugIn[port] ?? NOWHERE)
    const socket = isPlug ? (build.socketOf[port] ?? NOWHERE) : port
    if (plug >= 0) plugs.add(plug)
    if (socket >= 0) sockets.add(socket)
    if (gives && plug >= 0 && mayBeMoved(build, plug)) unsteady.add(plug)
    const owner = build.ports[plug >= 0 ? plug : port]?.part
    if (owner && build.partAt.has(owner)) parts.add(owner)
  }
  for (const { at, mode } of faults) {
    note(at, comesAndGoes(mode))
    const arg = /^(?:swapped-with|in)-(.+)$/.exec(mode)?.[1]
    if (arg) note(arg)
  }
  return { parts, plugs, sockets, settings, supplyLeads, unsteady }
}

const entryOf = (build: Build, id: string): BuildPart | undefined =>
  build.parts[build.partAt.get(id) ?? NOWHERE]

/** Fan ports that a tach or a setting of these parts could show up at: all that govern something in question. */
function headersNear(build: Build, touched: Touched): readonly number[] {
  return governedPorts(build).filter((s) => touched.sockets.has(s) || governs(build, s, touched))
}

function governs(build: Build, socket: number, touched: Touched, depth = 0): boolean {
  const plug = build.plugIn[socket] ?? NOWHERE
  const entry = build.parts[build.partOf[plug] ?? NOWHERE]
  if (!entry || depth > 4) return false
  if (touched.parts.has(entry.part.id)) return true
  return entry.sockets.some((s) => governs(build, s, touched, depth + 1))
}

/** The first fan that hangs on a plug: what comes and goes at a splitter's plug is watched there. */
const fanBelow = (build: Build, plug: number): string | undefined =>
  plugAndBelow(build, plug)
    .map((p) => build.parts[build.partOf[p] ?? NOWHERE])
    .find((entry) => entry?.motor)?.part.id

function looks(build: Build, touched: Touched): CheckDef[] {
  const found: CheckDef[] = []
  const add = (o: Observable, cost?: LookCost): void => void found.push(lookAt(build, o, cost))
  for (const id of touched.parts) {
    const entry = entryOf(build, id)
    if (!entry) continue
    if (entry.motor) {
      add({ what: 'spins', at: id })
      add({ what: 'spins', at: id }, BLADE)
      add({ what: 'steady', at: id })
    }
    if (entry.lights.length > 0) {
      add({ what: 'lit', at: id })
      add({ what: 'shows', at: id })
      add({ what: 'flickers', at: id })
    }
    if (entry.usbPlug >= 0) add({ what: 'listed', at: id })
  }
  for (const plug of touched.plugs) {
    const ref = refOf(build, plug)
    add({ what: 'seated', at: ref })
    add({ what: 'goes', at: ref })
    for (const rail of ['12V', '5V'] as const)
      if ((build.pins[plug] ?? 0) & (1 << conductorIndex[rail])) add({ what: 'volts', at: pinRef(ref, rail) })
  }
  for (const plug of touched.unsteady) {
    add({ what: 'when-moved', at: refOf(build, plug) })
    const fan = fanBelow(build, plug)
    if (fan && !touched.parts.has(fan)) add({ what: 'steady', at: fan })
  }
  for (const lead of touched.supplyLeads) add({ what: 'seated', at: lead })
  for (const socket of headersNear(build, touched)) {
    const at = refOf(build, socket)
    add({ what: 'rpm', at })
    add({ what: 'follows', at })
    if (build.fanHeaders.has(socket)) add({ what: 'alarm', at })
  }
  for (const channel of channelsOf(build)) {
    const near =
      channel.sockets.some((s) => touched.sockets.has(s)) ||
      touched.parts.has(channel.ref) ||
      [...touched.settings].some(
        (ref) => ref.startsWith('host/') || ref.startsWith(`channels/${channel.place}/`),
      )
    if (near) add({ what: 'effect', at: channel.ref })
  }
  const lightable = new Set(lightablePorts(build))
  for (const socket of touched.sockets)
    if (lightable.has(socket)) add({ what: 'answers', at: refOf(build, socket) })
  for (const ref of touched.settings) add({ what: 'setting', at: ref })
  return found
}

/** The observable by which a plug's part shows whether the plug does its work. */
function shownBy(build: Build, plug: number): Observable | undefined {
  const entry = build.parts[build.partOf[plug] ?? NOWHERE]
  if (!entry) return undefined
  if (plug === entry.motorPlug) return { what: 'spins', at: entry.part.id }
  if (entry.lights.some((l) => l.plug === plug)) return { what: 'lit', at: entry.part.id }
  return plug === entry.usbPlug ? { what: 'listed', at: entry.part.id } : undefined
}

const SWAP_MINUTES = 3
const MOVE_MINUTES = 2.5
const MOST_PARTNERS = 1

/** Exchanges and moves of plugs in question: does the fault follow the fan or stay with the port? */
function attempts(build: Build, touched: Touched, trusted: (o: Observable) => boolean): CheckDef[] {
  const found: CheckDef[] = []
  for (const plug of touched.plugs) {
    const own = shownBy(build, plug)
    if (!own) continue
    const ref = refOf(build, plug)
    const kind = build.ports[plug]?.connector
    const socket = build.socketOf[plug] ?? NOWHERE
    const reach = reachOf(build, ref)
    const partners = build.plugs
      .filter((p) => p !== plug && build.ports[p]?.connector === kind && (build.socketOf[p] ?? NOWHERE) >= 0)
      .map((p) => ({ p, o: shownBy(build, p) }))
      .filter(({ o }) => o !== undefined && o.what === own.what && trusted(o))
      .sort(
        (a, b) =>
          Math.abs((build.socketOf[a.p] ?? 0) - socket) - Math.abs((build.socketOf[b.p] ?? 0) - socket),
      )
      .slice(0, MOST_PARTNERS)
    for (const { p, o } of partners) {
      const edit: Edit = { do: 'swap', a: ref, b: refOf(build, p) }
      if (o) found.push(attempt([edit], [own, o], SWAP_MINUTES * reach))
    }
    for (const free of otherSockets(build, plug).slice(0, 1)) {
      found.push(
        attempt([{ do: 'plug', plug: ref, socket: refOf(build, free) }], [own], MOVE_MINUTES * reach),
      )
    }
  }
  return found
}

/** @param trusted whether an observable was found right, so that its part can serve as a known good one */
export function offers(
  build: Build,
  touched: Touched,
  trusted: (o: Observable) => boolean,
): readonly CheckDef[] {
  return [...looks(build, touched), ...attempts(build, touched, trusted)]
}

/** Edits that put back what a trial changed. */
export function undoing(build: Build, edits: readonly Edit[]): readonly Edit[] {
  return [...edits].reverse().flatMap((edit): Edit[] => {
    if (edit.do === 'swap') return [edit]
    if (edit.do === 'plug' || edit.do === 'unplug') {
      const planned = build.socketOf[build.portAt.get(edit.plug) ?? NOWHERE] ?? NOWHERE
      return planned < 0 ? [] : [{ do: 'plug', plug: edit.plug, socket: refOf(build, planned) }]
    }
    return []
  })
}
