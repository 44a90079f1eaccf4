/**
 * Which sources carry more than they may. By up to a quarter over the limit a source sags; above that it gives
 * nothing: it trips where it is protected and is damaged where not, which looks the same until power is cycled.
 * The shares are judgement (common practice, no source).
 */
import type { Build, BuildPart } from './build.ts'
import { CONDUCTORS, conductorIndex, NOWHERE, WIDTH } from './build.ts'

const SAG_UP_TO = 1.25
/** What is left of the volts when a source sags. */
export const SAG = 0.88

const RAILS = [conductorIndex['12V'], conductorIndex['5V']] as const

/** By socket: 1, SAG or 0, for the loads that hang on it as the plugs sit. */
export function strainOf(build: Build, plugIn: Int32Array): Float32Array {
  const strain = new Float32Array(build.ports.length).fill(1)
  const known = new Map<number, number>()

  const ownLoad = (part: BuildPart, plug: number, rail: number): number => {
    let amps = 0
    if (rail === conductorIndex['12V'] && part.motor && part.motorPower === plug) amps += part.motor.amps
    for (const { light, plug: lightPlug } of part.lights) {
      if (lightPlug === plug && (light.volts === 5) === (rail === conductorIndex['5V'])) amps += light.amps
    }
    return amps
  }
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
    const key = plug * CONDUCTORS.length + rail
    const before = known.get(key)
    if (before !== undefined) return before
    known.set(key, 0) // a loop of plugs adds nothing
    const amps = plugLoad(plug, rail)
    known.set(key, amps)
    return amps
  }
  const weigh = (sockets: readonly number[], load: number, limit: number): void => {
    if (!(load > limit * 1.0001)) return
    const left = load <= limit * SAG_UP_TO ? SAG : 0
    for (const socket of sockets) strain[socket] = Math.min(strain[socket] ?? 1, left)
  }
  const load = (sockets: readonly number[]): number =>
    sockets.reduce((sum, s) => sum + RAILS.reduce((amps, rail) => amps + socketLoad(s, rail), 0), 0)

  for (const [socket, header] of build.fanHeaders) weigh([socket], load([socket]), header.amps)
  for (const [socket, header] of build.lightHeaders) weigh([socket], load([socket]), header.amps)
  build.plan.supply.leads.forEach((lead, k) => {
    const sockets = build.sockets.filter((s) => build.supplyLead[s] === k)
    const on = (rail: number): number => sockets.reduce((sum, s) => sum + socketLoad(s, rail), 0)
    weigh(sockets, on(conductorIndex['12V']), lead.amps12)
    weigh(sockets, on(conductorIndex['5V']), lead.amps5)
  })
  for (const part of build.parts)
    for (const [sockets, limit] of limitsOf(part)) weigh(sockets, load(sockets), limit)
  return strain
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
