/**
 * Voltage lost along leads, and what is left at each place of a branching run. Copper only: a bad contact is a
 * fault of a joint, not a property of the lead. Out and back, so a metre of lead counts twice.
 */
import { ohmsPerMetre } from './copper.ts'

/** Ohms out and back. @param mm one way, ≥ 0 @param awg 18 to 28 */
export const leadOhms = (mm: number, awg: number): number => 2 * ohmsPerMetre(awg) * (mm / 1000)

/** Volts lost over both conductors. @param amps through the lead, ≥ 0 */
export const leadDrop = (amps: number, mm: number, awg: number): number => amps * leadOhms(mm, awg)

/** Volts lost at a contact, and watts that heat it. @param ohms 0.01 to 0.05 for a worn one */
export const contactDrop = (amps: number, ohms: number): number => amps * ohms
export const contactHeat = (amps: number, ohms: number): number => amps * amps * ohms

/** A run as a tree: a stretch of lead, what is drawn at its end, and what goes on from there. */
export interface Run {
  readonly at: string
  readonly ohms: number
  readonly amps: number
  readonly on: readonly Run[]
}

/** Amps through the stretch that leads to this place. */
export const ampsThrough = (run: Run): number =>
  run.on.reduce((sum, next) => sum + ampsThrough(next), run.amps)

/** Volts at every place of a run, in its order, for loads that draw a steady current. @param volts at its start */
export function voltsAlong(run: Run, volts: number): Map<string, number> {
  const found = new Map<string, number>()
  const walk = (here: Run, before: number): void => {
    const left = before - ampsThrough(here) * here.ohms
    found.set(here.at, left)
    for (const next of here.on) walk(next, left)
  }
  walk(run, volts)
  return found
}

/**
 * Amps that each of several leads side by side carries: in inverse proportion to its ohms.
 * @param amps in all @param ohms of each lead, > 0
 */
export function sharedAmps(amps: number, ohms: readonly number[]): number[] {
  const siemens = ohms.reduce((sum, each) => sum + 1 / each, 0)
  return ohms.map((each) => amps / each / siemens)
}
