/** What a reading answers, as records: what was taken, what was left out and why, and what it is laid over. */
import type { Build } from '../bench/build.ts'
import type { Edit } from '../bench/edit.ts'
import type { Observable, Value } from '../bench/observable.ts'
import type { NotTakenSetting } from './found-setting.ts'
import type { Named } from './naming.ts'
import type { NoWord } from './speed-word.ts'

export interface Taken {
  readonly observe: Observable
  readonly value: Value
  /** The name in the reading, such as `fan1`. */
  readonly from: string
  /** As it stood there: `0 RPM`. */
  readonly figure: string
}

export type WhyLeft =
  | NoWord
  | NotTakenSetting
  | 'no-place'
  | 'not-a-fan-port'
  | 'not-trusted'
  | 'turned-off'
  | 'absent'
  | 'percent-only'
  | 'disputed'
  | 'other-limit'
  | 'list-not-whole'
  | 'power-is-off'

export interface LeftOut {
  readonly from: string
  readonly why: WhyLeft
  readonly figure: string
  readonly at?: string
}

export interface Takes {
  readonly taken: readonly Taken[]
  readonly left: readonly LeftOut[]
}

export interface Situation {
  readonly build: Build
  /** Everything done to the build so far. */
  readonly history: readonly Edit[]
  readonly named: readonly Named[]
}

export const NONE: Takes = { taken: [], left: [] }
export const leave = (from: string, why: WhyLeft, figure: string, at?: string): Takes => ({
  taken: [],
  left: [{ from, why, figure, ...(at === undefined ? {} : { at }) }],
})
export const join = (all: readonly Takes[]): Takes => ({
  taken: all.flatMap((t) => t.taken),
  left: all.flatMap((t) => t.left),
})
