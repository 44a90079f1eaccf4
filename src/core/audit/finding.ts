/**
 * What auditing a plan brings up: one broken or doubtful limit, with the places in the file, what was computed,
 * what the limit is and where it comes from. No sentences: `wording/findings` says it.
 */
import type { Place } from '../plan/plan.ts'

export type Severity = 'will-damage' | 'will-not-work' | 'may-not-work' | 'untidy' | 'unknown'

export interface Finding {
  readonly rule: string
  readonly severity: Severity
  readonly places: readonly Place[]
  /** Parts, ports, leads and settings concerned, in the references that faults use (`board.SYS1`, `channels/H1/profile`). */
  readonly refs: readonly string[]
  readonly figure?: number
  readonly limit?: number
  readonly unit?: string
  readonly source: string
  readonly facts: Readonly<Record<string, string | number | readonly string[]>>
}
