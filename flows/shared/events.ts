/** What can happen in a flow: what the technician did or said, and what the engine proposed. */
import type { EndStep, WorkStep } from './step.ts'

export type FlowEvent =
  /** A question was answered, "can't tell" included; `saw`: the answer shows something that is not as wanted. */
  | { readonly type: 'REPLIED'; readonly saw: boolean }
  /** A thing to do was done. */
  | { readonly type: 'DID' }
  /** A thing to do, or a look, can't be done here. */
  | { readonly type: 'CANNOT' }
  /** The answers were held against the plan. */
  | { readonly type: 'CHECKED' }
  | { readonly type: 'PROPOSED'; readonly step: WorkStep | EndStep }
  /** The look after a repair showed all as wanted. */
  | { readonly type: 'PROVEN' }
  | { readonly type: 'PERSISTS' }
  /** Takes the last answer back; `step` asks again, through the gate if power or plugs have changed since. */
  | { readonly type: 'UNDO'; readonly step: WorkStep | null }
  | { readonly type: 'HAND_OVER' }

/** A topic of the scoping that was gone through. */
export interface Passed {
  readonly topic: string
  readonly saw: boolean
}

/** What a flow remembers: which topics it came through, the step in hand and how far that has come. */
export interface FlowContext {
  readonly passed: readonly Passed[]
  readonly step: WorkStep | null
  /** What hands do inside has been done, or there is nothing of that kind. */
  readonly doneInside: boolean
  /** Settings have been changed and the task is done, or there is neither. */
  readonly doneOutside: boolean
  readonly cycled: boolean
}

/** No step in hand. */
export const IDLE = { step: null, doneInside: false, doneOutside: false, cycled: false } as const
