/**
 * Voltage lost along leads. Copper only: a bad contact is a fault of a joint, not a property of the lead.
 */
import { ohmsPerMetre } from './copper.ts'

/**
 * Volts lost over a lead, out and back.
 * @param amps out on the rail that is asked for, ≥ 0 @param mm one way, ≥ 0 @param awg 18 to 28
 * @param back amps that come back: more than went out where another rail has the same ground; over how many wires alike
 */
export const leadDrop = (amps: number, mm: number, awg: number, back = { amps, wires: 1 }): number =>
  (amps + back.amps / back.wires) * ohmsPerMetre(awg) * (mm / 1000)

/** Volts lost at a contact, and watts that heat it. @param ohms 0.01 to 0.05 for a worn one */
export const contactDrop = (amps: number, ohms: number): number => amps * ohms
export const contactHeat = (amps: number, ohms: number): number => amps * amps * ohms
