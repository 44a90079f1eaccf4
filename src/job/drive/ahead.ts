/**
 * What follows a reply, worked out before it is given: while a person still looks, the reasoning on what they may say
 * can be done. A job is driven from what it is alone, so the same lines follow the reply itself.
 */
import type { LogBody } from '../log/event.ts'
import { apply } from './apply.ts'
import type { Job } from './job.ts'
import { likelyReplies, type Words } from './likely.ts'
import { isForThought, next } from './next.ts'
import { deviations, thinkOn } from './think.ts'

export const repliedTo = ({ seq }: NonNullable<Job['pending']>, reply: Words) =>
  ({ e: 'replied', to: seq, reply }) as const

interface Gone {
  readonly job: Job
  readonly lines: readonly LogBody[]
  /** Number of the next line. */
  readonly seq: number
}

/** What follows these lines by itself, up to the next question, the end, or where `stops` says so. */
function goOn(job: Job, lines: readonly LogBody[], seq: number, stops: (then: Job) => boolean): Gone {
  let line = seq
  // When it will be said is not known, and nothing that follows depends on it.
  const as = (then: Job, body: LogBody): Job => apply(then, { ...body, seq: line++, at: '' })
  let then = lines.reduce(as, job)
  const follows: LogBody[] = []
  while (!stops(then)) {
    const bodies = next(then)
    if (bodies.length === 0) break
    follows.push(...bodies)
    then = bodies.reduce(as, then)
  }
  return { job: then, lines: follows, seq: line }
}

/**
 * All that follows these lines, up to the next question or the end.
 * @param seq number that the first of the lines will have; without any, the first that follows
 */
export const following = (job: Job, lines: readonly LogBody[], seq: number): readonly LogBody[] =>
  goOn(job, lines, seq, () => false).lines

/** Parts that are thought before a key is looked for again: one takes a few milliseconds. */
const AT_ONCE = 3

/**
 * Some of the thinking that these lines make necessary.
 * @returns whether there is more of it; if not, what follows takes no time
 */
export function thinkAhead(job: Job, lines: readonly LogBody[], seq: number): boolean {
  const { job: then } = goOn(job, lines, seq, isForThought)
  return isForThought(then) && thinkOn(then, AT_ONCE)
}

/** So many replies without a thought come after each other: power off, hands in, power on, a look. */
const MOST_REPLIES = 6

/** What a reply that takes no thought takes off a later one. */
const BEFOREHAND = 10

/**
 * Some of the next thinking that there will be, however many replies away: what suspects show of a map, say, is the
 * same whatever is said since when it was so. Replies that take no thought take a share of what later ones would.
 */
export function thinkBefore(job: Job, seq: number): void {
  // As long as nothing is known to be wrong, what will be thought about is anyone's guess.
  if (deviations(job).length === 0) return
  let gone: Gone = { job, lines: [], seq }
  for (let i = 0; i < MOST_REPLIES; i++) {
    const { pending } = gone.job
    const [reply] = likelyReplies(gone.job)
    if (!pending || !reply) return
    gone = goOn(gone.job, [repliedTo(pending, reply)], gone.seq, isForThought)
    if (!isForThought(gone.job)) continue
    thinkOn(gone.job, BEFOREHAND)
    return
  }
}
