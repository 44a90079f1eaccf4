/**
 * A dead fan header whose plug no free place takes: what has to be got before it can be mended. A splitter on another header
 * where that carries both, else a hub that has a supply plug of its own.
 */
import { type Build, NOWHERE } from '../bench/build.ts'
import { refOf } from '../faults/entry.ts'
import type { Fault } from '../faults/fault.ts'
import { otherSockets } from './repair.ts'

export interface ToGet {
  /** The plug that has no place. */
  readonly plug: string
  /** The header that a splitter would go on, with what it would carry then and what it can; none carries so much: null. */
  readonly splitter: { readonly on: string; readonly amps: number; readonly limit: number } | null
}

/** Amps that the motors below a socket draw from it at most. */
function ampsBelow(build: Build, socket: number, depth = 0): number {
  const plug = build.plugIn[socket] ?? NOWHERE
  const entry = build.parts[build.partOf[plug] ?? NOWHERE]
  if (plug < 0 || !entry || depth > 4) return 0
  const { part } = entry
  // What has a supply plug of its own asks nothing of the header.
  if ('power' in part && part.power !== 'header') return 0
  const own = 'motor' in part && part.motor?.feed === 'lead' ? part.motor.amps : 0
  return entry.sockets.reduce((sum, s) => sum + ampsBelow(build, s, depth + 1), own)
}

/** Modes in which a header drives its fan no more. */
const GONE: ReadonlySet<string> = new Set(['dead', 'tripped'])

/** Undefined where the fault is no such header, or a free place is there. */
export function toGet(build: Build, { at, mode }: Fault): ToGet | undefined {
  const socket = build.portAt.get(at) ?? NOWHERE
  const plug = build.plugIn[socket] ?? NOWHERE
  if (!GONE.has(mode) || !build.fanHeaders.has(socket) || plug < 0) return undefined
  if (otherSockets(build, plug).length > 0) return undefined
  const asked = ampsBelow(build, socket)
  const [best] = [...build.fanHeaders.entries()]
    .filter(
      ([other, header]) =>
        other !== socket && header.role !== 'pump' && (build.plugIn[other] ?? NOWHERE) >= 0,
    )
    .map(([other, header]) => ({
      on: refOf(build, other),
      amps: Math.round((ampsBelow(build, other) + asked) * 100) / 100,
      limit: header.amps,
    }))
    .filter(({ amps, limit }) => amps <= limit)
    .sort((a, b) => b.limit - b.amps - (a.limit - a.amps) || (a.on < b.on ? -1 : 1))
  return { plug: refOf(build, plug), splitter: best ?? null }
}
