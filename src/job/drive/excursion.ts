/**
 * Something unexpected on a first boot: the flow of its symptom opens with all that is known. What the walk has looked
 * at stands in place of the flow's own looks; what it asks of the past is asked, save that the build is new; its
 * cautions and its facts from the plan are told. After the proof the walk goes on where it was left.
 */
import { flowOf } from '../../../flows/all.ts'
import { opens } from '../../../flows/opens.ts'
import type { WorkStep } from '../../../flows/shared/step.ts'
import { readPointId } from '../../core/checks/boot/point.ts'
import type { Note } from '../../core/checks/prompt.ts'
import type { Evidence } from '../../core/infer/evidence.ts'
import { aboutAsk } from './about-ask.ts'
import { flowsCautions, gateCautions } from './cautions.ts'
import { crossCheck } from './cross-check.ts'
import { type Job, powerOf } from './job.ts'
import { askStep } from './steps.ts'
import { wrongIn } from './walk.ts'

/** Known without asking: the build has never run. */
const NEW_BUILD: Evidence = {
  seq: 0,
  id: 'since',
  history: [],
  error: 0,
  kind: 'about',
  about: 'since',
  chosen: 'new',
}

/**
 * What bears on the fault in hand. What was seen to be wrong before the last mending is of faults that are gone; what
 * was seen to be right still is, and the look that proved the mending counts too.
 */
export function bearing(job: Job): readonly Evidence[] {
  const clean = (e: Evidence): boolean => e.kind === 'many' && wrongIn(job, e).length === 0
  const mended = job.trail.findLast(({ seq, prompt, undone }) => {
    if (undone || prompt.show !== 'ask') return false
    const e = job.evidence.find((other) => other.seq === seq)
    return e !== undefined && clean(e) && (prompt.stage === 'proof' || prompt.again === 'changed')
  })
  const since = mended?.seq ?? 0
  return [NEW_BUILD, ...job.evidence.filter((e) => e.seq >= since || clean(e))]
}

/** The flow that what is wrong now calls for; undefined where nothing is known to be wrong. */
function called(job: Job): string | undefined {
  const looks = bearing(job).flatMap((e) => (e.kind === 'many' ? [e] : []))
  const last = looks.findLast((e) => wrongIn(job, e).length > 0)
  if (!last) return undefined
  const stage = readPointId(last.id)?.stage
  const looked = new Set(last.marks.map((m) => `${m.observe.what} ${m.observe.at}`)).size
  return opens(wrongIn(job, last), stage === 'soak' || stage === 'cold-start', looked)
}

/** Told when the flow of a symptom opens; nothing where it is open already. */
export function opening(job: Job): readonly Note[] {
  const symptom = job.opened === null ? called(job) : undefined
  const flow = symptom === undefined ? undefined : flowOf(symptom)
  if (!flow) return []
  const known = bearing(job)
  const looks = known.filter((e) => e.kind !== 'about').length
  const { plan } = job.ground.build
  const told = new Set([...gateCautions('off', false, plan), ...gateCautions('on', false, plan)])
  return [
    { show: 'note', kind: 'opens', facts: { symptom: flow.id, looks } },
    ...flowsCautions(flow).filter((note) => !told.has(String(note.facts.caution))),
    ...crossCheck({ ...job, evidence: known }, flow.crossChecks),
  ]
}

/** A question about the past that the flow asks and the walk has not answered; each once an excursion. */
export function flowsQuestion(job: Job): WorkStep | undefined {
  const symptom = job.opened?.symptom ?? called(job)
  const flow = symptom === undefined ? undefined : flowOf(symptom)
  const asksIt = flow?.scoping.some((t) => 'about' in t && t.about === 'comes-and-goes')
  // With the mains off there is nothing that comes and goes.
  if (!asksIt || powerOf(job) === 'off') return undefined
  const since = job.opened?.seq ?? Number.POSITIVE_INFINITY
  if (job.trail.some((t) => !t.undone && t.seq > since && t.prompt.id === 'comes-and-goes')) return undefined
  const ask = aboutAsk('comes-and-goes', 'check', symptom === undefined ? [] : [symptom])
  return askStep(ask, `${symptom} ${ask.id} ${job.trail.at(-1)?.seq ?? 0}`)
}

/** The way back to the walk, told once the flow that was opened has done its work. */
export const returning = (job: Job): readonly Note[] =>
  job.opened === null ? [] : [{ show: 'note', kind: 'returns', facts: { symptom: job.opened.symptom } }]

/** Steps since the flow was opened: the walk itself is long by right. */
export const stepsIn = (job: Job): number => {
  const since = job.ground.flow.walk ? (job.opened?.seq ?? Number.POSITIVE_INFINITY) : job.since
  return job.trail.filter((t) => !t.undone && t.seq > since).length
}
