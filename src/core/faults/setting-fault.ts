/** One way in which a setting can be wrong: which settings of a build can be, and the value that is then found. */
import type { Build } from '../bench/build.ts'
import type { Family } from './fault.ts'

export interface SettingFault {
  readonly mode: string
  readonly family: Family
  readonly weight: number
  /** Is seen now in one way, now in another. */
  readonly intermittent?: true
  /** References to settings that can be wrong in this way. */
  refs(build: Build): readonly string[]
  /** The wrong value, or undefined where this way of being wrong makes no difference. */
  wrong(build: Build, ref: string): string | undefined
}
