/**
 * Taking an answer back: which answers go with it, and what would be believed without them. What hands have done since
 * stays done, so the question is asked again as things stand now.
 */
import type { Suspect } from '../../core/checks/prompt.ts'
import type { TrailEntry } from '../view.ts'
import { againStep } from './apply.ts'
import { isGuides } from './guide.ts'
import { type Job, stateText, takes } from './job.ts'
import { think } from './think.ts'

const standing = (job: Job): readonly TrailEntry[] =>
  job.trail.filter((t) => !t.undone && t.prompt.show === 'ask' && t.seq > job.since)

/**
 * Numbers of the answers that go, the last first: during the first questions all after it too, since they are asked in
 * order; later only the one itself. An answer of the guide takes all after it along, as long as nothing was done to the
 * build. Empty where none can be taken back now.
 * @param seq without it, the last answer that a person gave
 */
export function takenBack(job: Job, seq?: number): readonly number[] {
  const all = standing(job)
  const at =
    seq === undefined ? all.findLastIndex((t) => t.told === undefined) : all.findIndex((t) => t.seq === seq)
  const entry = all[at]
  if (entry?.prompt.show !== 'ask' || job.end) return []
  const after = all
    .slice(at)
    .map((t) => t.seq)
    .reverse()
  if (isGuides(entry)) return job.history.length === 0 ? after : []
  if (!takes(job, { type: 'UNDO', step: againStep(job, entry.seq, entry.prompt) })) return []
  if (!stateText(job).startsWith('scoping')) return [entry.seq]
  return after
}

/** What would be suspected without these answers; nothing while nothing is suspected yet. */
export function suspectsWithout(job: Job, seqs: readonly number[]): readonly Suspect[] {
  if (job.suspects.length === 0) return []
  const evidence = job.evidence.filter((e) => !seqs.includes(e.seq))
  return think({ ...job, evidence }).suspects
}
