/**
 * From tach pulses to a speed, and what a reading says when the count of pulses a turn is set wrong, when two
 * fans share one tach wire, or when a fan is slower than the counter can tell.
 */

/** Pulses a turn when nothing says otherwise. @source public 4-wire fan specification 2.1.3; kernel hwmon ABI, fanY_pulses */
export const USUAL_PULSES = 2

/** RPM from the tach's frequency. @param hz ≥ 0 @param pulses a turn, ≥ 1 @source public 4-wire fan specification 2.1.3 */
export const rpmFromHz = (hz: number, pulses: number = USUAL_PULSES): number => (hz * 60) / pulses

/** Frequency of the tach in Hz; the other way round from `rpmFromHz`. */
export const hzFromRpm = (rpm: number, pulses: number = USUAL_PULSES): number => (rpm * pulses) / 60

/** Milliseconds from pulse to pulse; Infinity for a fan that stands still. */
export const pulsePeriodMs = (rpm: number, pulses: number = USUAL_PULSES): number =>
  1000 / hzFromRpm(rpm, pulses)

/**
 * RPM that a header shows for a fan of `real` pulses a turn if it counts on `assumed`.
 * @source kernel hwmon ABI, fanY_pulses
 */
export const shownRpm = (rpm: number, real: number, assumed: number): number => (rpm * real) / assumed

/** Joined tach wires read anything from one fan's speed up to this sum, RPM. Common practice, no source. */
export const joinedRpmAtMost = (rpms: readonly number[]): number => rpms.reduce((sum, rpm) => sum + rpm, 0)

/** An 8-bit counter runs at this rate over one pulse, and 255 means overflow. @source sensor tools, note on fan divisors */
export const COUNTER_HZ = 22_500
export const COUNTER_TOP = 254

/** RPM from a pulse counter's value. @param count 1 to 254 @param divisor power of two @source sensor tools, note on fan divisors */
export const rpmFromCount = (count: number, divisor: number): number => (60 * COUNTER_HZ) / (count * divisor)

/** The slowest fan that such a counter can tell from one that stands still, RPM. */
export const slowestCountedRpm = (divisor: number): number => rpmFromCount(COUNTER_TOP, divisor)
