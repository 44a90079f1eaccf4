/**
 * What fans draw, steady and at the start, against what a header or a hub gives. The limit itself belongs to the
 * plan; the trade's margin and the fan specification's limits for a single fan are here.
 */

/** One fan at 12.6 V, amps. @source public 4-wire fan specification 2.1.2 */
export const FAN_STEADY_AMPS = 1.5
/** One fan while starting, amps, and for how many seconds it may be over 1 A. @source public 4-wire fan specification 2.1.2 */
export const FAN_START_AMPS = 2.2
export const FAN_START_SECONDS = 1
/**
 * How far over its steady limit a source is driven for the start second. Deduced: a source that is meant for one
 * fan of the specification gives 2.2 A there while it is rated for 1.5 A.
 */
export const START_SURGE = FAN_START_AMPS / FAN_STEADY_AMPS
/** Share of a limit that is planned for. Common practice, no source. */
export const PLANNED_SHARE = 0.8
/** Volts of a fan's supply. @source public 4-wire fan specification 2.1.1 */
export const FAN_VOLTS_RANGE = [11.4, 12.6] as const

export const watts = (volts: number, amps: number): number => volts * amps

/** Amps left under a limit; negative when over. */
export const ampsLeft = (limit: number, loads: readonly number[]): number =>
  limit - loads.reduce((sum, amps) => sum + amps, 0)

/** How many equal loads fit. The tiny amount added keeps 4.5 / 0.3 at fifteen in binary fractions. */
export const loadsThatFit = (limit: number, each: number, share = 1): number =>
  Math.floor((limit * share) / each + 1e-6)
