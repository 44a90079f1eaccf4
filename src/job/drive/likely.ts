/** What a person will probably say to the question that stands, so that it can be thought about before they do. */
import { observableKey } from '../../core/bench/observable.ts'
import type { Mark } from '../../core/checks/prompt.ts'
import { thingsIn } from '../../core/infer/evidence.ts'
import type { LogBody } from '../log/event.ts'
import { evidenceNow, type Job } from './job.ts'

/** A reply as the log has it. */
export type Words = Extract<LogBody, { e: 'replied' }>['reply']

/**
 * Replies that are worth it: each answer where there is one to choose, likeliest first; of several marks, that there is
 * none, or after a repair that all is as it was.
 */
export function likelyReplies(job: Job): readonly Words[] {
  const { prompt } = job.pending ?? {}
  if (prompt?.show === 'do') return ['done']
  if (prompt?.show !== 'ask') return []
  if (prompt.many) {
    const same = prompt.stage === 'proof' ? markedBefore(job, prompt.marks) : []
    return [[], ...(same.length > 0 ? [same] : []), 'unsure']
  }
  const ids = 'about' in prompt ? prompt.choices : prompt.answers.map((a) => a.id)
  // Few faults come and go.
  const ordered = prompt.id === 'comes-and-goes' ? ids.toReversed() : ids
  return [...ordered.map((id) => [id]), 'unsure']
}

/** The marks that were set when these things were last looked over. */
function markedBefore(job: Job, marks: readonly Mark[]): readonly string[] {
  const last = new Map<string, readonly string[]>()
  for (const e of evidenceNow(job))
    if (e.kind === 'many')
      for (const { observe, chosen } of thingsIn(e))
        last.set(observableKey(observe), chosen ? [chosen.id] : [])
  const before = new Set([...last.values()].flat())
  return marks.flatMap((m) => (before.has(m.id) ? [m.id] : []))
}
