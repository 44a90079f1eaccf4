/**
 * How an exercise went: the trainee's minutes beside those of the engine on the same fault, and the first step that was
 * clearly dearer than the best one at that moment, in expected minutes to a verified fix, as the engine counts them.
 */
import { SWITCH_MINUTES } from '../../core/checks/looks.ts'
import type { CheckDef, RepairDef, Step } from '../../core/checks/step.ts'
import { type Fault, faultText } from '../../core/faults/fault.ts'
import type { Job } from '../drive/job.ts'
import { type Thought, think } from '../drive/think.ts'
import type { Exercise } from './exercise.ts'
import { choosable } from './options.ts'

/** A step costs clearly more than the best one from so many expected minutes on (judgement: less is within the model's own blur). */
const CLEARLY_MINUTES = 3

export interface Astray {
  /** Which choice of the trainee it was, from 1. */
  readonly nth: number
  readonly chosen: Chosen
  readonly better: Chosen | null
  /** Expected minutes more than with the better step, at least. */
  readonly loss: number
  /** Nothing that could still be the cause would have been told apart, or mended, by it. */
  readonly idle: boolean
}

export type Chosen =
  | { readonly kind: 'check'; readonly check: CheckDef }
  | { readonly kind: 'repair'; readonly repair: RepairDef }

export interface Judgement {
  readonly minutes: number
  readonly engineMinutes: number
  readonly choices: number
  readonly astray: Astray | null
}

const idOf = (step: Step): string =>
  step.kind === 'check' ? step.check.id : step.kind === 'repair' ? step.repair.id : ''

const own = (chosen: Chosen): { minutes: number; inside: boolean } =>
  chosen.kind === 'check'
    ? {
        minutes: chosen.check.minutes,
        inside: chosen.check.fit || chosen.check.power === 'off' || chosen.check.edits.length > 0,
      }
    : { minutes: chosen.repair.minutes + 1, inside: chosen.repair.power === 'off' }

/** Expected minutes that a choice costs over the best one; where the engine left it out, what is lost at least. */
function lossOf(thought: Thought, chosen: Chosen, id: string): { loss: number; idle: boolean } {
  const { step, expectedMinutes, others, checks } = thought.outlook
  if (idOf(step) === id) return { loss: 0, idle: false }
  const ranked = others.find((o) => idOf(o.step) === id)
  if (ranked) return { loss: ranked.expectedMinutes - expectedMinutes, idle: false }
  const last = others.at(-1)?.expectedMinutes ?? expectedMinutes
  // It tells something or mends something, but less than all that the engine ranked.
  const tells = chosen.kind === 'check' && checks.some((c) => c.check.id === id)
  if (tells) return { loss: last - expectedMinutes, idle: false }
  const { minutes, inside } = own(chosen)
  return { loss: minutes + (inside ? 2 * SWITCH_MINUTES : 0), idle: true }
}

function astrayAt(before: Job, id: string, nth: number): Astray | undefined {
  const chosen = choosable(before).find((c) => c.id === id)
  if (!chosen) return undefined
  const thought = think(before)
  const { loss, idle } = lossOf(thought, chosen, id)
  if (loss < CLEARLY_MINUTES) return undefined
  const { step } = thought.outlook
  return { nth, chosen, better: step.kind === 'hand-over' ? null : step, loss, idle }
}

export function judge({ job, chosen }: Exercise, engine: Job): Judgement {
  let astray: Astray | null = null
  for (const [i, { before, id }] of chosen.entries()) {
    astray = astrayAt(before, id, i + 1) ?? null
    if (astray) break
  }
  return { minutes: job.minutes, engineMinutes: engine.minutes, choices: chosen.length, astray }
}

/** Whether the cause that was named is the planted one, or one that what was seen cannot tell from it. */
export function namedRight({ job, fault }: Exercise, named: Fault): boolean {
  const texts = (faults: readonly Fault[]): string => faults.map(faultText).join()
  if (faultText(named) === faultText(fault.fault)) return true
  const group = job.suspects.find((s) =>
    [s, ...s.alike].some(({ faults }) => texts(faults) === faultText(fault.fault)),
  )
  return (
    group !== undefined && [group, ...group.alike].some(({ faults }) => texts(faults) === faultText(named))
  )
}
