/**
 * What a header or a controller's port makes of the tach pulses that come back: rpm = 60 × Hz ÷ pulses a turn
 * (four-wire fan specification, two pulses). Splitters return one fan's tach; two on one line jump about.
 */
import { shownRpm, slowestCountedRpm, USUAL_PULSES } from '../electrics/tach.ts'
import { conductorIndex, NOWHERE } from './build.ts'
import { askedDuty, headerSetting } from './drive.ts'
import { across, type Moment, stateOf, working } from './moment.ts'
import { askedRpm, governor, turning } from './motor.ts'
import { hostSpeaksTo } from './usb.ts'
import { PORT } from './world.ts'

const { TACH } = conductorIndex

/** Parts whose tach reaches this socket, turning or not. */
export function tachSources(moment: Moment, socket: number, depth = 0): readonly number[] {
  const { build, world } = moment
  const plug = world.plugIn[socket] ?? NOWHERE
  if (depth > 8 || plug < 0 || across(moment, plug, TACH) !== socket) return []
  const index = build.partOf[plug] ?? NOWHERE
  const part = build.parts[index]
  if (!part) return []
  const state = stateOf(moment, index)
  if (plug === part.motorPlug) return part.motor?.tach === 'pulses' && !state.tachDead ? [index] : []
  if (plug !== part.tachOut || state.dead) return []
  const from =
    state.tachFrom === undefined
      ? part.tachFrom
      : state.tachFrom === 'all'
        ? part.sockets
        : part.sockets.slice(state.tachFrom - 1, state.tachFrom)
  return from.flatMap((s) =>
    (world.port[s] ?? 0) & (PORT.tach | PORT.dead) ? [] : tachSources(moment, s, depth + 1),
  )
}

/** The slowest fan that an 8-bit counter with its divisor left at 8 tells from one that stands still. */
export const COARSE_RPM = slowestCountedRpm(8)

/** The figure that the port shows: RPM, `erratic` where several tachs meet, or null where it offers none. */
export function reading(moment: Moment, port: number): number | 'erratic' | null {
  const { build, world } = moment
  const header = build.fanHeaders.get(port)
  if (!header && !reportsByUsb(moment, port)) return null
  if (!working(moment, port) || (world.port[port] ?? 0) & PORT.tach) return 0
  const turningNow = tachSources(moment, port).filter((i) => turning(moment, i).rpm > 0)
  if (turningNow.length > 1) return 'erratic'
  const index = turningNow[0]
  if (index === undefined) return 0
  const assumed = headerSetting(build, world.settings, port).pulses ?? USUAL_PULSES
  const real = build.parts[index]?.motor?.pulses ?? USUAL_PULSES
  const shown = shownRpm(turning(moment, index).rpm, real, Math.max(assumed, 1))
  return (world.port[port] ?? 0) & PORT.coarse && shown < COARSE_RPM ? 0 : shown
}

function reportsByUsb(moment: Moment, port: number): boolean {
  const { build } = moment
  const index = build.partOf[port] ?? NOWHERE
  const part = build.parts[index]?.part
  if (part?.kind !== 'controller' || part.fanControl !== 'own') return false
  return (build.ports[port]?.name.startsWith('fan') ?? false) && hostSpeaksTo(moment, index)
}

export type RpmWord = 'none' | 'zero' | 'low' | 'plausible' | 'high' | 'erratic'

/** The reading against what the setting of that port asks of the fan that reports there. */
export function rpmWord(moment: Moment, reference: Moment, port: number): RpmWord {
  const shown = reading(moment, port)
  if (shown === null) return 'none'
  if (shown === 'erratic') return 'erratic'
  if (shown === 0) return 'zero'
  const index = tachSources(moment, port).find((i) => turning(moment, i).rpm > 0) ?? NOWHERE
  const motor = moment.build.parts[index]?.motor
  if (!motor) return 'plausible'
  // A fan fed past the header (from a supply plug, without control) is asked for its top.
  const asked = askedRpm(motor, governor(reference, index) < 0 ? 100 : askedDuty(reference, port))
  const tolerance = 0.1 * motor.rpm[1]
  return shown > asked + tolerance ? 'high' : shown < asked - tolerance ? 'low' : 'plausible'
}

/** Watched headers raise an alarm when their reading is under the limit; a CPU header has one unless set otherwise. */
export const USUAL_CPU_ALARM_RPM = 200

export function alarmLimit(moment: Moment, port: number): number {
  const set = headerSetting(moment.build, moment.world.settings, port).alarmBelow
  return set ?? (moment.build.fanHeaders.get(port)?.role === 'cpu' ? USUAL_CPU_ALARM_RPM : 0)
}

export function alarm(moment: Moment, port: number): 'yes' | 'no' | null {
  const limit = alarmLimit(moment, port)
  const shown = reading(moment, port)
  if (shown === null) return null
  if ((moment.world.port[port] ?? 0) & PORT.alarm) return 'yes'
  return shown !== 'erratic' && shown < limit ? 'yes' : 'no'
}
