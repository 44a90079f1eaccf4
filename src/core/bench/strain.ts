/**
 * Which sources carry more than they may. By up to a quarter over the limit a source sags; above that it gives
 * nothing: it trips where it is protected and is damaged where not, which looks the same until power is cycled.
 * The shares are judgement (common practice, no source).
 */
import { isOver, SAGS_UP_TO } from '../electrics/overload.ts'
import type { Build, BuildPart } from './build.ts'
import { conductorIndex, NOWHERE, WIDTH } from './build.ts'

/** What is left of the volts when a source sags. */
export const SAG = 0.88

const RAILS = [conductorIndex['12V'], conductorIndex['5V']] as const

/** Sockets that share one limit on some rails. */
interface Limit {
  readonly sockets: readonly number[]
  readonly rails: readonly number[]
  readonly amps: number
}

const limits = new WeakMap<Build, readonly Limit[]>()

/** Every limit of a build; the same however it is plugged. */
function limitsIn(build: Build): readonly Limit[] {
  const known = limits.get(build)
  if (known) return known
  const [v12, v5] = RAILS
  const byLead = build.plan.supply.leads.map((): number[] => [])
  for (const s of build.sockets) byLead[build.supplyLead[s] ?? NOWHERE]?.push(s)
  const made: Limit[] = [
    ...[...build.fanHeaders, ...build.lightHeaders].map(([s, { amps }]) => ({
      sockets: [s],
      rails: RAILS,
      amps,
    })),
    ...build.plan.supply.leads.flatMap((lead, k) => [
      { sockets: byLead[k] ?? [], rails: [v12], amps: lead.amps12 },
      { sockets: byLead[k] ?? [], rails: [v5], amps: lead.amps5 },
    ]),
    ...build.parts.flatMap((part) =>
      limitsOf(part).map(([sockets, amps]) => ({ sockets, rails: RAILS, amps })),
    ),
  ]
  limits.set(build, made)
  return made
}

/** By socket: 1, SAG or 0, for the loads that hang on it as the plugs sit. */
export function strainOf(build: Build, plugIn: Int32Array): Float32Array {
  const strain = new Float32Array(build.ports.length).fill(1)
  const known = new Float64Array(build.ports.length * 2).fill(UNKNOWN)

  const plugLoad = (plug: number, rail: number): number => {
    const part = build.parts[build.partOf[plug] ?? NOWHERE]
    if (!part) return 0
    let amps = ownLoad(part, plug, rail)
    for (const socket of part.sockets) {
      if (build.up[socket * WIDTH + rail] === plug) amps += socketLoad(socket, rail)
    }
    return amps
  }
  const socketLoad = (socket: number, rail: number): number => {
    const plug = plugIn[socket] ?? NOWHERE
    if (plug < 0) return 0
    const key = plug * 2 + (rail === conductorIndex['5V'] ? 1 : 0)
    const before = known[key] ?? UNKNOWN
    if (before !== UNKNOWN) return before
    known[key] = 0 // a loop of plugs adds nothing
    const amps = plugLoad(plug, rail)
    known[key] = amps
    return amps
  }
  for (const { sockets, rails, amps } of limitsIn(build)) {
    let load = 0
    for (const s of sockets) for (const rail of rails) load += socketLoad(s, rail)
    if (!isOver(load, amps)) continue
    const left = load <= amps * SAGS_UP_TO ? SAG : 0
    for (const s of sockets) strain[s] = Math.min(strain[s] ?? 1, left)
  }
  return strain
}

const UNKNOWN = -1

function ownLoad(part: BuildPart, plug: number, rail: number): number {
  let amps = rail === conductorIndex['12V'] && part.motor && part.motorPower === plug ? part.motor.amps : 0
  for (const { light, plug: lightPlug } of part.lights) {
    if (lightPlug === plug && (light.volts === 5) === (rail === conductorIndex['5V'])) amps += light.amps
  }
  return amps
}

/** Groups of a part's sockets with the amps that they may carry together. */
function limitsOf({ part, sockets }: BuildPart): readonly (readonly [readonly number[], number])[] {
  const each = (of: readonly number[], amps: number) => of.map((s) => [[s], amps] as const)
  switch (part.kind) {
    case 'fan-hub':
    case 'light-hub':
      return [[sockets, part.amps], ...each(sockets, part.portAmps)]
    case 'light-splitter':
      return [[sockets, part.amps]]
    case 'controller': {
      const fans = sockets.slice(0, part.fanPorts)
      const lights = sockets.slice(part.fanPorts)
      return [
        [fans, part.fanAmps],
        [lights, part.lightAmps],
        ...each(fans, part.fanPortAmps),
        ...each(lights, part.lightPortAmps),
      ]
    }
    default:
      return []
  }
}
