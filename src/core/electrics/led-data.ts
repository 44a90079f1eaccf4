/**
 * Data of addressable lights: the time that a frame takes, the level that counts as high, and how many LEDs of a
 * chain are reached. Every figure from the data sheet of the common 800 kbit/s three-colour LED chip.
 */

export const BITS_PER_LED = 24
/** Microseconds that a bit is high and low, for a zero and a one. */
const BIT_US = { zero: { high: 0.4, low: 0.85 }, one: { high: 0.8, low: 0.45 } } as const
/** The gap that ends a frame, microseconds, in later data sheets; early ones have 50. */
const RESET_US = 280
/** Frames a second under which movement is seen to stutter. @source LED chip data sheet, features: 1024 LEDs at 30 frames */
export const LEAST_FRAMES = 30
/** Volts at the LED: for stated behaviour at least 4.5, never over 5.3. @source LED chip data sheet, test conditions and absolute ratings */
export const LED_VOLTS = [4.5, 5.3] as const

export const bitUs = (bit: 'zero' | 'one' = 'zero'): number => BIT_US[bit].high + BIT_US[bit].low

/** Bits a millisecond, that is kbit/s. */
export const kilobitsPerSecond = (us: number = bitUs()): number => 1000 / us

/** Microseconds to send one LED its colour. */
export const ledUs = (bits: number = BITS_PER_LED): number => bits * bitUs()

/** Microseconds of a whole frame. @param leds in one chain */
export const frameUs = (leds: number, resetUs: number = RESET_US): number => leds * ledUs() + resetUs

/** The most frames a second that a chain can be sent. */
export const framesPerSecond = (leds: number, resetUs: number = RESET_US): number =>
  1_000_000 / frameUs(leds, resetUs)

/** The longest chain that still gets so many frames a second. */
export const ledsAtFrames = (frames: number, resetUs: number = RESET_US): number =>
  Math.floor((1_000_000 / frames - resetUs) / ledUs())

/** Lowest volts that count as high, and highest that count as low, at a supply voltage. */
export const highAtLeast = (supplyVolts: number): number => 0.7 * supplyVolts
export const lowAtMost = (supplyVolts: number): number => 0.3 * supplyVolts

/** Volts by which a data line clears the threshold; negative when it falls short. */
export const dataMargin = (dataVolts: number, supplyVolts: number): number =>
  dataVolts - highAtLeast(supplyVolts)

/** Highest supply at which a data level is still good. */
export const highestSupplyFor = (dataVolts: number): number => dataVolts / 0.7

/** LEDs that get new data when it breaks after LED `lastGood`. */
export const ledsReached = (leds: number, lastGood: number): number => Math.min(leds, lastGood)

/** LEDs that never get data because the profile stops short. */
export const ledsNotTold = (fitted: number, told: number): number => Math.max(0, fitted - told)

/** LED frames sent to nobody because the profile is too long. */
export const framesToNobody = (fitted: number, told: number): number => Math.max(0, told - fitted)
