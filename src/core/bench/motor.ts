/**
 * How fast a fan or pump turns, from the volts and the duty that reach it, against what the settings ask. Start
 * and run limits as in the public four-wire fan specification: with the control wire open a fan runs at full
 * speed; under its lowest duty it keeps its minimum, or stops, by its kind.
 */
import { rpmAtDuty } from '../electrics/fan-speed.ts'
import type { Motor } from '../plan/part.ts'
import { type BuildPart, conductorIndex, NOWHERE, SOURCE, WIDTH } from './build.ts'
import { askedDuty, controlWorks, driveMode } from './drive.ts'
import { grounded, type Moment, once, stateOf, walk } from './moment.ts'
import { hostSpeaksTo } from './usb.ts'

const V12 = conductorIndex['12V']
const { CONTROL } = conductorIndex

export interface Turning {
  readonly rpm: number
  /** Tries to turn and gives up. */
  readonly twitches: boolean
}

const STILL: Turning = { rpm: 0, twitches: false }
const TWITCHES: Turning = { rpm: 0, twitches: true }
/** A dry or worn bearing costs about this share of the speed (common practice, no source). */
const WORN = 0.6

/** Volts on the 12 V conductor at a port, against its ground; lowered where a header drives in DC mode. */
export function volts12(moment: Moment, port: number): number {
  const { source, left } = walk(moment, port, V12)
  if (source < 0 || !moment.world.power) return 0
  const lowered =
    moment.build.fanHeaders.has(source) && driveMode(moment, source) === 'dc' && controlWorks(moment, source)
      ? askedDuty(moment, source) / 100
      : 1
  return 12 * lowered * left
}

/** The duty that a motor hears on its control pin; an open pin means full speed. */
function heardDuty(moment: Moment, part: BuildPart): { duty: number; heard: boolean } {
  const full = { duty: 100, heard: false }
  if (part.motor?.pins !== 4) return full
  const { source } = walk(moment, part.motorPlug, CONTROL)
  if (source < 0 || !controlWorks(moment, source)) return full
  return driveMode(moment, source) === 'dc' ? full : { duty: askedDuty(moment, source), heard: true }
}

/** What a duty on the control pin makes of a motor from rest, at 12 V. */
function drivenBy(motor: Motor, duty: number): Turning {
  const rpm = rpmAtDuty(motor, duty, 'rest')
  if (rpm > 0) return { rpm, twitches: false }
  return duty > 0 ? TWITCHES : STILL
}

export function turning(moment: Moment, index: number): Turning {
  return once(moment, 'turning', index, turn)
}

function turn(moment: Moment, index: number): Turning {
  const part = moment.build.parts[index]
  if (!part?.motor) return STILL
  const { motor: state, dead } = stateOf(moment, index)
  const volts = volts12(moment, part.motorPower)
  if (volts <= 0 || !grounded(moment, part.motorPower) || state === 'dead' || dead) return STILL
  const { duty, heard } = heardDuty(moment, part)
  const asked = heard ? drivenBy(part.motor, duty) : { rpm: part.motor.rpm[1], twitches: false }
  if (asked.rpm === 0) return asked
  if (state === 'seized' || state === 'blocked') return TWITCHES
  if (state === 'sticks' && !moment.world.contact) return TWITCHES
  if (volts < part.motor.startVolts) return TWITCHES
  return { rpm: asked.rpm * (volts / 12) * (state === 'worn' ? WORN : 1), twitches: false }
}

/** The header or controller port whose setting a motor should obey as things are plugged, or NOWHERE. */
export function governor(moment: Moment, index: number): number {
  const { build, world } = moment
  const part = build.parts[index]
  // Fed past the header and without a control pin: the header only reads it.
  if (part?.motor && part.motor.feed !== 'lead' && part.motor.pins !== 4) return NOWHERE
  let plug = part?.motorPlug ?? NOWHERE
  for (let step = 0; step < 16 && plug >= 0; step++) {
    const socket = world.socketOf[plug] ?? NOWHERE
    if (socket < 0) return NOWHERE
    const control = build.up[socket * WIDTH + CONTROL] ?? NOWHERE
    const supply = build.up[socket * WIDTH + V12] ?? NOWHERE
    if (control === SOURCE || build.fanHeaders.has(socket)) return socket
    plug = control >= 0 ? control : supply
  }
  return NOWHERE
}

/** What a duty asks of a motor, RPM: nothing at 0 where it may stop, never under its minimum otherwise. */
export function askedRpm(motor: Motor, duty: number): number {
  if (duty <= 0 && motor.belowMin !== 'keeps') return 0
  return Math.max(motor.rpm[0], (motor.rpm[1] * duty) / 100)
}

export type Spin = 'no' | 'twitches' | 'slow' | 'normal' | 'full'

/**
 * What a fan does against what the settings ask; `reference` is the same moment without faults.
 * With the mains off it is the blade under a finger: stiff, catching, or free.
 */
export function spin(moment: Moment, reference: Moment, index: number): Spin | null {
  const part = moment.build.parts[index]
  if (!part?.motor) return null
  if (!moment.world.power) return bladeByHand(moment, index)
  const { rpm, twitches } = turning(moment, index)
  if (rpm === 0) return twitches ? 'twitches' : 'no'
  const port = governor(reference, index)
  const asked = port < 0 ? part.motor.rpm[1] : askedRpm(part.motor, askedDuty(reference, port))
  const [min, max] = part.motor.rpm
  if (rpm >= 0.97 * max) return asked >= 0.9 * max ? 'normal' : 'full'
  return rpm < asked - 0.1 * max || rpm < 0.95 * min ? 'slow' : 'normal'
}

function bladeByHand(moment: Moment, index: number): Spin {
  const { motor } = stateOf(moment, index)
  if (motor === 'sticks') return 'slow'
  return motor === 'seized' ? 'no' : motor === 'blocked' ? 'twitches' : 'normal'
}

function settable(moment: Moment, port: number): boolean {
  const index = moment.build.partOf[port] ?? NOWHERE
  const part = moment.build.parts[index]?.part
  return part?.kind !== 'controller' || part.host !== 'usb' || hostSpeaksTo(moment, index)
}

/**
 * Whether the fans under a port change their speed when its setting is changed; null where no fan hangs there, or
 * where nobody can change it because the host does not reach the controller.
 */
export function follows(
  moment: Moment,
  reference: Moment,
  retry: (forced: NonNullable<Moment['forced']>) => Moment,
  port: number,
): 'yes' | 'no' | 'some' | null {
  const fans = moment.build.parts.flatMap((part, i) =>
    part.motor && governor(reference, i) === port ? [i] : [],
  )
  if (fans.length === 0 || !settable(moment, port)) return null
  const low = retry({ port, duty: 45 })
  const high = retry({ port, duty: 100 })
  const change = (i: number): number => {
    const max = moment.build.parts[i]?.motor?.rpm[1] ?? 1
    return (turning(high, i).rpm - turning(low, i).rpm) / max
  }
  const obey = fans.filter((i) => change(i) > 0.1).length
  return obey === fans.length ? 'yes' : obey === 0 ? 'no' : 'some'
}
