/**
 * The trade's usual values, taken where a plan does not say and marked as assumed. Cautious rather than typical
 * where a wrong guess could hide an overload. Where no source is named it is common practice, from memory.
 */
import type { PlugKind } from './part.ts'

/** Fan spec: two pulses a turn, starts at 30 % or less; a case fan takes 0.05 to 0.3 A, twice that at start. */
export const usualMotor = {
  pins: 4,
  amps: 0.25,
  startFactor: 2,
  topRpm: 1500,
  minShare: 0.3,
  startVolts: 7,
  startDuty: 30,
  belowMin: 'keeps',
  pulses: 2,
} as const

/** Liquid-cooler pumps run at 2000 to 3600 rpm. */
export const usualPump = { amps: 0.5, topRpm: 2800 } as const

/** The common addressable LED takes green first, 3 × 20 mA at full white; a lit fan has 6 to 34 LEDs, most often 8 to 20. */
export const usualLight = {
  volts: 5,
  leds: 8,
  stripLeds: 30,
  ampsPerLed5: 0.06,
  ampsPerLed12: 0.02,
  colours: 'GRB',
} as const

/** Beginners' guides and board manuals: 1 A where nothing is known of a fan header, 2 A on a pump header. */
export const usualHeader = { fanAmps: 1, pumpAmps: 2, lightAmps: 3 } as const

/** SATA: three pins a rail at 1.5 A. Peripheral plug: 11 A a pin with 18 AWG. */
export const usualPlugAmps: Readonly<Record<PlugKind, number>> = { sata: 4.5, peripheral: 11 }
export const usualPlugs = 3

/** USB 2.0: 500 mA a port, 100 mA a unit load and on each port of a bus-powered hub; USB 3: 900 mA a port. */
export const usualUsb = { usb2: 500, usb3: 900, device: 100, busPort: 100, poweredPort: 500 } as const

/** What hubs and controllers are built for: as much as their one plug carries, and a fan header's or strip's worth a port. */
export const usualHub = {
  amps: 4.5,
  headerFedAmps: 1,
  fanPortAmps: 1,
  lightPortAmps: 2,
  splitterAmps: 3,
} as const

/** Degrees Celsius at the sensor that the curves follow, at rest with the case open. */
export const usualCelsius = 40
