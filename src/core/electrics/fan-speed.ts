/**
 * How fast a fan turns at a duty and at a voltage, and whether it starts from rest there. The three kinds of
 * four-wire fan differ under their lowest duty: one keeps its lowest speed, one keeps it but stops at 0, one stops.
 * Linear in duty and in volts; real fans keep within ±10 percentage points of that (fan specification 3.3).
 */
import type { Motor } from '../plan/part.ts'

type Drives = Pick<Motor, 'rpm' | 'belowMin' | 'startDuty' | 'startVolts'>
/** From rest a fan needs more than to keep turning. */
export type From = 'rest' | 'turning'

export const FAN_VOLTS = 12
/** Under this a turning fan stalls, volts. @source hobby wiring page, "about 5 V"; common practice */
export const STALL_VOLTS = 5
/** Percentage points of top speed that a fan may be off its duty. @source public 4-wire fan specification 3.3 */
export const SPEED_BAND = 10
/** The largest lowest speed that a fan may declare, percent of its top. @source public 4-wire fan specification 3.2 */
export const LOWEST_SPEED_AT_MOST = 30
/** Longest start pulse, seconds. @source public 4-wire fan specification 3.2 */
export const START_PULSE_SECONDS = 2

/** RPM straight from the duty, without what happens under the lowest. @param duty percent */
export const linearRpm = (topRpm: number, duty: number): number => (topRpm * duty) / 100

/** Lowest and highest RPM that still agree with a duty. @source public 4-wire fan specification 3.3 */
export const speedBand = (topRpm: number, duty: number): [low: number, high: number] => [
  linearRpm(topRpm, Math.max(0, duty - SPEED_BAND)),
  linearRpm(topRpm, duty + SPEED_BAND),
]

/** The largest lowest RPM that a conforming fan may declare. @source public 4-wire fan specification 3.2 */
export const lowestRpmAtMost = (topRpm: number): number => linearRpm(topRpm, LOWEST_SPEED_AT_MOST)

/** The duty at which a fan reaches its lowest speed, percent. */
export const lowestDuty = (motor: Pick<Motor, 'rpm'>): number => (motor.rpm[0] / motor.rpm[1]) * 100

/**
 * RPM at 12 V and a duty on the control pin. @param duty percent, 0 to 100
 * @source public 4-wire fan specification 3.3 and 3.4
 */
export function rpmAtDuty(motor: Drives, duty: number, from: From = 'turning'): number {
  const [min, max] = motor.rpm
  const wanted = Math.max(min, linearRpm(max, duty))
  if (motor.belowMin === 'keeps') return wanted
  if (duty <= 0) return 0
  if (motor.belowMin === 'stops-at-zero') return wanted
  const needs = from === 'rest' ? Math.max(motor.startDuty, lowestDuty(motor)) : lowestDuty(motor)
  return duty < needs ? 0 : wanted
}

/** Volts that a header in DC mode gives at a duty; ideal, linear. @source kernel hwmon driver page, pwmN_mode */
export const dcVolts = (duty: number): number => (duty / 100) * FAN_VOLTS

/** Percent of 12 V. */
export const dcDuty = (volts: number): number => (volts / FAN_VOLTS) * 100

/**
 * RPM of a fan whose supply is lowered and whose control pin is open (or is not there).
 * @param volts 0 to 12 @source PC fan wiring pages (start above 5 V); speed in proportion to volts: common practice, no source
 */
export function rpmAtVolts(motor: Drives, volts: number, from: From = 'turning'): number {
  const needs = from === 'rest' ? motor.startVolts : Math.min(STALL_VOLTS, motor.startVolts)
  return volts < needs ? 0 : (motor.rpm[1] * volts) / FAN_VOLTS
}
