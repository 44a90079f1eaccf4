/**
 * One world at one moment, ready to be asked. `walk` follows a conductor from a plug or socket up to the source
 * that feeds it, through joints, leads and parts; everything else on the bench is built on it.
 */
import type { Build } from './build.ts'
import { conductorIndex, NOWHERE, SOURCE, WIDTH } from './build.ts'
import { strainOf } from './strain.ts'
import { JOINT, type PartState, PORT, SUPPLY_END_OUT, type World } from './world.ts'

export interface Moment {
  readonly build: Build
  readonly world: World
  readonly strain: Float32Array
  readonly memo: Memo
  /** A duty that is tried at one port in place of its curve, percent. */
  readonly forced: { readonly port: number; readonly duty: number } | undefined
}

/** What was worked out already at this moment, by number of socket or part. */
export interface Memo {
  readonly out: unknown[]
  readonly turning: unknown[]
  readonly listed: unknown[]
}

const plannedStrain = new WeakMap<Build, Float32Array>()

/** Loads are only added up again where a plug has moved. */
export function momentOf(build: Build, world: World, forced?: Moment['forced']): Moment {
  let strain = world.rewired ? undefined : plannedStrain.get(build)
  if (!strain) {
    strain = strainOf(build, world.plugIn)
    if (!world.rewired) plannedStrain.set(build, strain)
  }
  return { build, world, strain, memo: { out: [], turning: [], listed: [] }, forced }
}

const unstrained = new WeakMap<Build, Float32Array>()

/** The same with sources that carry whatever hangs on them: what should stand at a pin, not what an overload leaves. */
export function idealMomentOf(build: Build, world: World, forced?: Moment['forced']): Moment {
  const strain = unstrained.get(build) ?? new Float32Array(build.ports.length).fill(1)
  unstrained.set(build, strain)
  return { build, world, strain, memo: { out: [], turning: [], listed: [] }, forced }
}

/** The same moment with nothing worked out yet. */
export const freshly = (moment: Moment): Moment => ({ ...moment, memo: { out: [], turning: [], listed: [] } })

/** Computes a thing once a moment; `undefined` is no value. */
export function once<T>(
  moment: Moment,
  what: keyof Memo,
  index: number,
  compute: (moment: Moment, index: number) => T,
): T {
  const known = moment.memo[what]
  if (known[index] === undefined) known[index] = compute(moment, index)
  return known[index] as T
}

const NO_STATE: PartState = {}
export const stateOf = (moment: Moment, part: number): PartState => moment.world.parts.get(part) ?? NO_STATE

/** Whether the plug's joint conducts now. */
export function joined(moment: Moment, plug: number): boolean {
  const { world } = moment
  const joint = world.joint[plug] ?? 0
  return (
    (world.socketOf[plug] ?? NOWHERE) >= 0 &&
    (joint === JOINT.sound || (joint === JOINT.loose && world.contact))
  )
}

/** The socket in which a conductor of this plug really arrives, or NOWHERE. */
export function across(moment: Moment, plug: number, conductor: number): number {
  const { build, world } = moment
  if (!joined(moment, plug)) return NOWHERE
  const bit = 1 << conductor
  const socket = world.socketOf[plug] ?? NOWHERE
  if ((world.cut[plug] ?? 0) & bit || (!world.contact && (world.frayed[plug] ?? 0) & bit)) return NOWHERE
  return (build.pins[plug] ?? 0) & bit && (build.pins[socket] ?? 0) & bit ? socket : NOWHERE
}

/** Whether a socket works at all, on the part's or the source's side. */
export function working(moment: Moment, socket: number): boolean {
  const { build, world } = moment
  const bits = world.port[socket] ?? 0
  if (bits & (PORT.dead | PORT.tripped)) return false
  if (bits & PORT.flaky && !world.contact) return false
  const lead = build.supplyLead[socket] ?? NOWHERE
  if (lead >= 0) {
    const end = world.supplyEnd[lead]
    if (end === SUPPLY_END_OUT || (end === JOINT.loose && !world.contact)) return false
  }
  const part = build.partOf[socket] ?? NOWHERE
  return part < 0 || !stateOf(moment, part).dead
}

export interface Reach {
  /** The socket that is the source, or NOWHERE where the way is broken. */
  readonly source: number
  /** What the sources on the way leave of their volts, 0 to 1. */
  readonly left: number
}

const BROKEN: Reach = { source: NOWHERE, left: 0 }
const MOST_STEPS = 64
const RAILS = (1 << conductorIndex['12V']) | (1 << conductorIndex['5V'])

const givenUp = ({ world }: Moment, socket: number): boolean =>
  !world.contact && ((world.port[socket] ?? 0) & PORT.recovers) !== 0

/** Follows a conductor up from a port to the socket that feeds it. */
export function walk(moment: Moment, port: number, conductor: number): Reach {
  const { build, strain } = moment
  let at = port
  let left = 1
  for (let step = 0; step < MOST_STEPS && at >= 0; step++) {
    if (build.ports[at]?.gender === 'plug') {
      at = across(moment, at, conductor)
      continue
    }
    if (!working(moment, at)) return BROKEN
    left = Math.min(left, strain[at] ?? 1)
    // A source that has given up under its load feeds nothing; its other wires are still there.
    if (RAILS & (1 << conductor) && (left <= 0 || givenUp(moment, at))) return BROKEN
    const next = build.up[at * WIDTH + conductor] ?? NOWHERE
    if (next === SOURCE) return { source: at, left }
    at = next
  }
  return BROKEN
}

export const grounded = (moment: Moment, port: number): boolean =>
  walk(moment, port, conductorIndex.GND).source >= 0
