/**
 * One entry of the catalogue: where a mode can sit in a build, how likely against other modes, and the one small
 * thing it does to the world. Weights are judgement on a common scale (1 = a plug left out on a new build), to be
 * replaced by counts once jobs have been closed at a bench.
 */
import type { Build } from '../bench/build.ts'
import type { Plant } from '../bench/run.ts'
import type { Family } from './fault.ts'

export interface Seat {
  readonly at: string
  /** Written behind the mode: `open-` and `TACH`, `swapped-with-` and `F2.motor`. */
  readonly arg: string
  readonly weight: number
}

export interface FaultEntry {
  /** The mode, or its beginning where an argument follows. */
  readonly mode: string
  readonly family: Family
  /** Makes contact at times: what is seen may be either. */
  readonly intermittent?: true
  seats(build: Build): readonly Seat[]
  /** What it does at a place; undefined where it cannot sit there. */
  plant(build: Build, at: string, arg: string): Plant | undefined
}

export const seat = (at: string, weight: number, arg = ''): Seat => ({ at, arg, weight })

export const portAt = (build: Build, ref: string): number | undefined => build.portAt.get(ref)

/** Plugs that the plan has wired, by number. */
export const wiredPlugs = (build: Build): readonly number[] =>
  build.plugs.filter((p) => (build.socketOf[p] ?? -1) >= 0)

export const refOf = (build: Build, port: number): string => build.ports[port]?.ref ?? ''
