/**
 * Fans that the plan itself keeps from doing what their header asks: no control for the way the header drives, too
 * little to start, tachs that are joined, pulses or alarm limits that do not fit.
 */
import { type Build, NOWHERE } from '../bench/build.ts'
import { askedDuty, driveMode, headerPlace, headerSetting, swing, USUAL_DELAY } from '../bench/drive.ts'
import type { Moment } from '../bench/moment.ts'
import { askedRpm, governor, turning } from '../bench/motor.ts'
import { alarm, reading, tachSources } from '../bench/tach.ts'
import { refOf } from '../faults/entry.ts'
import type { Fault } from '../faults/fault.ts'
import { governedPorts } from '../faults/governed.ts'

const FAR = 0.1

/** What a fan does as planned, on sources that carry it, against what its port asks. */
type Doing = 'as-asked' | 'too-fast' | 'will-not-start' | 'too-slow'

export function doing(moment: Moment, index: number): Doing {
  const motor = moment.build.parts[index]?.motor
  const port = governor(moment, index)
  if (!motor || port < 0) return 'as-asked'
  const { rpm, twitches } = turning(moment, index)
  if (twitches) return 'will-not-start'
  const asked = askedRpm(motor, askedDuty(moment, port))
  // A fan without volts is left out, not badly driven.
  if (rpm === 0) return 'as-asked'
  if (rpm > asked + FAR * motor.rpm[1]) return 'too-fast'
  return rpm < asked - FAR * motor.rpm[1] ? 'too-slow' : 'as-asked'
}

/** Drives that do not reach the fans behind them: named by the setting where that can cure it, else by the fan. */
export const drives = (build: Build, moment: Moment): Fault[] => {
  const found = new Map<string, Fault>()
  for (const [index, { part, motor }] of build.parts.entries()) {
    const does = motor ? doing(moment, index) : 'as-asked'
    if (does === 'as-asked') continue
    const port = governor(moment, index)
    const place = headerPlace(build, port)
    const header = build.fanHeaders.get(port)
    const fault: Fault =
      does !== 'too-fast'
        ? { at: `headers/${place}/curve`, mode: 'under-start' }
        : header?.drive === 'auto' && driveMode(moment, port) === 'pwm'
          ? { at: `headers/${place}/drive`, mode: 'wrong-mode' }
          : { at: part.id, mode: 'not-controlled' }
    found.set(`${fault.at}:${fault.mode}`, fault)
  }
  return [...found.values()]
}

/** Headers that make their fans stop and start, or go up and down, with every small change of temperature. */
export const hunts = (build: Build, moment: Moment): Fault[] =>
  governedPorts(build).flatMap((port): Fault[] => {
    if (!swing(moment, port)) return []
    const place = headerPlace(build, port)
    return swing(moment, port, USUAL_DELAY)
      ? [{ at: `headers/${place}/curve`, mode: 'steps-at-start' }]
      : [{ at: `headers/${place}/delay`, mode: 'follows-at-once' }]
  })

/** The splitter or hub on the way down to a port's tachs that joins several. */
function joining(build: Build, moment: Moment, socket: number): number {
  const index = build.partOf[moment.world.plugIn[socket] ?? NOWHERE] ?? NOWHERE
  const entry = build.parts[index]
  if (!entry) return NOWHERE
  if (entry.tachFrom.length > 1) return index
  return entry.tachFrom[0] === undefined ? NOWHERE : joining(build, moment, entry.tachFrom[0])
}

/** Readings that cannot be right as planned, and alarms that must come. */
export const readings = (build: Build, moment: Moment): Fault[] =>
  governedPorts(build).flatMap((port): Fault[] => {
    const place = headerPlace(build, port)
    const shown = reading(moment, port)
    if (shown === 'erratic') {
      const index = joining(build, moment, port)
      return [{ at: build.parts[index]?.part.id ?? refOf(build, port), mode: 'tach-joined' }]
    }
    const source = tachSources(moment, port)[0]
    const motor = source === undefined ? undefined : build.parts[source]?.motor
    const told = headerSetting(build, build.plan.settings, port).pulses ?? 2
    const wrongPulses = motor !== undefined && motor.pulses !== told
    // A fan that rests as it is asked to is under every limit.
    const rests = motor !== undefined && askedRpm(motor, askedDuty(moment, port)) === 0
    return [
      ...(wrongPulses ? [{ at: `headers/${place}/pulses`, mode: 'wrong' }] : []),
      ...(alarm(moment, port) === 'yes' && shown !== null && (shown > 0 || rests) && !wrongPulses
        ? [{ at: `headers/${place}/alarm_below`, mode: 'too-high' }]
        : []),
    ]
  })

/** Watched headers at which, as planned, nothing reports. */
export const unwatched = (build: Build, moment: Moment): Fault[] =>
  [...build.fanHeaders.keys()].flatMap((port): Fault[] =>
    alarm(moment, port) === 'yes' && tachSources(moment, port).length === 0
      ? [{ at: refOf(build, port), mode: 'nothing-reports' }]
      : [],
  )
