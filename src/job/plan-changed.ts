/** What a job that is taken up again is told of its plan: nothing, that it goes on with a changed one, or that it can't. */
import { type Change, planChanges } from '../core/plan/changes.ts'
import type { Plan } from '../core/plan/plan.ts'
import type { Job } from './drive/job.ts'
import { canMoveOnto, ontoPlan } from './drive/onto-plan.ts'
import { planDigest } from './log/digest.ts'
import type { PlanCopy, Told } from './log/event.ts'

export interface PlanGiven {
  readonly plan: Plan
  readonly copy: PlanCopy
}

export interface ChangedPlan {
  /** The plan to go on with; undefined where the one of the log stays. */
  readonly plan?: PlanCopy
  readonly note: Told
}

/** So many changes are told one by one. */
const MOST_TOLD = 12

/** @param plan that the job stands on @param now the file as it is, if it can be read @param copy of `plan` */
export function changedPlan(
  job: Job,
  plan: Plan,
  now: PlanGiven | undefined,
  copy: PlanCopy,
): ChangedPlan | undefined {
  // A file of the same name may be of another build.
  if (now === undefined || now.plan.build !== plan.build) return undefined
  if (planDigest(now.copy) === planDigest(copy)) return undefined
  const changes = planChanges(plan, now.plan)
  if (changes.length === 0) return undefined
  if (!canMoveOnto(job, now.plan)) return { note: note('plan-kept', changes, []) }
  return { plan: now.copy, note: note('plan-changed', changes, ontoPlan(job, now.plan).gone) }
}

const note = (what: string, changes: readonly Change[], gone: readonly number[]): Told => ({
  e: 'told',
  record: {
    show: 'note',
    kind: 'assumed',
    facts: {
      what,
      changes: changes
        .slice(0, MOST_TOLD)
        .map(({ of, at, before, now }) => [of, at, before ?? '', now ?? ''].join('\t')),
      more: Math.max(0, changes.length - MOST_TOLD),
      seqs: gone.map(String),
    },
  },
})
