/** The words around a question on which several places are marked. */
import type { Observable, Value } from '../core/bench/observable.ts'
import type { Power } from '../core/checks/prompt.ts'

export interface MarkWords {
  /** A value short enough for a map; undefined where the language has no shorter one than its usual. */
  readonly short: (observable: Observable, value: Value, power: Power) => string | undefined
  /** What is looked at, behind a name, where a question asks for more than one thing of the same part. */
  readonly look: Readonly<Record<string, string>>
  /** What Space goes through, each with its shape. */
  readonly cycle: (ways: readonly string[]) => string
  /** What Enter will record: nothing yet, or the marks by name, or how many of each way where names are too many. */
  readonly none: string
  readonly records: (count: number, said: readonly string[]) => string
  readonly one: (name: string, way: string) => string
  readonly several: (count: number, way: string) => string
}
