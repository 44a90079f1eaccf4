/** Rough air: fan laws, the balance of a case, warming of the air and loudness. Estimates; filters and grilles are left out. */

const CUBIC_METRES_PER_CUBIC_FOOT = 0.028316846592
/** Air in a room: kg/m³ and J/(kg·K). */
const AIR = { density: 1.2, heat: 1005 } as const

/** Flow, pressure and power at a share of the speed, as shares. @source fan affinity laws */
export const atSpeed = (ratio: number): { flow: number; pressure: number; power: number } => ({
  flow: ratio,
  pressure: ratio ** 2,
  power: ratio ** 3,
})

/** Flow of fans side by side in free air, in the unit given. */
export const sideBySide = (flows: readonly number[]): number => flows.reduce((sum, flow) => sum + flow, 0)

/** Intake less exhaust: over 0 the case is under pressure. */
export const balance = (intakes: readonly number[], exhausts: readonly number[]): number =>
  sideBySide(intakes) - sideBySide(exhausts)

export const cubicMetresPerHour = (cfm: number): number => cfm * CUBIC_METRES_PER_CUBIC_FOOT * 60

/** Kelvin by which air warms that carries so many watts. @source heat balance */
export const warming = (watts: number, cfm: number): number =>
  watts / (AIR.density * AIR.heat * ((cfm * CUBIC_METRES_PER_CUBIC_FOOT) / 60))

/** Decibels by which equal sources are louder than one. @source addition of sound power */
export const louderBy = (sources: number): number => 10 * Math.log10(sources)

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
