/**
 * What the engine proposes, as a step that the flow can carry out: the next check or repair, putting back what a
 * trial changed, or an end. Also what is to be told with it: the verdict before a repair, answers that are at odds.
 */
import type { EndStep, FlowStep, WorkStep } from '../../../flows/shared/step.ts'
import { MAP_KINDS, type MapKind, mapAsk, mappedAll } from '../../core/checks/maps.ts'
import { undoing } from '../../core/checks/offer.ts'
import type { Note, Suspect, Verdict } from '../../core/checks/prompt.ts'
import type { CheckDef, RepairDef } from '../../core/checks/step.ts'
import { toGet } from '../../core/checks/to-get.ts'
import type { Assessment } from '../../core/infer/assess.ts'
import { doubtOf } from '../../core/infer/doubt.ts'
import { lastLook } from '../../core/infer/last-look.ts'
import { wantedAfter } from '../../core/infer/planned.ts'
import { flowsQuestion, opening, returning, stepsIn } from './excursion.ts'
import { evidenceNow, type Job } from './job.ts'
import { askStep, checkStep, repairStep } from './steps.ts'
import { laterTopic } from './symptoms.ts'
import { deviations, dossierOf, type Thought, think } from './think.ts'
import { onward } from './walk.ts'

export interface Proposal {
  readonly told: readonly (Note | Verdict)[]
  readonly step: FlowStep
  readonly suspects: readonly Suspect[]
  readonly left: number
}

/** A job that has taken so many steps is handed over: nobody stands at a bench that long. */
const MOST_STEPS = 60

/** A job is not closed as long as it is likelier than not that the symptom is still there. */
const MOST_DOUBT = 0.5

/** Looked over before a job is closed, whatever it was about. */
const GLANCES: readonly MapKind[] = ['spins', 'lit', 'shows', 'rpm']
/** Looked over, one after the other, where nothing was seen to be wrong so far. */
const SURVEY: readonly MapKind[] = [...GLANCES, 'listed', 'alarm', 'effect']
/** What is only there now and then is watched for as well, before it is said that nothing is wrong. */
const WATCHED: readonly MapKind[] = [...GLANCES, 'steady', 'flickers', 'listed', 'alarm', 'effect']

const ending = (outcome: EndStep['outcome']): EndStep => ({ kind: 'end', outcome })

/** On a walk nobody is suspected while all is as wanted. */
const NOBODY = { suspects: [], left: 0 } as const

/** The last question of a symptom that was taken up later has just been answered. */
export function scopedAnew(job: Job): boolean {
  const last = job.trail.findLast((t) => !t.undone)
  return (
    job.since > 0 &&
    last?.prompt.show === 'ask' &&
    last.prompt.stage === 'scope' &&
    laterTopic(job, deviations(job).length > 0) === undefined
  )
}

/** What is proposed without a thought: to put something back, to ask first, or what a walk shows next; undefined where it takes one. */
export function unthought(job: Job): Proposal | undefined {
  const first = (job.proven ? restore(job) : undefined) ?? laterTopic(job, deviations(job).length > 0)
  if (first) return { told: [], step: first, suspects: job.suspects, left: job.left }
  if (!job.ground.flow.walk || stillWrong(job).length > 0) return undefined
  const { told, step } = onward(job)
  return {
    told: [...returning(job), ...told, ...(step.kind === 'end' ? notAsPlanned(job) : [])],
    step,
    ...NOBODY,
  }
}

/** Where the engine thinks: on a large build this takes seconds. */
export function propose(job: Job): Proposal {
  const easy = unthought(job)
  if (easy) return easy
  const { walk } = job.ground.flow
  const opened = walk ? opening(job) : []
  const question = walk ? flowsQuestion(job) : undefined
  const survey = walk ? undefined : surveyStep(job)
  const thought = think(job)
  const left = thought.suspects.filter((s) => s.p > 0.02).length
  const rest = { suspects: thought.suspects, left }
  if (question) return { told: opened, step: question, ...rest }
  const spent = stepsIn(job) > MOST_STEPS
  const doubt = isMended(job) ? doubtOf(job.ground.known, dossierOf(job), thought.outlook) : undefined
  if (doubt && doubt.still <= MOST_DOUBT) {
    const look = spent ? undefined : doubt.look
    const closing = closingLook(job) ?? (look && stepFor(look, thought))
    return closing
      ? { told: [], step: closing, ...rest }
      : { told: notAsPlanned(job), step: ending(mended(job, thought) ? 'fixed' : 'nothing-wrong'), ...rest }
  }
  if (survey) return { told: [], step: survey, ...rest }
  const told = [...opened, ...conflictNotes(job, thought.assessment)]
  const verdict = (repair: RepairDef | null, suspects = thought.suspects): Verdict => ({
    show: 'verdict',
    suspects: suspects.slice(0, 5),
    repair: repair && { id: repair.id, edits: repair.edits },
  })
  if (nothingWrong(job, thought)) {
    // Repaired, and nothing is wrong now, though what was seen before it has been taken back.
    if (repaired(job)) return { told: [...told, ...notAsPlanned(job)], step: ending('fixed'), ...rest }
    return { told: [...told, verdict(null)], step: ending('nothing-wrong'), ...rest }
  }
  const { step } = thought.outlook
  if (step.kind === 'hand-over' || spent) {
    const suspects = worthNaming(job, thought)
    const declined = suspects[0]?.faults[0]?.mode === 'none-of-these'
    const look = declined || spent ? undefined : lastLook(thought.outlook)
    if (look) return { told, step: stepFor(look, thought), ...rest }
    const last = [...told, ...needed(job, suspects), verdict(null, suspects)]
    return { told: last, step: ending(declined ? 'declined' : 'handed-over'), suspects, left }
  }
  if (step.kind === 'repair')
    return { told: [...told, verdict(step.repair)], step: repairStep(job, step.repair), ...rest }
  return { told, step: stepFor(step.check, thought), ...rest }
}

const stepFor = (check: CheckDef, { outlook }: Thought): WorkStep =>
  checkStep(check, outlook.checks.find((c) => c.check.id === check.id)?.answers ?? [])

/**
 * Who is named to the next person. As long as the last look shows something wrong, that nothing is wrong would say no more
 * than that each such look was a slip: whatever else is suspected comes first.
 */
function worthNaming(job: Job, { suspects }: Thought): readonly Suspect[] {
  if (stillWrong(job).length === 0) return suspects
  const others = suspects.filter((s) => s.faults[0]?.mode !== 'nothing-wrong')
  return others.length > 0 ? others : suspects
}

/** A dead header with no place to move its plug to: what has to be got is said with the verdict. */
const needed = ({ ground: { build } }: Job, [first]: readonly Suspect[]): readonly Note[] =>
  (first?.faults ?? []).flatMap((fault): readonly Note[] => {
    const get = toGet(build, fault)
    if (!get) return []
    const facts = { what: 'to-get', at: fault.at, parts: [get.plug] }
    const { on = '', amps = 0, limit = 0 } = get.splitter ?? {}
    const splitter = get.splitter === null ? {} : { from: on, figure: amps, limit, unit: 'A' }
    return [{ show: 'note', kind: 'cross-check', facts: { ...facts, ...splitter } }]
  })

/** Plugs that a trial left exchanged go back before the job is closed, and all is looked at once more. */
function restore(job: Job): WorkStep | undefined {
  const id = `restore ${job.history.length}`
  if (job.closed.has(id) || undoing(job.ground.build, job.inForce).length === 0) return undefined
  return { kind: 'restore', id, edits: [], handsIn: true, cycle: false, minutes: 2, ask: null }
}

/** Who could not put plugs back is told at the end that they still sit elsewhere. */
function notAsPlanned(job: Job): readonly Note[] {
  const refs = undoing(job.ground.build, job.inForce).flatMap((e) =>
    e.do === 'swap' ? [e.a, e.b] : e.do === 'plug' ? [e.plug] : [],
  )
  return refs.length === 0
    ? []
    : [{ show: 'note', kind: 'restored', facts: { what: 'still-moved', refs: [...new Set(refs)] } }]
}

/** As long as nothing at all was seen to be wrong, the other maps are looked at one by one. */
function surveyStep(job: Job): WorkStep | undefined {
  if (deviations(job).length > 0 || evidenceNow(job).some((e) => e.kind === 'many' && e.chosen.length > 0))
    return undefined
  const seen = new Set(job.trail.filter((t) => !t.undone).map((t) => t.prompt.id))
  const comes = evidenceNow(job).some(
    (e) => e.kind === 'about' && e.about === 'comes-and-goes' && e.chosen === 'yes',
  )
  const kind = (comes ? WATCHED : SURVEY).find(
    (k) => !seen.has(`map ${k}`) && mappedAll(job.ground.build, [k]).length > 0,
  )
  if (!kind) return undefined
  return askStep(mapAsk(job.ground.build, [kind], 'scope'))
}

/** Gone without anything having been mended, and "nothing was wrong" explains it best: a job of its own kind. */
const mended = (job: Job, { suspects }: Thought): boolean =>
  job.history.some((e) => e.do !== 'power') || suspects[0]?.faults[0]?.mode !== 'nothing-wrong'

const repaired = (job: Job): boolean =>
  job.trail.some(({ prompt, undone }) => !undone && prompt.show === 'do' && prompt.purpose === 'repair')

/** The proof went well and nothing else was seen to be wrong: what is left is to put things back and to close. */
export const isMended = (job: Job): boolean => job.proven && stillWrong(job).length === 0

/** Kinds of map whose last look showed something wrong. */
function stillWrong(job: Job): readonly MapKind[] {
  const { build } = job.ground
  return MAP_KINDS.filter((kind) => {
    const last = evidenceNow(job).findLast(
      (e) => e.kind === 'many' && e.marks.some((m) => m.observe.what === kind),
    )
    if (last?.kind !== 'many') return false
    return last.marks.some(
      (m) =>
        m.observe.what === kind &&
        last.chosen.includes(m.id) &&
        m.value !== wantedAfter(build, m.observe, last.history),
    )
  })
}

/** Before a job is closed, what was never looked at is looked over once: a second fault may hide behind the first. */
function closingLook(job: Job): WorkStep | undefined {
  const seen = new Set(
    job.trail.flatMap(({ prompt, undone }) =>
      !undone && prompt.show === 'ask' && prompt.many ? prompt.marks.map((m) => m.observe.what) : [],
    ),
  )
  const kinds = GLANCES.filter((kind) => !seen.has(kind) && mappedAll(job.ground.build, [kind]).length > 0)
  return kinds.length === 0 ? undefined : askStep(mapAsk(job.ground.build, kinds, 'proof'))
}

/** All that was looked over is as wanted, and that is the best explanation too. */
function nothingWrong(job: Job, { suspects }: Thought): boolean {
  const best = suspects[0]
  return deviations(job).length === 0 && best?.faults[0]?.mode === 'nothing-wrong' && best.p > 0.5
}

function conflictNotes(job: Job, { atOdds, conflict }: Assessment): readonly Note[] {
  const fresh = atOdds.filter((seq) => !job.saidAtOdds.has(seq))
  if (fresh.length === 0) return []
  const refs = evidenceNow(job)
    .filter((e) => fresh.includes(e.seq))
    .flatMap((e) =>
      e.kind === 'one'
        ? e.observe.map((o) => o.at)
        : e.kind === 'many'
          ? [...new Set(e.chosen.map((id) => id.split(':')[0] ?? id))]
          : [],
    )
  return [
    {
      show: 'note',
      kind: 'conflict',
      facts: {
        what: conflict ? 'nothing-fits' : 'disagree',
        refs: [...new Set(refs)],
        seqs: fresh.map(String),
      },
    },
  ]
}
