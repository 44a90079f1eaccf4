/**
 * A build as it really is at one moment: which plug sits where and how well, which conductors are open, which
 * ports and parts do not work, what is set. Faults sit on things; edits make new joints, and a new joint is a
 * healthy one, so a bad lead moves with its fan and a bad port stays, without a rule for either.
 */
import type { Settings } from '../plan/plan.ts'
import { type Build, NOWHERE } from './build.ts'
import type { Edit } from './edit.ts'
import { withSetting } from './setting.ts'

/** How a plug sits in its socket; only a sound joint conducts, a loose one now and then. `ownEnd`: the lead is out of its own part. */
export const JOINT = { sound: 0, loose: 1, offset: 2, reversed: 3, ownEnd: 4 } as const

/** What does not work at a socket, as bits. */
export const PORT = {
  dead: 1,
  tripped: 2,
  control: 4,
  tach: 8,
  data: 16,
  /** Its contacts are worn: makes contact now and then. */
  flaky: 32,
  /** Its data level is marginal: taken now and then. */
  weak: 64,
  /** Shows an alarm from before. */
  alarm: 128,
  /** Counts slow fans as standing still. */
  coarse: 256,
  /** Gives up under its load and comes back: feeds now and then. */
  recovers: 512,
} as const

export interface PartState {
  /** `sticks`: starts at times, and stops again. */
  readonly motor?: 'dead' | 'seized' | 'blocked' | 'worn' | 'sticks'
  readonly tachDead?: boolean
  readonly lightsDead?: boolean
  /** Number of the first LED that neither lights nor hands data on, from 1. */
  readonly ledDead?: number
  /** Number of an LED that stays dark and hands data on, from 1. */
  readonly ledDark?: number
  /** Does nothing at all. */
  readonly dead?: boolean
  /** Works, but does not answer over USB. */
  readonly notAnswering?: boolean
  /** Does not answer over USB until its power has been away. */
  readonly asleep?: boolean
  /** Stopped taking new data while it ran; a full power-off clears it. */
  readonly hung?: boolean
  /** The way whose tach really comes back, where it is not the planned one. */
  readonly tachFrom?: number | 'all'
}

export interface World {
  socketOf: Int32Array
  plugIn: Int32Array
  joint: Uint8Array
  /** By plug: bit c is set where conductor c of its lead is open. */
  cut: Uint16Array
  /** The same for conductors that touch now and then. */
  frayed: Uint16Array
  port: Uint16Array
  parts: ReadonlyMap<number, PartState>
  /** By lead of the supply: how it sits at the supply; `sound`, `loose`, or out. */
  supplyEnd: Uint8Array
  settings: Settings
  power: boolean
  /** What comes and goes holds at this moment: a loose joint makes contact, a source that gives up feeds. */
  contact: boolean
  /** Something here may come and go. */
  unsteady: boolean
  /** Plugs that a hand has moved (pulled, plugged or exchanged), wherever they were before. */
  moved: ReadonlySet<number>
  /** The faults are there, and what moves plugs from now on is a hand. */
  handling: boolean
  /** Arrays that are this world's own; the others are shared with every world of the build until written to. */
  own: number
  /** Some plug is not where the plan has it, so loads must be added up anew. */
  rewired: boolean
  /** By light plug: LEDs that hold their last picture, having lost their data while they had power. */
  held: ReadonlyMap<number, number>
}

export const SUPPLY_END_OUT = 9

type Field = 'socketOf' | 'plugIn' | 'joint' | 'cut' | 'frayed' | 'port' | 'supplyEnd'
const OWN: Readonly<Record<Field, number>> = {
  socketOf: 1,
  plugIn: 2,
  joint: 4,
  cut: 8,
  port: 16,
  supplyEnd: 32,
  frayed: 64,
}

/** Thousands of worlds differ from the plan in one place or two: an array is copied when it is first written to. */
function write(world: World, field: Field, index: number, value: number): void {
  if (world[field][index] === value) return
  if (!(world.own & OWN[field])) {
    const mine: Record<Field, World[Field]> = world
    mine[field] = world[field].slice()
    world.own |= OWN[field]
  }
  world[field][index] = value
}

type Blank = Pick<World, 'joint' | 'cut' | 'frayed' | 'port' | 'supplyEnd'>
const blanks = new WeakMap<Build, Blank>()

function blankOf(build: Build): Blank {
  const known = blanks.get(build)
  if (known) return known
  const n = build.ports.length
  const blank = {
    joint: new Uint8Array(n),
    cut: new Uint16Array(n),
    frayed: new Uint16Array(n),
    port: new Uint16Array(n),
    supplyEnd: new Uint8Array(build.plan.supply.leads.length),
  }
  blanks.set(build, blank)
  return blank
}

const NOTHING_HELD: ReadonlyMap<number, number> = new Map()
const NOTHING_ALTERED: ReadonlyMap<number, PartState> = new Map()
const NOTHING_MOVED: ReadonlySet<number> = new Set()

/** The build exactly as planned, with power on, to be altered by the functions of this file only. */
export function asPlanned(build: Build): World {
  const { joint, cut, frayed, port, supplyEnd } = blankOf(build)
  // Field by field: an object begun by a spread is slow to make, and thousands of worlds are made for one reply.
  return {
    socketOf: build.socketOf,
    plugIn: build.plugIn,
    joint,
    cut,
    frayed,
    port,
    supplyEnd,
    parts: NOTHING_ALTERED,
    settings: build.plan.settings,
    power: true,
    contact: false,
    unsteady: false,
    moved: NOTHING_MOVED,
    handling: false,
    own: 0,
    rewired: false,
    held: NOTHING_HELD,
  }
}

export const alterPart = (world: World, part: number, change: PartState): void => {
  if (change.motor === 'sticks') world.unsteady = true
  setPart(world, part, { ...world.parts.get(part), ...change })
}

/** @param state without one the part is as good as new */
function setPart(world: World, part: number, state: PartState | undefined): void {
  const parts = new Map(world.parts)
  if (state) parts.set(part, state)
  else parts.delete(part)
  world.parts = parts
}

/** Leaves a plug in its socket as `JOINT` says. */
export function seatBadly(world: World, plug: number, how: number): void {
  if (how === JOINT.loose) world.unsteady = true
  write(world, 'joint', plug, how)
}

/** Leaves a lead of the supply as `JOINT` says, or SUPPLY_END_OUT, at the supply's own end. */
export function seatAtSupply(world: World, lead: number, how: number): void {
  if (how === JOINT.loose) world.unsteady = true
  write(world, 'supplyEnd', lead, how)
}

export function openConductor(world: World, plug: number, conductor: number): void {
  write(world, 'cut', plug, (world.cut[plug] ?? 0) | (1 << conductor))
}

/** Leaves a conductor of a lead broken inside its insulation: its ends touch now and then. */
export function frayConductor(world: World, plug: number, conductor: number): void {
  world.unsteady = true
  write(world, 'frayed', plug, (world.frayed[plug] ?? 0) | (1 << conductor))
}

const UNSTEADY = PORT.flaky | PORT.weak | PORT.recovers

/** Marks what does not work at a socket, bits of `PORT`. */
export function spoilPort(world: World, socket: number, bits: number): void {
  if (bits & UNSTEADY) world.unsteady = true
  write(world, 'port', socket, (world.port[socket] ?? 0) | bits)
}

/** Pulls a plug out of wherever it is. */
export function pull(world: World, plug: number): void {
  const socket = world.socketOf[plug] ?? NOWHERE
  if (world.handling && !world.moved.has(plug)) world.moved = new Set([...world.moved, plug])
  if (socket >= 0) write(world, 'plugIn', socket, NOWHERE)
  write(world, 'socketOf', plug, NOWHERE)
  write(world, 'joint', plug, JOINT.sound)
  world.rewired = true
}

/** Pushes a plug home in a socket; what was in there comes out first. */
export function push(world: World, plug: number, socket: number): void {
  pull(world, plug)
  const other = world.plugIn[socket] ?? NOWHERE
  if (other >= 0) pull(world, other)
  write(world, 'socketOf', plug, socket)
  write(world, 'plugIn', socket, plug)
}

export const exchange = (world: World, a: number, b: number): void =>
  crossOver(world, a, b, world.socketOf[a] ?? NOWHERE, world.socketOf[b] ?? NOWHERE)

/** Where a hand puts another plug in the place of this one: where it is; where it hangs free, its planned socket if nothing is in it. */
function placeOf(build: Build, world: World, plug: number): number {
  const now = world.socketOf[plug] ?? NOWHERE
  const planned = build.socketOf[plug] ?? NOWHERE
  return now >= 0 || planned < 0 || (world.plugIn[planned] ?? NOWHERE) >= 0 ? now : planned
}

function crossOver(world: World, a: number, b: number, atA: number, atB: number): void {
  pull(world, a)
  pull(world, b)
  if (atB >= 0) push(world, a, atB)
  if (atA >= 0) push(world, b, atA)
}

/** Pushes a plug home again: where it is, or in its planned socket if it was out and that is free. */
export function reseat(build: Build, world: World, plug: number): void {
  write(world, 'joint', plug, JOINT.sound)
  if ((world.socketOf[plug] ?? NOWHERE) >= 0) return
  const planned = build.socketOf[plug] ?? NOWHERE
  if (planned >= 0 && (world.plugIn[planned] ?? NOWHERE) < 0) push(world, plug, planned)
}

/** Number of a supply lead named `supply.SA`, or NOWHERE. */
export const supplyLeadAt = (build: Build, ref: string): number =>
  ref.startsWith('supply.')
    ? build.plan.supply.leads.findIndex((lead) => `supply.${lead.id}` === ref)
    : NOWHERE

const plugAt = (build: Build, world: World, ref: string): number => {
  const port = build.portAt.get(ref) ?? NOWHERE
  if (port < 0) return NOWHERE
  return build.ports[port]?.gender === 'plug' ? port : (world.plugIn[port] ?? NOWHERE)
}

function mendLead(world: World, plug: number): void {
  write(world, 'cut', plug, 0)
  write(world, 'frayed', plug, 0)
}

function substitutePart(build: Build, world: World, index: number): void {
  if (world.parts.has(index)) setPart(world, index, undefined)
  const part = build.parts[index]
  if (!part) return
  for (const plug of part.plugs) {
    mendLead(world, plug)
    reseat(build, world, plug)
  }
  for (const socket of part.sockets) {
    write(world, 'port', socket, 0)
    const plug = world.plugIn[socket] ?? NOWHERE
    if (plug >= 0) write(world, 'joint', plug, JOINT.sound)
  }
}

const CLEARED = PORT.tripped | PORT.alarm

/** Switching off clears trips, stored alarms and whatever had hung. */
function powerOff(world: World): void {
  world.power = false
  world.held = NOTHING_HELD
  // Ports that were never written to are as the plan has them: nothing has tripped.
  for (let i = 0; world.own & OWN.port && i < world.port.length; i++)
    write(world, 'port', i, (world.port[i] ?? 0) & ~CLEARED)
  for (const [index, state] of world.parts) {
    if (!state.hung && !state.asleep) continue
    const { hung: _, asleep: __, ...rest } = state
    setPart(world, index, rest)
  }
}

/** Does one edit; false where it names what is not there or does not fit. */
export function applyEdit(build: Build, world: World, edit: Edit): boolean {
  switch (edit.do) {
    case 'power':
      if (edit.to === 'off') powerOff(world)
      else world.power = true
      return true
    case 'unplug': {
      const lead = supplyLeadAt(build, edit.plug)
      if (lead >= 0) write(world, 'supplyEnd', lead, SUPPLY_END_OUT)
      const plug = plugAt(build, world, edit.plug)
      if (plug >= 0) pull(world, plug)
      return plug >= 0 || lead >= 0
    }
    case 'plug': {
      const plug = build.portAt.get(edit.plug) ?? NOWHERE
      const socket = build.portAt.get(edit.socket) ?? NOWHERE
      if (plug < 0 || socket < 0) return false
      push(world, plug, socket)
      return true
    }
    case 'swap': {
      const a = plugAt(build, world, edit.a)
      const b = plugAt(build, world, edit.b)
      if (a < 0 || b < 0) return false
      crossOver(world, a, b, placeOf(build, world, a), placeOf(build, world, b))
      return true
    }
    case 'reseat': {
      const lead = supplyLeadAt(build, edit.plug)
      if (lead >= 0) write(world, 'supplyEnd', lead, JOINT.sound)
      const plug = plugAt(build, world, edit.plug)
      if (plug >= 0) reseat(build, world, plug)
      return plug >= 0 || lead >= 0
    }
    case 'substitute': {
      const part = build.partAt.get(edit.what)
      if (part !== undefined) {
        substitutePart(build, world, part)
        return true
      }
      const plug = build.portAt.get(edit.what) ?? NOWHERE
      if (plug < 0) return false
      mendLead(world, plug)
      reseat(build, world, plug)
      return true
    }
    case 'free': {
      const part = build.partAt.get(edit.part)
      if (part === undefined) return false
      const state = world.parts.get(part)
      if (state?.motor === 'blocked') {
        const { motor: _, ...rest } = state
        setPart(world, part, rest)
      }
      return true
    }
    case 'set': {
      const settings = withSetting(world.settings, edit.setting, edit.value)
      if (!settings) return false
      world.settings = settings
      return true
    }
  }
}
