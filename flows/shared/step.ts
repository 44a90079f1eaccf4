/**
 * One step as the engine proposes it and a flow carries it out: edits to make, then something to look at. The flow
 * only needs to know what power and hands the step calls for; what it means is the engine's.
 */
import type { Edit } from '../../src/core/bench/edit.ts'
import type { Ask, Outcome, Task } from '../../src/core/checks/prompt.ts'

export interface WorkStep {
  /** `restore` puts back what a trial changed; `again` asks once more what was taken back. */
  readonly kind: 'check' | 'repair' | 'restore' | 'again'
  readonly id: string
  /** What is changed: settings while it runs, all else with hands in. Power is none of them: it is the gate's. */
  readonly edits: readonly Edit[]
  /** The edits, putting a trial back, or fitting meter leads need hands in the case. */
  readonly handsIn: boolean
  /** Power is cut and given again, with hands out: the repair of whatever had hung. */
  readonly cycle: boolean
  readonly minutes: number
  /** Something to do with the machine running that is more than its edits, or none of them. */
  readonly task?: Task
  /** What is looked at afterwards; null: the symptom itself, for proof, or nothing where there was a task. */
  readonly ask: Ask | null
}

export interface EndStep {
  readonly kind: 'end'
  readonly outcome: Exclude<Outcome, 'left'>
}

export type FlowStep = WorkStep | EndStep

/** Settings are changed while the machine runs, with hands out. */
export const isOutside = (edit: Edit): boolean => edit.do === 'set'

/** Whatever touches plugs and parts needs hands in the case. Power is neither: it is the gate's. */
export const isInside = (edit: Edit): boolean => edit.do !== 'set' && edit.do !== 'power'
