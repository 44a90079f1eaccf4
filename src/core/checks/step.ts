/** What the engine can propose, as plain records: something to look at (after an edit, maybe), or something to mend. */
import type { Edit } from '../bench/edit.ts'
import type { Observable } from '../bench/observable.ts'
import type { Hands, Power } from './prompt.ts'

export interface CheckDef {
  readonly id: string
  /** Made first, with power off, and taken back afterwards. */
  readonly edits: readonly Edit[]
  readonly observe: readonly Observable[]
  /** While looking. */
  readonly power: Power
  readonly hands: Hands
  /** Looking and editing, without switching power. */
  readonly minutes: number
  readonly error: number
  readonly tools: readonly string[]
  /** Something must be fitted with power off before this can be read with power on (meter leads). */
  readonly fit: boolean
}

export interface RepairDef {
  readonly id: string
  readonly edits: readonly Edit[]
  readonly power: Power
  readonly hands: Hands
  readonly minutes: number
  /** A part that must be at hand. */
  readonly spare: string | null
}

export type Step =
  | { readonly kind: 'check'; readonly check: CheckDef }
  | { readonly kind: 'repair'; readonly repair: RepairDef }
  | { readonly kind: 'hand-over' }

/** Kept with the tools that are missing by who can't switch the machine off, so can't work inside it. */
export const HANDS_IN = 'hands-in'
