/**
 * What a closed job teaches, from its log: one that ended with the symptom gone, after something was mended; and one that was
 * handed over with a cause that is all but certain, since what cannot be mended at a bench turns up there all the same.
 */
import { type Build, compile } from '../../core/bench/build.ts'
import type { End, Suspect } from '../../core/checks/prompt.ts'
import type { Fault } from '../../core/faults/fault.ts'
import { classOf, sharesOf } from '../../core/infer/learned.ts'
import type { LogEvent } from '../log/event.ts'
import { lastPlanCopy, planOf } from '../log/plan-copy.ts'
import type { Lesson } from './learn.ts'

/** A cause that was less sure than this when the job was closed teaches nothing. With no proof it counts as far as it was believed. */
const SURE: Partial<Record<End['outcome'], { readonly from: number; readonly proven: boolean }>> = {
  fixed: { from: 0.5, proven: true },
  'handed-over': { from: 0.8, proven: false },
}

/** Causes by class, each counted as far as it is believed; none where the end of the job is too unsure. */
export function causesOf(
  build: Build,
  { outcome, suspects: [first] }: Pick<End, 'outcome' | 'suspects'>,
): ReadonlyMap<string, number> {
  const causes = new Map<string, number>()
  const sure = SURE[outcome]
  if (!first || sure === undefined || first.p < sure.from) return causes
  const weight = sure.proven ? 1 : first.p
  for (const { faults, part } of partsOf(first))
    for (const fault of faults) {
      // Verdicts on the whole build, and plans that cannot work as written, are no faults that turn up.
      if (fault.at === 'build') continue
      const key = classOf(build, fault)
      causes.set(key, (causes.get(key) ?? 0) + part * weight)
    }
  return causes
}

/**
 * Which of those that were mended together it was, nobody knows: each counts by how far it was believed. Counting them
 * alike would make rare faults common that happen to be mended by the same hand as common ones.
 */
function partsOf(first: Suspect): readonly { readonly faults: readonly Fault[]; readonly part: number }[] {
  const known = first.alike.every((a) => a.p !== undefined)
  const others = first.alike.reduce((sum, a) => sum + (a.p ?? 0), 0)
  if (!known || first.p <= 0)
    return [first, ...first.alike].map(({ faults }) => ({ faults, part: 1 / (1 + first.alike.length) }))
  return [
    { faults: first.faults, part: Math.max(0, first.p - others) / first.p },
    ...first.alike.map(({ faults, p = 0 }) => ({ faults, part: p / first.p })),
  ]
}

/** Undefined where the log is of no such job, or its plan cannot be read any more. */
export function lessonOf(events: readonly LogEvent[]): Lesson | undefined {
  const ended = events.findLast((e) => e.e === 'ended')
  if (ended?.e !== 'ended') return undefined
  const copy = lastPlanCopy(events)
  const plan = copy && planOf(copy)
  if (!plan?.ok) return undefined
  const build = compile(plan.value)
  const causes = causesOf(build, ended.end)
  return causes.size === 0 ? undefined : { shares: sharesOf(build), causes }
}
