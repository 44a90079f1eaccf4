/**
 * Taking an answer back: which answers go with it, and what would be believed without them. What hands have done since
 * stays done, so the question is asked again as things stand now.
 */
import type { Suspect } from '../../core/checks/prompt.ts'
import type { TrailEntry } from '../view.ts'
import { againStep } from './apply.ts'
import { type Job, stateText, takes } from './job.ts'
import { think } from './think.ts'

const standing = (job: Job): readonly TrailEntry[] =>
  job.trail.filter((t) => !t.undone && t.prompt.show === 'ask')

/**
 * Numbers of the answers that go, the last first: during the first questions all after it too, since they are asked in
 * order; later only the one itself. Empty where none can be taken back now.
 * @param seq without it, the last answer
 */
export function takenBack(job: Job, seq?: number): readonly number[] {
  const all = standing(job)
  const at = seq === undefined ? all.length - 1 : all.findIndex((t) => t.seq === seq)
  const entry = all[at]
  if (entry?.prompt.show !== 'ask') return []
  if (!takes(job, { type: 'UNDO', step: againStep(job, entry.seq, entry.prompt) })) return []
  if (!stateText(job).startsWith('scoping')) return [entry.seq]
  return all
    .slice(at)
    .map((t) => t.seq)
    .reverse()
}

/** What would be suspected without these answers; nothing while nothing is suspected yet. */
export function suspectsWithout(job: Job, seqs: readonly number[]): readonly Suspect[] {
  if (job.suspects.length === 0) return []
  const evidence = job.evidence.filter((e) => !seqs.includes(e.seq))
  return think({ ...job, evidence }).suspects
}
