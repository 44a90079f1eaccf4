/** The plan that a log carries, read again: from the copies in it, not from the files of today. */
import type { Plan } from '../../core/plan/plan.ts'
import type { Read } from '../../core/plan/problem.ts'
import { readPlan } from '../../core/plan/read.ts'
import type { LogEvent, PlanCopy } from './event.ts'

/** Reads the copy; what the plan includes is found under the names that the plan calls it by. */
export const planOf = (copy: PlanCopy): Read<Plan> =>
  readPlan(copy.text, copy.file, (name) => copy.includes.find((include) => include.file === name))

/** The plan that the job runs on now: the one it was opened with, or the last that it was taken up again with. */
export function lastPlanCopy(events: readonly LogEvent[]): PlanCopy | undefined {
  let copy: PlanCopy | undefined
  for (const event of events) {
    if (event.e === 'opened' || event.e === 'resumed') copy = event.plan ?? copy
  }
  return copy
}
