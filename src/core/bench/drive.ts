/**
 * What a header or a controller's port drives: the mode, the duty that its curve asks at the present temperature,
 * and the volts that stand on its supply pin. In DC drive the supply is lowered and the control pin rests.
 */
import { dutyAt } from '../electrics/fan-curve.ts'
import type { HeaderSetting, Settings } from '../plan/plan.ts'
import type { Build } from './build.ts'
import { conductorIndex, NOWHERE } from './build.ts'
import type { Moment } from './moment.ts'
import { PORT } from './world.ts'

/** Where a plan has no curve: a common default of boards (common practice, no source). */
export const USUAL_CURVE: readonly (readonly [number, number])[] = [
  [30, 40],
  [70, 100],
]

/** The place of a port in `settings.headers`: `SYS1` for `board.SYS1`, else `C1.fan1`, or `C1` for all of its ports. */
export function headerPlace(build: Build, port: number): string {
  const ref = build.ports[port]?.ref ?? ''
  return ref.startsWith('board.') ? ref.slice('board.'.length) : ref
}

export function headerSetting(build: Build, settings: Settings, port: number): HeaderSetting {
  const place = headerPlace(build, port)
  const whole = place.includes('.') ? settings.headers[place.slice(0, place.indexOf('.'))] : undefined
  return { ...whole, ...settings.headers[place] }
}

/** What the settings ask of a port, duty in percent. */
export function askedDuty(moment: Moment, port: number): number {
  const { build, forced } = moment
  const { settings } = moment.world
  if (forced?.port === port) return forced.duty
  const { curve } = headerSetting(build, settings, port)
  if (curve && curve.length > 0) return dutyAt(curve, settings.celsius)
  const header = build.fanHeaders.get(port)
  return header?.role === 'pump' ? 100 : dutyAt(USUAL_CURVE, settings.celsius)
}

const CONTROL_BIT = 1 << conductorIndex.CONTROL

/** `auto` goes by the plug that sits there. */
export function driveMode(moment: Moment, port: number): 'pwm' | 'dc' {
  const { build, world } = moment
  const header = build.fanHeaders.get(port)
  if (!header) return 'pwm'
  if (header.pins === 3) return 'dc'
  const set = headerSetting(build, world.settings, port).drive
  if (header.drive !== 'auto') return header.drive
  if (set) return set
  const plug = world.plugIn[port] ?? NOWHERE
  return plug >= 0 && ((build.pins[plug] ?? 0) & CONTROL_BIT) === 0 ? 'dc' : 'pwm'
}

export const controlWorks = (moment: Moment, port: number): boolean =>
  ((moment.world.port[port] ?? 0) & (PORT.control | PORT.dead | PORT.tripped)) === 0
