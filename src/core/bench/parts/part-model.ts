/**
 * What a kind of part does between its own ports, as data: which socket gets its conductors from where, and
 * which sockets hand a tach back. Supply, control and USB run down from sources to fans; tach runs up; light data
 * has its own walk (`light-data.ts`), because a chain in series comes back before it goes on.
 */
import type { Part, PartKindName } from '../../plan/part.ts'
import type { Conductor } from '../../plan/ports.ts'

/** A conductor at one of the part's sockets, and the port of the same part that it comes from. */
export interface Inside {
  readonly socket: string
  readonly from: string
  readonly conductors: readonly Conductor[]
}

/** Tach that arrives at these sockets leaves by this plug. */
export interface TachPath {
  readonly out: string
  readonly from: readonly string[]
}

export type LightRole =
  /** Passes on what comes in at a plug, the same to every socket. */
  | { readonly does: 'splits'; readonly from: string; readonly sockets: readonly string[] }
  /** Makes or forwards one stream for all its sockets. */
  | {
      readonly does: 'feeds'
      readonly order: 'series' | 'parallel' | 'separate'
      readonly sockets: readonly string[]
      readonly host: 'usb' | 'none' | { readonly from: string }
    }

export interface PartModel<P extends Part = Part> {
  inside(part: P): readonly Inside[]
  tach?(part: P): TachPath | undefined
  light?(part: P): LightRole | undefined
  /** The plug by which the part itself is powered, if it does nothing without; undefined for passive parts. */
  poweredBy?(part: P): string | undefined
}

export type PartModels = { readonly [K in PartKindName]: PartModel<Extract<Part, { kind: K }>> }

/** `1` to `n`, or with a prefix `fan1` to `fann`. */
export const names = (n: number, prefix = ''): string[] =>
  Array.from({ length: n }, (_, i) => `${prefix}${i + 1}`)

/** Every conductor in every socket from one port. */
export const allFrom = (
  sockets: readonly string[],
  from: string,
  conductors: readonly Conductor[],
): readonly Inside[] => sockets.map((socket) => ({ socket, from, conductors }))

/** The sockets whose tach is handed back, by what the part says of itself. */
export const tachSockets = (from: number | 'all' | 'none', sockets: readonly string[]): string[] =>
  from === 'all' ? [...sockets] : from === 'none' ? [] : sockets.filter((_, i) => i === from - 1)
