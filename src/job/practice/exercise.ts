/**
 * An exercise: a job on a build with a fault planted, in which the trainee chooses the steps, the flow routes them through
 * the gate and the bench answers. The very same job with the engine choosing is what the trainee is measured by.
 */
import type { FlowStep } from '../../../flows/shared/step.ts'
import type { KnownFault } from '../../core/faults/catalogue.ts'
import { type Fault, faultText } from '../../core/faults/fault.ts'
import { apply } from '../drive/apply.ts'
import { begin, type Ground, type Job, stateText } from '../drive/job.ts'
import { next } from '../drive/next.ts'
import { isMended } from '../drive/propose.ts'
import type { LogBody } from '../log/event.ts'
import { benchReply } from './person.ts'

export interface Exercise {
  readonly job: Job
  readonly fault: KnownFault
  /** Lines that a log would hold by now; there is none, an exercise is no job. */
  readonly lines: number
  /** What was chosen, each with the job as it stood before. */
  readonly chosen: readonly { readonly before: Job; readonly id: string }[]
}

const NO_TIME = '1970-01-01T00:00:00.000Z'

function put(exercise: Exercise, bodies: readonly LogBody[]): Exercise {
  let { job, lines } = exercise
  for (const body of bodies) job = apply(job, { ...body, seq: ++lines, at: NO_TIME })
  return { ...exercise, job, lines }
}

const replied = (exercise: Exercise, reply: 'done' | 'unsure' | readonly string[]): Exercise =>
  put(exercise, [
    {
      e: 'replied',
      to: exercise.job.pending?.seq ?? 0,
      reply: typeof reply === 'string' ? reply : [...reply],
    },
  ])

/** Whether the trainee has to choose the next step now. */
export function isChoosing(job: Job): boolean {
  const state = stateText(job)
  return (state === 'crossChecking' || state === 'isolating.deciding') && !isMended(job) && job.end === null
}

/** Lets the bench answer, and goes on until somebody has something to do. */
function goOn(start: Exercise, waits: (job: Job) => boolean): Exercise {
  let exercise = start
  while (exercise.job.end === null && !waits(exercise.job)) {
    const { job, fault } = exercise
    const prompt = job.pending?.prompt
    if (prompt === undefined) exercise = put(exercise, next(job))
    else if (prompt.show === 'do') exercise = replied(exercise, 'done')
    else exercise = replied(exercise, benchReply(job.ground.build, [fault.plant], job.history, prompt))
  }
  return exercise
}

const forTrainee = (job: Job): boolean => job.pending?.prompt.show === 'do' || isChoosing(job)

/** Through the questions of the symptom, up to the first choice. */
export const beginExercise = (ground: Ground, fault: KnownFault): Exercise =>
  goOn({ job: begin(ground), fault, lines: 0, chosen: [] }, forTrainee)

/** Takes a step that the trainee has chosen; what is to be done for it waits to be done. */
export function chooseStep(exercise: Exercise, step: FlowStep, id: string): Exercise {
  const chosen = [...exercise.chosen, { before: exercise.job, id }]
  return goOn(put({ ...exercise, chosen }, [{ e: 'step', step }]), forTrainee)
}

/** What waited to be done is done. */
export const didStep = (exercise: Exercise): Exercise => goOn(replied(exercise, 'done'), forTrainee)

/** The same job with the engine choosing, to its end. */
export const engineRun = (ground: Ground, fault: KnownFault): Job =>
  goOn({ job: begin(ground), fault, lines: 0, chosen: [] }, () => false).job

/** Faults that the trainee may name as the cause: the true one among the likeliest that no answer has told apart from it. */
export function namesOffered(exercise: Exercise, likely: readonly Fault[]): readonly Fault[] {
  const { fault } = exercise.fault
  const all = new Map([fault, ...likely].map((f) => [faultText(f), f]))
  return [...all].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, f]) => f)
}
