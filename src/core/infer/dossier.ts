/** Everything that the next step depends on: what was learnt, what was done, what is not to be offered. */
import type { Edit } from '../bench/edit.ts'
import type { Observable } from '../bench/observable.ts'
import type { Power } from '../checks/prompt.ts'
import type { Evidence } from './evidence.ts'

export interface Dossier {
  readonly evidence: readonly Evidence[]
  /** All edits made so far, in order, power included. */
  readonly history: readonly Edit[]
  /** Edits of a trial that are still to be put back. */
  readonly inForce: readonly Edit[]
  readonly power: Power
  /** What the symptom was scoped by; a repair is proven when all of it is as wanted. */
  readonly scope: readonly Observable[]
  /** Ids of checks and repairs that this technician can't do, or that were tried. */
  readonly closed: ReadonlySet<string>
  readonly toolsMissing: ReadonlySet<string>
}
