/** The line that says what a job is about from there on, where that is more than the one symptom that it was opened with. */
import * as z from 'zod/mini'
import type { EndStep } from '../../../flows/shared/step.ts'

export interface Symptoms {
  readonly e: 'symptoms'
  readonly now: readonly string[]
  /** Taken up afterwards, one after the other. */
  readonly later: readonly string[]
  /** How what the job was about before has ended. */
  readonly after?: EndStep['outcome']
}

const ids = z.array(z.string())

export const symptomsFields = {
  e: z.literal('symptoms'),
  now: ids.check(z.minLength(1)),
  later: ids,
  after: z.exactOptional(z.enum(['fixed', 'nothing-wrong', 'handed-over', 'declined'])),
} as const
