/** Copper by gauge: diameter, resistance and the current that a single wire in free air bears. */

/** Resistivity of annealed copper at 20 °C, Ω·mm²/m. */
const RHO = 0.017241
/** Rise of resistance a degree, from 20 °C. */
const PER_DEGREE = 0.00393

/** Diameter in mm. @param awg 0 to 40 @source definition of the American wire gauge (ASTM B258) */
export const diameterMm = (awg: number): number => 0.127 * 92 ** ((36 - awg) / 39)

/** Diameter of one gauge over that of another so many numbers up. */
export const diameterRatio = (steps: number): number => 92 ** (steps / 39)

/** Resistance of one gauge under that of another so many numbers up. */
export const resistanceRatio = (steps: number): number => diameterRatio(steps) ** 2

/** Ohms a metre of one conductor at 20 °C. @source gauge definition and annealed copper */
export const ohmsPerMetre = (awg: number): number => RHO / ((Math.PI / 4) * diameterMm(awg) ** 2)

/** Ohms a metre from a table in ohms per 1000 ft. */
export const perMetreFromPer1000Feet = (ohms: number): number => ohms / 304.8

/** How much more copper resists at a temperature than at 20 °C. */
export const warmRatio = (celsius: number): number => 1 + PER_DEGREE * (celsius - 20)

/** Amps that a single wire in free air bears, by gauge. @source gauge table of a university page, chassis wiring column */
const FREE_AIR_AMPS: readonly (readonly [awg: number, amps: number])[] = [
  [18, 16],
  [20, 11],
  [22, 7],
  [24, 3.5],
  [26, 2.2],
  [28, 1.4],
]

/** Amps that a lead of this gauge bears; between two entries of the table the thinner one counts. Undefined when thinner than all. */
export const ampsBorne = (awg: number): number | undefined =>
  FREE_AIR_AMPS.find(([gauge]) => gauge >= awg)?.[1]
