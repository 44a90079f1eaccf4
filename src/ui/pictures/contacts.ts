/**
 * Which contact of a connector carries what, for the drawings: numbers and order as the public tables give them. Fan pins:
 * 4-Wire PWM Controlled Fans Specification, table 1; light pins: header tables of desktop-board manuals; SATA: PC hardware
 * handbook, SATA power pins; peripheral plug and its colours: encyclopedia article on the connector; USB: header tables of
 * desktop-board manuals, for the 19-pin one too (pin 20 is the key). That port a is the row of odd pins, and of pins 1 to 10
 * there, is our own convention.
 */
import type { Conductor } from '../../core/plan/ports.ts'
import type { PictureKind } from '../../wording/screen.ts'

export interface Contact {
  readonly pin: number
  /** `key` is a place without a pin, `unused` a pin that nothing is read at. */
  readonly carries: Conductor | 'key' | 'unused'
}

const row = (pins: readonly number[], carries: readonly Contact['carries'][]): Contact[] =>
  pins.map((pin, i) => ({ pin, carries: carries[i] ?? 'unused' }))

const threeEach = (rails: readonly Conductor[]): Conductor[] => rails.flatMap((rail) => [rail, rail, rail])

/** Fast pair, ground, fast pair, ground, slow pair: of both ports of a 19-pin header, each from its 5 V on. */
const USB3_LANES: readonly Conductor[] = ['USB', 'USB', 'GND', 'USB', 'USB', 'GND', 'USB', 'USB']

/** Rows of contacts from the side one looks at, pin 1 at the left. */
export const CONTACTS: Readonly<Record<PictureKind, readonly (readonly Contact[])[]>> = {
  fan3: [row([1, 2, 3], ['GND', '12V', 'TACH'])],
  fan4: [row([1, 2, 3, 4], ['GND', '12V', 'TACH', 'CONTROL'])],
  light5: [row([1, 2, 3, 4], ['5V', 'DATA', 'key', 'GND'])],
  light12: [row([1, 2, 3, 4], ['12V', 'G', 'R', 'B'])],
  sata: [
    row(
      [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14, 15],
      [...threeEach(['3V3', 'GND', '5V']), 'GND', 'unused', 'GND', ...threeEach(['12V'])],
    ),
  ],
  peripheral: [row([1, 2, 3, 4], ['12V', 'GND', 'GND', '5V'])],
  usb2: [
    row([1, 3, 5, 7, 9], ['5V', 'USB', 'USB', 'GND', 'key']),
    row([2, 4, 6, 8, 10], ['5V', 'USB', 'USB', 'GND', 'unused']),
  ],
  usb3: [
    row([1, 2, 3, 4, 5, 6, 7, 8, 9, 10], ['5V', ...USB3_LANES, 'unused']),
    row([20, 19, 18, 17, 16, 15, 14, 13, 12, 11], ['key', '5V', ...USB3_LANES]),
  ],
}

/**
 * Volts that should stand at a contact with the machine on, and how far they may be off: 5 % at the supply's rails and at a
 * fan (fan specification 2.1.1), and at a USB port (4.75 to 5.25 V, USB power text). Undefined where no steady volts stand.
 */
export function rightVolts(conductor: Conductor): { nominal: number; from: number; to: number } | undefined {
  const nominal = conductor === '12V' ? 12 : conductor === '5V' ? 5 : conductor === '3V3' ? 3.3 : undefined
  return nominal === undefined ? undefined : { nominal, from: nominal * 0.95, to: nominal * 1.05 }
}
