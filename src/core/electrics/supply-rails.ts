/** What the rails of a PC supply may stand at. */

export type Rail = '12V' | '5V' | '3V3' | '5VSB'
export const railVolts: Readonly<Record<Rail, number>> = { '12V': 12, '5V': 5, '3V3': 3.3, '5VSB': 5 }

/** Lowest and highest volts around a nominal. @param low, high percent */
export const band = (volts: number, low: number, high: number = low): [low: number, high: number] => [
  volts * (1 - low / 100),
  volts * (1 + high / 100),
]

/** Percent that a rail may be under and over. @source ATX12V design guide 2.0, 3.2.1 table 2 */
export const RAIL_TOLERANCE = 5
/** Percent under on 12 V at peak load in that guide. @source the same, note 1 */
export const PEAK_TOLERANCE = 10

/** Volts at which a rail is still good. @source ATX12V design guide 2.0, 3.2.1 table 2 */
export const railBand = (rail: Rail): [low: number, high: number] => band(railVolts[rail], RAIL_TOLERANCE)
