/**
 * What might mend a fault, as edits. Whether it does is not written here: the bench runs the build with fault and
 * edits and looks at the symptom. So one repair serves every suspect that it happens to cure.
 */
import { type Build, NOWHERE } from '../bench/build.ts'
import type { Edit } from '../bench/edit.ts'
import { editText } from '../bench/edit.ts'
import { rightSetting } from '../bench/setting-now.ts'
import { supplyLeadAt } from '../bench/world.ts'
import { refOf } from '../faults/entry.ts'
import type { Fault } from '../faults/fault.ts'
import { plugAndBelow } from './below.ts'
import { REACH, SWITCH_MINUTES } from './looks.ts'
import { inside, MOVE, otherSockets, reach, repairOf } from './repair.ts'
import { replan } from './replan.ts'
import type { RepairDef } from './step.ts'

const SUBSTITUTE: Readonly<Record<string, number>> = { fan: 10, strip: 8, pump: 45 }
const SUBSTITUTE_HUB = 14
const SUBSTITUTE_LEAD = 6

/** Cutting power fully and switching on again: it clears trips and whatever had hung. */
const POWER_CYCLE: RepairDef = {
  id: 'mend power off, power on',
  edits: [
    { do: 'power', to: 'off' },
    { do: 'power', to: 'on' },
  ],
  power: 'on',
  hands: 'out',
  minutes: 2 * SWITCH_MINUTES + 2,
  spare: null,
}

/** Modes that a full power-off clears. */
export const POWER_CLEARS: ReadonlySet<string> = new Set(['tripped', 'alarm-stored', 'hung', 'usb-stuck'])

/** Leads that can be changed without changing the part they belong to. */
const separable = (build: Build, plug: number): boolean => {
  const name = build.ports[plug]?.name
  const kind = build.parts[build.partOf[plug] ?? NOWHERE]?.part.kind
  return (
    kind !== 'fan' &&
    kind !== 'pump' &&
    kind !== 'strip' &&
    (name === 'usb' || name === 'power' || name === 'in' || name === 'light_in')
  )
}

const substitutePart = (build: Build, id: string): RepairDef[] => {
  const entry = build.parts[build.partAt.get(id) ?? NOWHERE]
  if (!entry) return []
  const minutes = (SUBSTITUTE[entry.part.kind] ?? SUBSTITUTE_HUB) * REACH[entry.part.reach]
  return [repairOf([{ do: 'substitute', what: id }], minutes, { power: 'off', spare: id })]
}

/** A splitter with as many ways as planned, and the plug that had no place pushed home in it. */
const withAllWays = (build: Build, id: string): RepairDef[] => {
  const last = build.parts[build.partAt.get(id) ?? NOWHERE]?.sockets.at(-1) ?? NOWHERE
  const home: Edit = { do: 'reseat', plug: refOf(build, build.plugIn[last] ?? NOWHERE) }
  return substitutePart(build, id).map((r) => ({
    ...r,
    id: `${r.id}, ${editText(home)}`,
    edits: [...r.edits, home],
  }))
}

function leadRepairs(build: Build, plug: number): RepairDef[] {
  const ref = refOf(build, plug)
  if (separable(build, plug))
    return [
      repairOf([{ do: 'substitute', what: ref }], SUBSTITUTE_LEAD * reach(build, plug), {
        power: 'off',
        spare: ref,
      }),
    ]
  return substitutePart(build, build.ports[plug]?.part ?? '')
}

function portRepairs(build: Build, socket: number): RepairDef[] {
  const plug = build.plugIn[socket] ?? NOWHERE
  const owner = build.ports[socket]?.part ?? ''
  const moves =
    plug < 0
      ? []
      : otherSockets(build, plug)
          .slice(0, 2)
          .map((s) =>
            inside(build, plug, [{ do: 'plug', plug: refOf(build, plug), socket: refOf(build, s) }], MOVE),
          )
  return [...moves, ...substitutePart(build, owner)]
}

const MOST_LIGHTENED = 4

/** A source that carries too much: one of the plugs below it goes to a free socket elsewhere. */
function lighten(build: Build, socket: number, part: number): RepairDef[] {
  const sockets = socket >= 0 ? [socket] : (build.parts[part]?.sockets ?? [])
  const below = sockets
    .flatMap((s) => plugAndBelow(build, build.plugIn[s] ?? NOWHERE))
    .filter((plug) => otherSockets(build, plug).length > 0)
  return below.slice(-MOST_LIGHTENED).flatMap((plug) => {
    const free = otherSockets(build, plug).find(
      (s) => build.partOf[s] !== build.partOf[build.socketOf[plug] ?? NOWHERE],
    )
    return free === undefined
      ? []
      : [inside(build, plug, [{ do: 'plug', plug: refOf(build, plug), socket: refOf(build, free) }], MOVE)]
  })
}

const setting = (build: Build, ref: string): RepairDef[] => {
  const value = rightSetting(build, ref)
  return value === undefined ? [] : [repairOf([{ do: 'set', setting: ref, value }], 2, { power: 'on' })]
}

/** Repairs worth trying for one fault, the cheapest kind first. */
export function repairsFor(build: Build, fault: Fault): readonly RepairDef[] {
  const { at, mode } = fault
  const replanned = replan(build, fault)
  if (replanned.length > 0) return replanned
  if (at.includes('/')) return setting(build, at)
  const lead = supplyLeadAt(build, at)
  if (lead >= 0) return [repairOf([{ do: 'reseat', plug: at }], 3, { power: 'off' })]
  const port = build.portAt.get(at)
  if (mode === 'overloaded') return lighten(build, port ?? NOWHERE, build.partAt.get(at) ?? NOWHERE)
  if (port !== undefined && build.ports[port]?.gender === 'socket') {
    return POWER_CLEARS.has(mode) ? [POWER_CYCLE, ...portRepairs(build, port)] : portRepairs(build, port)
  }
  if (port !== undefined) return plugRepairs(build, port, mode)
  if (POWER_CLEARS.has(mode)) return [POWER_CYCLE, ...substitutePart(build, at)]
  if (mode === 'way-missing') return withAllWays(build, at)
  if (mode === 'blocked')
    return [repairOf([{ do: 'free', part: at }], 2, { power: 'off' }), ...substitutePart(build, at)]
  return substitutePart(build, at)
}

function plugRepairs(build: Build, plug: number, mode: string): RepairDef[] {
  const ref = refOf(build, plug)
  if (mode.startsWith('swapped-with-'))
    return [inside(build, plug, [{ do: 'swap', a: ref, b: mode.slice('swapped-with-'.length) }], 2)]
  if (mode.startsWith('in-')) {
    const home: Edit = { do: 'plug', plug: ref, socket: refOf(build, build.socketOf[plug] ?? NOWHERE) }
    const part = build.ports[plug]?.part ?? ''
    return [
      inside(build, plug, [home], 2),
      ...substitutePart(build, part).map((r) => ({
        ...r,
        id: `${r.id}, ${editText(home)}`,
        edits: [...r.edits, home],
      })),
    ]
  }
  if (mode.startsWith('open-') || mode.startsWith('frayed-')) return leadRepairs(build, plug)
  return [inside(build, plug, [{ do: 'reseat', plug: ref }], 1.2)]
}
