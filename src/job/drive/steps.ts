/** Checks and repairs, as the engine knows them, made into steps that a flow can carry out. */
import type { WorkStep } from '../../../flows/shared/step.ts'
import type { Answer, Ask } from '../../core/checks/prompt.ts'
import type { CheckDef, RepairDef } from '../../core/checks/step.ts'
import type { Job } from './job.ts'

/** Looking at one thing after a trial; the rest of the check's minutes goes into the trial itself. */
const LOOK_MINUTES = 0.5

/** A check as a step that the flow can carry out. */
export function checkStep(check: CheckDef, answers: readonly Answer[]): WorkStep {
  const prepared = check.fit || check.edits.length > 0
  const ask: Ask = {
    show: 'ask',
    id: check.id,
    stage: 'check',
    power: check.power,
    hands: check.hands,
    minutes: prepared ? LOOK_MINUTES * check.observe.length : check.minutes,
    tools: check.tools,
    error: check.error,
    many: false,
    observe: check.observe,
    answers,
  }
  return {
    kind: 'check',
    id: check.id,
    edits: check.edits,
    handsIn: check.fit || check.edits.some((e) => e.do !== 'set'),
    cycle: false,
    minutes: check.minutes,
    ask,
  }
}

/** A question that needs nothing done before it, as a step. @param id where the same question may come again */
export const askStep = (ask: Ask, id = ask.id): WorkStep => ({
  kind: 'check',
  id,
  edits: [],
  handsIn: false,
  cycle: false,
  minutes: ask.minutes,
  ask,
})

/** A repair; what a trial changed is put back with it. */
export function repairStep(job: Job, repair: RepairDef): WorkStep {
  // Power is no edit like others: it is cut and given at the gate, before the rest is done.
  const edits = repair.edits.filter((e) => e.do !== 'power')
  const cycle = edits.length < repair.edits.length
  // What a trial changed goes back before anything is mended, so that the proof is of the build as planned.
  const handsIn = repair.hands === 'in' || (job.inForce.length > 0 && repair.edits.length > 0)
  return {
    kind: 'repair',
    id: repair.id,
    edits,
    handsIn,
    cycle: cycle && !handsIn,
    minutes: repair.minutes,
    ask: null,
  }
}
