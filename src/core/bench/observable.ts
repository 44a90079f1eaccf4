/**
 * The closed vocabulary of what can be seen, read or measured on a build, and the values it can have. Questions,
 * answers, symptoms, imports of readings and the line protocol all speak it; nothing else is ever observed.
 */
import type { Conductor } from '../plan/ports.ts'

export const valuesOf = {
  /** What a fan does; with the mains off, what its blade does under a finger. */
  spins: ['no', 'twitches', 'slow', 'normal', 'full'],
  /** The same fan watched for a minute: whether it goes on as it is. */
  steady: ['yes', 'comes-and-goes', 'swings', 'ticks'],
  /** What the board or a controller reports for a port. */
  rpm: ['none', 'zero', 'low', 'plausible', 'high', 'erratic'],
  lit: ['dark', 'part', 'whole', 'flicker'],
  /** Lights watched for a minute: whether they go out, or show something else, in between. */
  flickers: ['yes', 'no'],
  shows: ['nothing', 'stored', 'global', 'set', 'wrong-colours', 'frozen'],
  /** A running effect, watched over all parts of a channel. */
  effect: ['whole', 'stops-short', 'runs-off', 'jumps'],
  /** The part or parts (joined by +) that light when this port alone is lit, or none. */
  answers: null,
  /** The port where this lead really ends, or none. */
  goes: null,
  listed: ['yes', 'no', 'comes-and-goes'],
  follows: ['yes', 'no', 'some'],
  volts: ['none', 'low', 'right', 'high'],
  seated: ['yes', 'no', 'doubtful'],
  /** What its part does while a motor or light lead is moved a little at this plug. */
  'when-moved': ['same', 'changes'],
  /** The value found, as `settingText` writes it. */
  setting: null,
  alarm: ['yes', 'no'],
} as const satisfies Record<string, readonly string[] | null>

export type What = keyof typeof valuesOf

/** `at` is a reference: `F1`, `F1.motor`, `board.SYS1`, `board.SYS1/12V`, `channels/H1/profile`. */
export interface Observable {
  readonly what: What
  readonly at: string
}

/** A word of `valuesOf`, or a reference or setting text where that is open. */
export type Value = string

export const observableKey = (o: Observable): string => `${o.what} ${o.at}`

/** `board.SYS1` and `12V` give `board.SYS1/12V`. */
export const pinRef = (port: string, conductor: Conductor): string => `${port}/${conductor}`
