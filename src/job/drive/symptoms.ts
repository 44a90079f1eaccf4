/**
 * What a job is about: one symptom, several that may have one cause, or not yet known, with the guide asking. What cannot
 * have the same cause waits its turn; when the symptom in hand has come to its end, the next is taken up in the same job.
 */
import { flowOf, flowOfAll } from '../../../flows/all.ts'
import type { EndStep, WorkStep } from '../../../flows/shared/step.ts'
import type { Note } from '../../core/checks/prompt.ts'
import type { LogBody } from '../log/event.ts'
import type { Symptoms } from '../log/symptoms-line.ts'
import { guideAsk, guideOf, isGuides } from './guide.ts'
import { type Ground, type Job, startOf } from './job.ts'
import { split } from './one-cause.ts'
import { askStep } from './steps.ts'
import { topicAsk } from './topic.ts'

const note = (facts: Note['facts']): LogBody => ({
  e: 'told',
  record: { show: 'note', kind: 'symptom', facts },
})

/** A walk goes over everything in an order of its own and takes no other symptom with it. */
function sorted(job: Job, symptoms: readonly string[]): Pick<Symptoms, 'now' | 'later'> {
  const walks = symptoms.filter((s) => flowOf(s)?.walk)
  const [first = ''] = symptoms
  if (walks.includes(first)) return { now: [first], later: symptoms.slice(1) }
  const { now, later } = split(
    job.ground.build,
    symptoms.filter((s) => !walks.includes(s)),
  )
  return { now, later: [...later, ...walks] }
}

function taking(job: Job, symptoms: readonly string[], after?: EndStep['outcome']): readonly LogBody[] {
  const { now, later } = sorted(job, symptoms)
  const single = now.length === 1 && later.length === 0
  return [
    { e: 'symptoms', now, later, ...(after === undefined ? {} : { after }) },
    ...(after === undefined && single ? [note({ what: 'symptom-found', symptoms: now })] : []),
    ...(after === undefined ? [] : [note({ what: 'symptom-next', symptoms: now })]),
    ...(now.length > 1 ? [note({ what: 'symptoms-together', symptoms: now })] : []),
    ...(later.length > 0 ? [note({ what: 'symptoms-apart', symptoms: later, from: now })] : []),
  ]
}

/** What comes before the first question of a symptom; undefined once that is settled. */
export function beforeSymptom(job: Job): readonly LogBody[] | undefined {
  if (job.naming === null) return undefined
  if (job.naming === 'told') return taking(job, job.symptoms)
  const at = guideOf(job)
  return 'ask' in at ? [{ e: 'shown', prompt: guideAsk(at) }] : taking(job, at.symptoms)
}

/** Whether this is the first symptom of the job, before anything of it was asked. */
const untouched = (job: Job): boolean => job.naming !== null

/**
 * Takes a symptom up. The first begins with its own questions; a later one among the steps, with power as it is, so
 * that its questions are reached through the gate where that is needed.
 */
export function takenUp(job: Job, seq: number, { now, later, after }: Symptoms): Job {
  const flow = flowOfAll(now)
  if (!flow) throw new Error(`no flow for ${now.join(', ')}`)
  const ground: Ground = { ...job.ground, flow }
  const first = untouched(job)
  const begun = startOf(ground, first ? undefined : job.snapshot)
  const solved = after === undefined || after === 'fixed' || after === 'nothing-wrong'
  return {
    ...job,
    ...begun,
    naming: null,
    symptoms: now,
    queued: later,
    since: first ? job.since : seq,
    outcomes: after === undefined ? job.outcomes : [...job.outcomes, after],
    unsolved: solved ? job.unsolved : [...job.unsolved, ...job.suspects],
    suspects: first ? job.suspects : [],
    step: null,
    pending: null,
    proven: false,
  }
}

/** What follows when the symptom in hand has come to this end; undefined where none waits. */
export const nextSymptom = (job: Job, outcome: EndStep['outcome']): readonly LogBody[] | undefined =>
  job.queued.length === 0 ? undefined : taking(job, job.queued, outcome)

const GRAVEST: readonly EndStep['outcome'][] = ['handed-over', 'declined', 'fixed', 'nothing-wrong']

/** How a job of several symptoms ends: as that of them which is furthest from solved. */
export const outcomeOf = (job: Job, last: EndStep['outcome']): EndStep['outcome'] =>
  GRAVEST.find((o) => o === last || job.outcomes.includes(o)) ?? last

const sinceTakenUp = (job: Job) => job.trail.filter((t) => !t.undone && t.seq > job.since)

/** Something was asked of the symptom in hand. */
export const hasBegun = (job: Job): boolean => sinceTakenUp(job).some((t) => !isGuides(t))

/** The next question of a symptom that was taken up later, as a step; undefined once all were asked. */
export function laterTopic(job: Job, seen: boolean): WorkStep | undefined {
  if (job.since === 0) return undefined
  const asked = new Set(sinceTakenUp(job).map((t) => t.prompt.id))
  const topic = job.ground.flow.scoping.find(
    (t) => !asked.has(topicAsk(job, t).id) && (t.when === undefined || !seen),
  )
  return topic && askStep(topicAsk(job, topic))
}
