/**
 * What comes next in a job, as lines for its log: what is told, what is proposed, what is shown. Decided from the job
 * alone, so the same log goes on the same way on every machine.
 */

import { isInside, isOutside, type WorkStep } from '../../../flows/shared/step.ts'
import type { What } from '../../core/bench/observable.ts'
import { SWITCH_MINUTES } from '../../core/checks/looks.ts'
import { type MapKind, mapAsk } from '../../core/checks/maps.ts'
import { undoing } from '../../core/checks/offer.ts'
import type { Ask, Do, Note, Prompt, Purpose, Task, Verdict } from '../../core/checks/prompt.ts'
import { hasHostWork } from '../../core/faults/governed.ts'
import { scopeAfter } from '../../core/infer/foresee.ts'
import { hostAfter } from '../../core/infer/planned.ts'
import type { LogBody } from '../log/event.ts'
import { replyByReading } from '../readings.ts'
import { flowsCautions, gateCautions } from './cautions.ts'
import { crossCheck } from './cross-check.ts'
import { replyByGuide } from './guide.ts'
import { type Job, powerOf, stateText } from './job.ts'
import { propose, scopedAnew } from './propose.ts'
import { beforeSymptom, hasBegun, nextSymptom, outcomeOf } from './symptoms.ts'
import { scopeKinds, scopeOf } from './think.ts'
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
  if (state === 'crossChecking' || state === 'isolating.deciding') {
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

function promptIn(job: Job, state: string): Prompt {
  const { step } = job
  if (!step) throw new Error(`no step in ${state}`)
  switch (state) {
    case 'isolating.gate.closing':
      return gate(job, 'off')
    case 'isolating.gate.opening':
      return gate(job, 'on')
    case 'isolating.handsIn.doing':
      return doingInside(job, step)
    case 'isolating.outside.doing':
      return doingOutside(step)
    case 'isolating.proving.asking':
      return proof(job)
    default:
      if (!step.ask) throw new Error(`nothing to ask in ${state}`)
      // Power and hands as the flow has them: the engine only says what it would like.
      return { ...step.ask, power: powerOf(job), hands: state.startsWith('isolating.handsIn') ? 'in' : 'out' }
  }
}

const gate = (job: Job, to: 'on' | 'off'): Do => ({
  show: 'do',
  id: `power ${to}`,
  purpose: 'gate',
  edits: [{ do: 'power', to }],
  power: to,
  hands: 'out',
  minutes: SWITCH_MINUTES,
  cautions: gateCautions(to, job.cautioned),
  ...gateTask(job, to),
})

/** On a first boot the machine was never on before, and the first seconds after power on are to be watched. */
function gateTask(job: Job, to: 'on' | 'off'): { readonly task?: Task } {
  if (!job.ground.flow.walk) return {}
  if (to === 'off') return job.history.length === 0 ? { task: 'never-on' } : {}
  const watched = job.step?.task === 'firmware' || job.step?.task === 'cold-start'
  if (watched) return { task: 'first-on' }
  // After a repair in between, the setup is where the walk stands.
  return hasHostWork(job.ground.build) && hostAfter(job.ground.build, job.history) === 'absent'
    ? { task: 'on-again' }
    : {}
}

const PURPOSE: Readonly<Record<WorkStep['kind'], Purpose>> = {
  check: 'check',
  repair: 'repair',
  restore: 'restore',
  again: 'check',
}

/** Putting back what a trial changed. */
const PUT_BACK_MINUTES = 2
const SET_MINUTES = 2
const LEAST_MINUTES = 0.5

/** What hands do, behind the gate; what a trial changed is put back first, in the same go. */
function doingInside(job: Job, step: WorkStep): Do {
  const edits = step.edits.filter(isInside)
  const doing = Math.max(LEAST_MINUTES, step.minutes - (step.ask?.minutes ?? 0))
  return {
    show: 'do',
    id: `do ${step.id}`,
    purpose: edits.length > 0 || step.kind !== 'repair' ? PURPOSE[step.kind] : 'restore',
    edits: [...undoing(job.ground.build, job.inForce), ...edits],
    power: 'off',
    hands: 'in',
    minutes: edits.length > 0 || step.ask ? doing : PUT_BACK_MINUTES,
    cautions: handsInCautions(step.ask),
  }
}

/** Settings and tasks, for which the machine must run. */
const doingOutside = (step: WorkStep): Do => ({
  show: 'do',
  id: `set ${step.id}`,
  purpose: PURPOSE[step.kind],
  edits: step.edits.filter(isOutside),
  power: 'on',
  hands: 'out',
  minutes: step.edits.some(isInside)
    ? SET_MINUTES
    : step.task
      ? Math.round((step.minutes - (step.ask?.minutes ?? 0)) * 100) / 100
      : step.minutes,
  cautions: [],
  ...(step.task === undefined ? {} : { task: step.task }),
})

const handsInCautions = (ask: Ask | null): readonly string[] =>
  ask?.tools.includes('meter')
    ? ['meter-live', 'no-probe-across-pins']
    : looksAt(ask, 'when-moved')
      ? ['cord-on-the-lead', 'blades']
      : ['pull-by-the-plug']

const looksAt = (ask: Ask | null, what: What): boolean =>
  ask !== null && 'observe' in ask && ask.observe.some((o) => o.what === what)

function proof(job: Job): Ask {
  const kinds: readonly MapKind[] = scopeKinds(job)
  const things = scopeAfter(job.ground.build, scopeOf(job), job.history)
  return mapAsk(job.ground.build, kinds, 'proof', things)
}
