/** What SATA and four-pin peripheral supply plugs bear, by pin, rail and whole plug. */

/** @source PC hardware handbook, table of SATA power pins */
export const SATA_PINS = 15
export const SATA_PINS_PER_RAIL = 3
/** Amps a pin. @source question-and-answer thread that cites the SATA specification */
export const SATA_PIN_AMPS = 1.5
export const SATA_RAIL_AMPS = SATA_PINS_PER_RAIL * SATA_PIN_AMPS
/** Amps a contact with 18 AWG and 30 °C rise. @source encyclopedia page and PC repair handbook on the peripheral connector */
export const PERIPHERAL_PIN_AMPS = 11

/**
 * Ground wires of a lead of the supply, SATA or peripheral; each rail has one wire.
 * @source ATX12V design guide 2.0, wire tables of both connectors
 */
export const SUPPLY_GROUND_WIRES = 2

/** Amps that one rail of a plug bears. */
export const plugRailAmps = (kind: 'sata' | 'peripheral'): number =>
  kind === 'sata' ? SATA_RAIL_AMPS : PERIPHERAL_PIN_AMPS

/** Watts that a peripheral plug bears over its 12 V and 5 V contact. */
export const peripheralWatts = (amps: number = PERIPHERAL_PIN_AMPS): number => amps * 12 + amps * 5
