/**
 * What follows a reply, worked out before it is given: while a person still looks, the reasoning on what they may say
 * can be done. A job is driven from what it is alone, so the same lines follow the reply itself.
 */
import type { InParts } from '../../core/infer/parts.ts'
import type { LogBody } from '../log/event.ts'
import { apply } from './apply.ts'
import type { Job } from './job.ts'
import { likelyReplies, type Words } from './likely.ts'
import { isForThought, next } from './next.ts'
import { deviations, thinkAhead } from './think.ts'

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

/** The same in parts of a few milliseconds. */
export function* foreseeing(job: Job, lines: readonly LogBody[], seq: number): InParts<readonly LogBody[]> {
  const gone = goOn(job, lines, seq, isForThought)
  if (isForThought(gone.job)) yield* thinkAhead(gone.job)
  return [...gone.lines, ...following(gone.job, [], gone.seq)]
}

/** So many replies without a thought come after each other: power off, hands in, power on, a look. */
const MOST_REPLIES = 6

/**
 * The next thinking that there will be, where it is more than one reply away: what suspects show of a map, say, is the
 * same whatever is said since when it was so.
 */
export function* thoughtsAfter(job: Job, seq: number): InParts<void> {
  // As long as nothing is known to be wrong, what will be thought about is anyone's guess.
  if (deviations(job).length === 0) return
  let before: Pick<Gone, 'job' | 'seq'> = { job, seq }
  for (let away = 0; away < MOST_REPLIES; away++) {
    const { pending } = before.job
    if (!pending) return
    const after = likelyReplies(before.job).map((reply) =>
      goOn(before.job, [repliedTo(pending, reply)], before.seq, isForThought),
    )
    const forThought = after.filter((gone) => isForThought(gone.job))
    if (away > 0) for (const gone of forThought) yield* thinkAhead(gone.job)
    const [first] = after
    if (!first || forThought.length > 0) return
    before = first
  }
}
