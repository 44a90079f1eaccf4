/**
 * One step as the engine proposes it and a flow carries it out: edits to make, then something to look at. The flow
 * only needs to know what power and hands the step calls for; what it means is the engine's.
 */
import type { Edit } from '../../src/core/bench/edit.ts'
import type { Ask, Outcome } from '../../src/core/checks/prompt.ts'

export interface WorkStep {
  /** `restore` puts back what a trial changed; `again` asks once more what was taken back. */
  readonly kind: 'check' | 'repair' | 'restore' | 'again'
  readonly id: string
  readonly edits: readonly Edit[]
  /** The edits, or fitting meter leads, need hands in the case. */
  readonly handsIn: boolean
  /** Power is cut and given again, with hands out: the repair of whatever had hung. */
  readonly cycle: boolean
  readonly minutes: number
  /** What is looked at afterwards; null: the symptom itself, for proof. */
  readonly ask: Ask | null
}

export interface EndStep {
  readonly kind: 'end'
  readonly outcome: Exclude<Outcome, 'left'>
}

export type FlowStep = WorkStep | EndStep
