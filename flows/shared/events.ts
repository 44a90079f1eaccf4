/** What can happen in a flow: what the technician did or said, and what the engine proposed. */
import type { EndStep, WorkStep } from './step.ts'

export type FlowEvent =
  /** A question was answered, in whatever way; "can't tell" and "can't do this here" are answers too. */
  | { readonly type: 'REPLIED' }
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

/** What a flow remembers: only the step in hand and how far it has come. */
export interface FlowContext {
  readonly step: WorkStep | null
  readonly edited: boolean
  readonly cycled: boolean
}

export const FRESH: FlowContext = { step: null, edited: false, cycled: false }
