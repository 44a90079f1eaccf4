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

/** The place of a port in `settings.headers`: `SYS1` for `board.SYS1`, else `C1.fan1`. */
export function headerPlace(build: Build, port: number): string {
  const at = build.ports[port]
  if (!at) return ''
  return at.part === 'board' ? at.name : at.ref
}

const AS_IT_COMES: HeaderSetting = {}

/** What is set for a header or a port of a controller; empty where nothing is. */
export const headerSetting = (build: Build, settings: Settings, port: number): HeaderSetting =>
  settings.headers[headerPlace(build, port)] ?? AS_IT_COMES

/** What the settings ask of a port, duty in percent. */
export function askedDuty(moment: Moment, port: number): number {
  if (moment.forced?.port === port) return moment.forced.duty
  // What comes and goes has a second moment; a curve that hunts is at its upper end by then.
  return (moment.world.contact && swing(moment, port)?.high) || dutyAfter(moment, port, 0)
}

/** Duty at the temperature of the settings, or so much above it. */
function dutyAfter({ build, world: { settings } }: Moment, port: number, warmer: number): number {
  const { curve } = headerSetting(build, settings, port)
  if (curve && curve.length > 0) return dutyAt(curve, settings.celsius + warmer)
  const header = build.fanHeaders.get(port)
  return header?.role === 'pump' ? 100 : dutyAt(USUAL_CURVE, settings.celsius + warmer)
}

/** A temperature under the control of its own fans wavers by this, °C (common practice, no source). */
const WAVERS = 2
/** A processor's own figure jumps by this with each short load, °C (common practice, no source). */
const JUMPS = 10
/** Where the firmware does not say otherwise it follows a rise this late, seconds (common practice, no source). */
export const USUAL_DELAY = 3
/** Points of duty by which a curve must swing before anybody sees it. */
const SEEN_FROM = 10

const delayAt = ({ build, world }: Moment, port: number): number =>
  headerSetting(build, world.settings, port).delay ?? USUAL_DELAY

/**
 * Between which duties a port hunts, percent, as its curve goes with the temperature; undefined where it is steady.
 * @param delay seconds, as set where it is left out
 */
export function swing(
  moment: Moment,
  port: number,
  delay = delayAt(moment, port),
): { readonly low: number; readonly high: number } | undefined {
  const low = dutyAfter(moment, port, 0)
  const high = dutyAfter(moment, port, delay > 0 ? WAVERS : JUMPS)
  const starts = low <= 0 && high > 0
  return starts || high - low > SEEN_FROM ? { low, high } : undefined
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
