/** One conductor of a lead open: pinched, pulled out of its contact, broken, or broken inside so that it touches at times. */
import { type Build, conductorIndex, WIDTH } from '../bench/build.ts'
import { frayConductor, openConductor, type World } from '../bench/world.ts'
import type { Conductor } from '../plan/ports.ts'
import { type FaultEntry, portAt, refOf, seat, wiredPlugs } from './entry.ts'

/** Thin signal wires break before the supply wires do (common practice, no source). */
const BREAKS: Readonly<Record<Conductor, number>> = {
  '12V': 0.12,
  '5V': 0.12,
  '3V3': 0,
  GND: 0.1,
  TACH: 0.2,
  CONTROL: 0.2,
  DATA: 0.25,
  DATA_BACK: 0.2,
  R: 0.1,
  G: 0.1,
  B: 0.1,
  USB: 0.25,
}

/**
 * A wire breaks inside its insulation first and touches for a while; fewer come to the bench by then. One conductor stands
 * for all that show alike: 12 V for ground, data for the supply of lights (common practice, no source).
 */
const FRAYS: Readonly<Partial<Record<Conductor, number>>> = {
  '12V': 0.08,
  TACH: 0.07,
  CONTROL: 0.07,
  DATA: 0.12,
  USB: 0.08,
}

const seatsBy = (weights: Readonly<Partial<Record<Conductor, number>>>) => (build: Build) =>
  wiredPlugs(build).flatMap((plug) => {
    const socket = build.socketOf[plug] ?? 0
    const both = (build.pins[plug] ?? 0) & (build.pins[socket] ?? 0)
    return (Object.entries(weights) as [Conductor, number][])
      .filter(([c, weight]) => weight > 0 && both & (1 << conductorIndex[c]) && carries(build, plug, c))
      .map(([c, weight]) => seat(refOf(build, plug), weight, c))
  })

const onConductor =
  (does: (world: World, plug: number, conductor: number) => void) =>
  (build: Build, at: string, arg: string) => {
    const plug = portAt(build, at)
    const conductor = conductorIndex[arg as Conductor]
    if (plug === undefined || conductor === undefined) return undefined
    if (!((build.pins[plug] ?? 0) & (1 << conductor))) return undefined
    return (world: World) => does(world, plug, conductor)
  }

export const leadFaults: readonly FaultEntry[] = [
  { mode: 'open-', family: 'lead', seats: seatsBy(BREAKS), plant: onConductor(openConductor) },
  {
    mode: 'frayed-',
    family: 'lead',
    intermittent: true,
    seats: seatsBy(FRAYS),
    plant: onConductor(frayConductor),
  },
]

/** Whether anything behind the plug makes use of the conductor. */
function carries(build: Build, plug: number, conductor: Conductor): boolean {
  const entry = build.parts[build.partOf[plug] ?? -1]
  if (!entry) return false
  if (conductor === 'DATA_BACK') {
    const light = entry.lights.find((l) => l.plug === plug)?.light
    const above = build.parts[build.partOf[build.socketOf[plug] ?? 0] ?? -1]?.light
    return light?.returns === true && above?.does === 'feeds' && above.order === 'series'
  }
  if (conductor === 'TACH')
    return entry.motorPlug === plug ? entry.motor?.tach === 'pulses' : entry.tachOut === plug
  if (plug === entry.motorPlug) {
    if (conductor === 'CONTROL') return entry.motor?.pins === 4
    return entry.motorPower === plug
  }
  if (plug === entry.motorPower && conductor === '5V') return false
  // A plug that only carries control and tach (the header lead of a powered hub) feeds nothing by its supply wires.
  if (conductor === '12V' || conductor === '5V' || conductor === 'GND') return feeds(build, plug, conductor)
  return true
}

function feeds(build: Build, plug: number, conductor: '12V' | '5V' | 'GND'): boolean {
  const entry = build.parts[build.partOf[plug] ?? -1]
  if (!entry) return false
  if (plug === entry.usbPlug || plug === entry.motorPower) return true
  if (entry.lights.some((l) => l.plug === plug)) return true
  if (plug === entry.power && conductor === 'GND') return true
  return entry.sockets.some((s) => build.up[s * WIDTH + conductorIndex[conductor]] === plug)
}
