/**
 * What comes next in a job, as lines for its log: what is told, what is proposed, what is shown. Decided from the job
 * alone, so the same log goes on the same way on every machine.
 */

import type { Ask, Note, Prompt, Verdict } from '../../core/checks/prompt.ts'
import type { LogBody } from '../log/event.ts'
import { replyByReading } from '../readings.ts'
import { flowsCautions } from './cautions.ts'
import { crossCheck } from './cross-check.ts'
import { replyByGuide } from './guide.ts'
import { type Job, stateText } from './job.ts'
import { promptIn } from './prompt-in.ts'
import { propose, scopedAnew, unthought } from './propose.ts'
import { beforeSymptom, hasBegun, nextSymptom, outcomeOf } from './symptoms.ts'
import { topicAsk } from './topic.ts'
import { expectedNow } from './walk.ts'

/** Empty while a prompt waits for its reply, or when the job is over. */
export function next(job: Job): readonly LogBody[] {
  if (job.end) return []
  if (job.pending) return answeredBefore(job, job.pending)
  const before = beforeSymptom(job)
  if (before) return before
  const state = stateText(job)
  if (state.startsWith('ended')) return [ended(job, state)]
  if (state.startsWith('scoping')) return [...opening(job), shown(topicIn(job, state))]
  if (isDeciding(state)) {
    const notes = state === 'crossChecking' || scopedAnew(job) ? crossCheck(job) : []
    const { told, step, suspects, left } = propose(job)
    const ending = step.kind === 'end' ? step.outcome : undefined
    return [
      ...(job.ground.flow.walk || job.since > 0 ? opening(job) : []),
      ...untold(job, [...notes, ...told]),
      { e: 'suspects', suspects, minutes: job.minutes, left },
      ...((ending && nextSymptom(job, ending)) ?? [
        { e: 'step' as const, step: ending ? { kind: 'end', outcome: outcomeOf(job, ending) } : step },
      ]),
    ]
  }
  // What is to be seen stands with its question, also where something had to be done before.
  const expected =
    state === 'isolating.outside.asking' || state === 'isolating.handsIn.asking' ? expectedNow(job) : []
  return [...untold(job, expected), shown(promptIn(job, state))]
}

const isDeciding = (state: string): boolean => state === 'crossChecking' || state === 'isolating.deciding'

/** Whether what comes next has to be thought about. */
export const isForThought = (job: Job): boolean =>
  !job.end && !job.pending && !beforeSymptom(job) && isDeciding(stateText(job)) && !unthought(job)

/** A question that a reading or the guide has answered already is not put to a person. */
function answeredBefore(job: Job, { seq, prompt }: NonNullable<Job['pending']>): readonly LogBody[] {
  const read = prompt.show === 'ask' ? replyByReading(job, prompt) : undefined
  if (read) return [{ e: 'replied', to: seq, reply: read.ids, read: read.read }]
  const said = replyByGuide(job, prompt)
  return said ? [{ e: 'replied', to: seq, reply: said.ids, told: said.told }] : []
}

const shown = (prompt: Prompt): LogBody => ({ e: 'shown', prompt })

const OUTCOMES = {
  'ended.fixed': 'fixed',
  'ended.nothingWrong': 'nothing-wrong',
  'ended.declined': 'declined',
  'ended.handedOver': 'handed-over',
} as const

function ended(job: Job, state: string): LogBody {
  const outcome = OUTCOMES[state as keyof typeof OUTCOMES]
  const suspects = job.unsolved.length > 0 ? job.unsolved : job.suspects
  return { e: 'ended', end: { show: 'end', outcome, suspects, minutes: job.minutes } }
}

/** Cautions of the symptom, once, before the first question. */
const opening = (job: Job): readonly LogBody[] =>
  hasBegun(job) ? [] : untold(job, flowsCautions(job.ground.flow))

/** What is not in the log yet: a log that broke off in the middle goes on from there. */
function untold(job: Job, records: readonly (Note | Verdict)[]): readonly LogBody[] {
  const before = new Set(job.told.map((record) => JSON.stringify(record)))
  return records
    .filter((record) => !before.has(JSON.stringify(record)))
    .map((record) => ({ e: 'told', record }))
}

function topicIn(job: Job, state: string): Ask {
  const topic = job.ground.flow.scoping.find((t) => state === `scoping.${t.name}`)
  if (!topic) throw new Error(`no topic for ${state}`)
  return topicAsk(job, topic)
}
