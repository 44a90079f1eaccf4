/**
 * A log's events played back, each held against the job as the ones before leave it. Sums show that a line is as it was
 * written; this shows that it can have been written there. What does not fit (another version's flow, a log put
 * together by hand) is named by its line instead of being taken in silence.
 */
import { apply } from './drive/apply.ts'
import { type Job, NotTaken } from './drive/job.ts'
import { refuse } from './drive/refuse.ts'
import type { LogEvent } from './log/event.ts'

export type Misfit =
  /** The flow of this version does not take it where it stands. */
  | 'flow'
  /** It answers another question than the one that stood, or with a word that was not among its answers. */
  | 'reply'
  /** It takes back an answer that was not given. */
  | 'undo'

export type PlayedBack =
  | { readonly ok: true; readonly job: Job }
  | { readonly ok: false; readonly line: number; readonly why: Misfit; readonly last: Job }

/** Applies the events in order, up to the first that does not fit. */
export function playBack(start: Job, events: readonly LogEvent[]): PlayedBack {
  let job = start
  for (const event of events) {
    const why = misfit(job, event)
    if (why !== undefined) return { ok: false, line: event.seq, why, last: job }
    try {
      job = apply(job, event)
    } catch (error) {
      if (!(error instanceof NotTaken)) throw error
      return { ok: false, line: event.seq, why: 'flow', last: job }
    }
  }
  return { ok: true, job }
}

function misfit(job: Job, event: LogEvent): Misfit | undefined {
  if (event.e === 'undone') return job.trail.some((t) => t.seq === event.of && !t.undone) ? undefined : 'undo'
  if (event.e !== 'replied') return undefined
  if (job.pending?.seq !== event.to) return 'reply'
  const { reply } = event
  const said = typeof reply === 'string' ? { say: reply } : { say: 'answer' as const, ids: reply }
  return refuse(job.pending.prompt, said) ? 'reply' : undefined
}
