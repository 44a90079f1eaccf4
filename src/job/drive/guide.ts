/**
 * The guide for who can't name the symptom, as a part of the job: its questions, what its answers say already of what
 * would be asked later, and the way back to it. Where it stands follows from the path so far, so undo is one more line.
 */
import { survey } from '../../../flows/survey.ts'
import {
  type GuideEvent,
  type GuideState,
  guided,
  QUESTIONS,
  type Tells,
  WHICH_SYMPTOM,
} from '../../../flows/which-symptom.ts'
import type { Ask, Prompt } from '../../core/checks/prompt.ts'
import type { TrailEntry } from '../view.ts'
import { type Job, startOf } from './job.ts'

export const isGuides = ({ prompt }: Pick<TrailEntry, 'prompt'>): boolean =>
  prompt.show === 'ask' && 'about' in prompt && prompt.about === 'symptom'

const standing = (job: Job): readonly TrailEntry[] => job.trail.filter((t) => !t.undone && isGuides(t))

export const guideOf = (job: Job): GuideState =>
  guided(
    standing(job).map(
      ({ reply }): GuideEvent =>
        typeof reply === 'string' ? { type: 'UNSURE' } : { type: 'CHOSE', answer: reply[0] ?? '' },
    ),
  )

/** Read at a glance and answered at once. */
const MINUTES = 0.2

export const guideAsk = ({ ask, answers, found }: Extract<GuideState, { ask: string }>): Ask => ({
  show: 'ask',
  id: [WHICH_SYMPTOM, ask, ...found].join(' '),
  stage: 'scope',
  power: 'on',
  hands: 'out',
  minutes: MINUTES,
  tools: [],
  error: 0,
  many: false,
  about: 'symptom',
  at: ask,
  ...(found.length === 0 ? {} : { of: found }),
  choices: answers.map((a) => a.id),
})

interface Told {
  readonly seq: number
  readonly tells: Tells
}

function toldIn(job: Job): readonly Told[] {
  return standing(job).flatMap(({ seq, prompt, reply }) => {
    if (prompt.show !== 'ask' || !('about' in prompt) || typeof reply === 'string') return []
    const answer = QUESTIONS[prompt.at ?? '']?.find((a) => a.id === reply[0])
    return (answer?.tells ?? []).map((tells) => ({ seq, tells }))
  })
}

/** Marks that say what was told; undefined where they would say more than that, or less. */
function marksFor(ask: Extract<Ask, { many: true }>, told: Tells): readonly string[] | undefined {
  if (!('what' in told)) return undefined
  if (ask.marks.some((m) => m.observe.what !== told.what)) return undefined
  const things = new Set(ask.marks.map((m) => m.observe.at))
  // On some of several it is still to be said on which; of several values, which.
  if (told.on === 'some' && things.size !== 1) return undefined
  const fits = ask.marks.filter((m) => told.values.includes(m.value))
  return fits.length === things.size && new Set(fits.map((m) => m.observe.at)).size === things.size
    ? fits.map((m) => m.id)
    : undefined
}

/** The reply that the guide's answers give to a question of the scoping; undefined where they do not settle it. */
export function replyByGuide(job: Job, prompt: Prompt): { ids: readonly string[]; told: number } | undefined {
  if (prompt.show !== 'ask' || prompt.stage !== 'scope' || prompt.again !== undefined) return undefined
  // Who takes such a reply back wants to say it afresh.
  const doubted = job.trail.some((t) => t.undone && t.told !== undefined && t.prompt.id === prompt.id)
  if (doubted || job.since > 0) return undefined
  for (const { seq, tells } of toldIn(job)) {
    if (prompt.many) {
      const ids = marksFor(prompt, tells)
      if (ids) return { ids, told: seq }
    } else if ('about' in prompt && 'about' in tells && prompt.about === tells.about)
      return { ids: [tells.choice], told: seq }
  }
  return undefined
}

/** An answer of the guide is taken back: it asks again, and what came of the answer goes. */
export const guideAgain = (job: Job, of: number): Job => ({
  ...job,
  ...startOf({ ...job.ground, flow: survey }),
  naming: 'guide',
  symptoms: [],
  queued: [],
  suspects: [],
  left: 0,
  step: null,
  pending: null,
  told: [],
  proven: false,
  trail: job.trail.map((t) => (t.seq === of ? { ...t, undone: true } : t)),
})
