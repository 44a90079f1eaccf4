/** The scale in which chips hold a duty. */

/** Percent from a chip's 0–255. @source kernel hwmon ABI, pwmY */
export const dutyFromRaw = (raw: number): number => (raw / 255) * 100
