/** Rough air: what fans move together, and a guess where only the size is known. Estimates; filters and grilles are left out. */

/** Flow of fans side by side in free air, in the unit given. */
export const sideBySide = (flows: readonly number[]): number => flows.reduce((sum, flow) => sum + flow, 0)

/**
 * Flow of a fan of which only the size is known, CFM at 1000 RPM. Common practice, no source: the middle of what is
 * printed on boxes; good for a sign, not for a figure.
 */
const CFM_AT_1000: readonly (readonly [mm: number, cfm: number])[] = [
  [92, 18],
  [120, 40],
  [140, 55],
  [200, 110],
]

/** A guess at a fan's free flow in CFM. @param sizeMm edge of the frame @param rpm at which it turns */
export const guessedCfm = (sizeMm: number, rpm: number): number => {
  const entry = CFM_AT_1000.find(([mm]) => sizeMm <= mm) ?? CFM_AT_1000.at(-1)
  return ((entry?.[1] ?? 0) * rpm) / 1000
}
