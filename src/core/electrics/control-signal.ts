/**
 * The signal on the control pin of a four-wire fan: its frequency and levels, and the 0–255 scale in which
 * chips hold a duty. Everything from the public 4-wire fan specification unless it says otherwise.
 */

/** Hz; sections 2.1.4 and 2.3.1. */
export const CONTROL_HZ = { least: 21_000, target: 25_000, most: 28_000 } as const
/** Highest volts at the control pin that count as low; 2.1.4. */
export const CONTROL_LOW_VOLTS = 0.8
/** Highest volts at a control pin that nothing pulls down; 2.1.4. */
export const CONTROL_OPEN_VOLTS = 5.25
/** Most milliamps that one fan pushes out of a control pin that is held low; 2.1.4. */
export const CONTROL_SOURCE_MA = 5
/** Duty that a fan acts on when its control pin is open, percent; 3.3. */
export const OPEN_CONTROL_DUTY = 100

/** One period in microseconds. @param hz > 0 */
export const periodUs = (hz: number): number => 1_000_000 / hz

/** How long the signal is high in each period, microseconds. @param duty percent */
export const highUs = (duty: number, hz: number = CONTROL_HZ.target): number => (periodUs(hz) * duty) / 100

/** How many fans one output can surely hold low if each pushes the most allowed. @param sinkMa what the output sinks */
export const fansPerSink = (sinkMa: number): number => Math.floor(sinkMa / CONTROL_SOURCE_MA)

/** Percent from a chip's 0–255. @source kernel hwmon ABI, pwmY */
export const dutyFromRaw = (raw: number): number => (raw / 255) * 100

/** The chip's 0–255 nearest to a percentage. @source kernel hwmon ABI, pwmY */
export const rawFromDuty = (duty: number): number => Math.round((duty / 100) * 255)
