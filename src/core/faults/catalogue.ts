/**
 * The catalogue: every mode that a thing can have, and the single faults of one build with their priors. A fault
 * by name is planted from here, whoever names it: a suspect, a test, the command line.
 */
import type { Build } from '../bench/build.ts'
import type { Plant } from '../bench/run.ts'
import type { FaultEntry } from './entry.ts'
import type { Family, Fault } from './fault.ts'
import { jointFaults } from './joint.ts'
import { leadFaults } from './lead.ts'
import { partFaults } from './part.ts'
import { portFaults } from './port.ts'
import { settingEntries } from './setting.ts'
import { wiringFaults } from './wiring.ts'

export const catalogue: readonly FaultEntry[] = [
  ...jointFaults,
  ...leadFaults,
  ...wiringFaults,
  ...portFaults,
  ...partFaults,
  ...settingEntries,
]

const unsteady = catalogue.flatMap((e) => (e.intermittent ? [e.mode] : []))

/** Whether a mode makes contact now and then; one that has an argument is known by its stem. */
export const comesAndGoes = (mode: string): boolean =>
  unsteady.some((known) => (known.endsWith('-') ? mode.startsWith(known) : mode === known))

export interface KnownFault {
  readonly fault: Fault
  readonly family: Family
  readonly weight: number
  readonly intermittent: boolean
  readonly plant: Plant
}

const listed = new WeakMap<Build, readonly KnownFault[]>()

/** All single faults of a build, in the catalogue's order; listed once, since every answer may ask for other ones of them. */
export function faultsOf(build: Build): readonly KnownFault[] {
  const known = listed.get(build) ?? seated(build)
  listed.set(build, known)
  return known
}

function seated(build: Build): readonly KnownFault[] {
  return catalogue.flatMap((entry) =>
    entry.seats(build).flatMap(({ at, arg, weight }) => {
      const plant = entry.plant(build, at, arg)
      return plant
        ? [
            {
              fault: { at, mode: `${entry.mode}${arg}` },
              family: entry.family,
              weight,
              intermittent: entry.intermittent ?? false,
              plant,
            },
          ]
        : []
    }),
  )
}

/** A fault by name, whether or not it is likely enough to be listed; undefined where the build has no such place or mode. */
export function faultByName(build: Build, fault: Fault): KnownFault | undefined {
  for (const entry of catalogue) {
    const isPrefix = entry.mode.endsWith('-')
    if (isPrefix ? !fault.mode.startsWith(entry.mode) : fault.mode !== entry.mode) continue
    const plant = entry.plant(build, fault.at, isPrefix ? fault.mode.slice(entry.mode.length) : '')
    if (!plant) continue
    return { fault, family: entry.family, weight: 0.05, intermittent: entry.intermittent ?? false, plant }
  }
  return undefined
}
