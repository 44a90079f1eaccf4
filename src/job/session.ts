/**
 * One open job: takes replies, keeps the log, shows the view. What was said is on the disk before what follows from
 * it is shown; when the disk refuses, the question stands and nothing is lost.
 */
import { WHICH_SYMPTOM } from '../../flows/which-symptom.ts'
import type { End } from '../core/checks/prompt.ts'
import type { InParts } from '../core/infer/parts.ts'
import type { Plan } from '../core/plan/plan.ts'
import { following, foreseeing, repliedTo, thoughtsAfter } from './drive/ahead.ts'
import { apply } from './drive/apply.ts'
import { type Job, powerOf, stateText } from './drive/job.ts'
import { likelyReplies } from './drive/likely.ts'
import { pathOf } from './drive/path.ts'
import { refuse } from './drive/refuse.ts'
import { suspectsWithout, takenBack } from './drive/take-back.ts'
import { progressOf } from './drive/walk.ts'
import { whyOf } from './drive/why.ts'
import type { LogBody } from './log/event.ts'
import type { LogWriter } from './log/log.ts'
import type { Trouble } from './log/trouble.ts'
import { takeReading } from './readings.ts'
import type { Refusal, Reply, Session, View, Why, Without } from './view.ts'

/** What the disk would not take; the front end says it, and the job can be gone on with from its log. */
class LogFailure extends Error {
  readonly trouble: Trouble
  constructor(trouble: Trouble) {
    super(`the log can't be written: ${trouble.code}`)
    this.trouble = trouble
  }
}

/** Milliseconds of looking ahead before a key is listened for again. */
const IN_ONE_GO = 4
/** Who answers sooner than this many milliseconds after the answer before leaves no time to look ahead. */
const UNREAD = 100
/** Milliseconds that such a reply spends on what will be thought about next, where it needs no thought itself. */
const FOR_LATER = 18

/**
 * Takes a job on, up to its first prompt. @param writer has the log open already
 * @param now milliseconds from any beginning; how far is looked ahead depends on it, never what comes of it
 */
export async function openSession(
  start: Job,
  writer: LogWriter,
  plan: Plan,
  now: () => number = () => performance.now(),
): Promise<Session> {
  let job = start
  let left = false
  /** What follows some replies to the question that stands; of no use once anything else is in the log. */
  const foreseen = new Map<string, readonly LogBody[]>()
  let lookingAhead: InParts<void> | undefined
  /** Since when there is something to answer, by the clock. */
  let stands = Number.NEGATIVE_INFINITY

  async function write(bodies: readonly LogBody[]): Promise<void> {
    if (bodies.length === 0) return
    const done = await writer.append(bodies)
    // Only now: while the disk was busy somebody may have looked ahead once more, from where the job was until now.
    foreseen.clear()
    lookingAhead = undefined
    if (!done.ok) throw new LogFailure(done.trouble)
    for (const event of done.events) job = apply(job, event)
  }

  function beginNextThought(): void {
    try {
      aheadFor(FOR_LATER)
    } catch {
      // What was said has been taken. What fails here fails again once it is thought about, and is told then.
    }
  }

  /** Goes on until something waits for a reply or the job is over. */
  const settle = (): Promise<void> => write(following(job, [], writer.nextSeq()))

  const view = (): View => ({
    plan,
    symptom: job.symptoms[0] ?? WHICH_SYMPTOM,
    symptoms: job.symptoms,
    queued: job.queued,
    log: writer.path,
    state: stateText(job),
    power: powerOf(job),
    hands: job.pending?.prompt.hands ?? 'out',
    inForce: job.inForce,
    done: job.history,
    told: job.told,
    prompt: left ? null : (job.pending?.prompt ?? null),
    end: job.end ?? (left ? leftEnd(job) : null),
    trail: job.trail,
    suspects: job.suspects,
    left: job.left,
    findings: job.ground.known.findings,
    path: pathOf(job),
    minutes: job.minutes,
    canUndo: takenBack(job).length > 0,
    walk: progressOf(job),
    opened: job.opened?.symptom ?? null,
    who: job.who,
    folded: job.folded,
  })

  async function reply(said: Reply): ReturnType<Session['reply']> {
    if (left || job.end) return { ok: false, refusal: { problem: 'ended', expected: [] } }
    // What a full disk held up last time comes first.
    await settle()
    const { suspects } = job
    const unread = now() - stands < UNREAD
    if (said.say === 'undo') {
      const taken = takenBack(job, said.seq)
      if (taken.length === 0) return { ok: false, refusal: { problem: 'nothing-to-undo', expected: [] } }
      await write(taken.map((of) => ({ e: 'undone', of })))
    } else if (said.say === 'leave') {
      await write([{ e: 'left', how: 'asked' }])
      left = true
      return { ok: true }
    } else if (said.say === 'hand-over') {
      await write([{ e: 'handing-over' }])
    } else if (said.say === 'read') {
      const taking = takeReading(job, said)
      if (!taking.ok)
        return { ok: false, refusal: { problem: 'reading', expected: [], reading: taking.reading } }
      await write([taking.body])
    } else if (said.say === 'fold') {
      if (said.folded !== job.folded) await write([{ e: 'folded', folded: said.folded }])
      return { ok: true }
    } else if (said.say === 'note') {
      await write([{ e: 'noted', text: said.text, ...(job.pending ? { to: job.pending.seq } : {}) }])
      return { ok: true }
    } else {
      const refusal: Refusal | undefined = refuse(job.pending?.prompt ?? null, said)
      if (refusal || !job.pending)
        return { ok: false, refusal: refusal ?? { problem: 'no-prompt', expected: [] } }
      const words = said.say === 'answer' ? said.ids : said.say
      const by = signature(job, said)
      const known = by === undefined ? foreseen.get(JSON.stringify(words)) : undefined
      // What was said comes on the disk before anything is made of it; where that is known, both at once.
      await write([{ ...repliedTo(job.pending, words), ...(by ? { by } : {}) }, ...(known ?? [])])
    }
    await settle()
    if (unread && job.suspects === suspects) beginNextThought()
    stands = now()
    return { ok: true }
  }

  function* foreseeingReplies(): InParts<void> {
    const { pending } = job
    if (!pending || left || job.end) return
    for (const reply of likelyReplies(job)) {
      const lines = [repliedTo(pending, reply)]
      foreseen.set(JSON.stringify(reply), yield* foreseeing(job, lines, writer.nextSeq()))
      yield
    }
    yield* thoughtsAfter(job, writer.nextSeq())
  }

  function aheadFor(ms: number): boolean {
    const began = now()
    lookingAhead ??= foreseeingReplies()
    do if (lookingAhead.next().done) return false
    while (now() - began < ms)
    return true
  }

  await settle()
  stands = now()
  const without = (seq: number): Without | null => {
    const takes = takenBack(job, seq)
    return takes.length === 0 ? null : { takes, suspects: suspectsWithout(job, takes) }
  }
  return {
    view,
    why: (): Why => whyOf(job),
    without,
    reply,
    ahead: () => aheadFor(IN_ONE_GO),
    close: () => writer.close(),
  }
}

/** Whoever signs by name, else whoever is at the bench. */
function signature(job: Job, said: Reply): string | undefined {
  const { prompt } = job.pending ?? {}
  if (said.say !== 'done' || prompt?.show !== 'do' || prompt.task !== 'sign-off') return undefined
  return said.by?.trim() || (job.who ?? undefined)
}

const leftEnd = (job: Job): End => ({
  show: 'end',
  outcome: 'left',
  suspects: job.suspects,
  minutes: job.minutes,
})
