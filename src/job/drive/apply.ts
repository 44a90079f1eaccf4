/** What one line of the log does to a job. */
import type { Edit } from '../../core/bench/edit.ts'
import type { Ask, Do, Mark, Prompt } from '../../core/checks/prompt.ts'
import { HANDS_IN } from '../../core/checks/step.ts'
import type { Evidence } from '../../core/infer/evidence.ts'
import { wantedAfter } from '../../core/infer/planned.ts'
import type { LogEvent, PlanCopy } from '../log/event.ts'
import { planOf } from '../log/plan-copy.ts'
import { distrusted, READ_ERROR, withoutRepeated, withReading } from '../readings.ts'
import { guideAgain, isGuides } from './guide.ts'
import { type Job, NotTaken, send, stateText, takes } from './job.ts'
import { ontoPlan } from './onto-plan.ts'
import { takenUp } from './symptoms.ts'
import { readyAgain } from './walk.ts'

type Said = Extract<LogEvent, { e: 'replied' }>
type Reply = Said['reply']

/** The job after one event; the same event on the same job always gives the same. */
export function apply(job: Job, event: LogEvent): Job {
  switch (event.e) {
    case 'step': {
      const checked = takes(job, { type: 'CHECKED' }) ? send(job, { type: 'CHECKED' }) : job
      const proposed = send(checked, { type: 'PROPOSED', step: event.step })
      return event.step.kind === 'end' ? proposed : { ...proposed, step: event.step }
    }
    case 'told':
      return told(job, event.record, event.seq)
    case 'shown':
      return { ...job, pending: { seq: event.seq, prompt: event.prompt } }
    case 'replied':
      return job.pending ? replied(job, event, job.pending.prompt) : job
    case 'undone':
      return undone(job, event.of)
    case 'read':
      return withReading(job, event.seq, event)
    case 'noted':
      return noted(job, event.text)
    case 'handing-over':
      return { ...send(job, { type: 'HAND_OVER' }), naming: null, pending: null, told: [] }
    case 'suspects':
      return { ...job, suspects: event.suspects, left: event.left ?? job.left }
    case 'symptoms':
      return takenUp(job, event.seq, event)
    case 'ended':
      return { ...job, end: event.end, pending: null }
    case 'resumed':
      return event.plan === undefined ? job : withPlan(job, event.plan)
    case 'folded':
      return { ...job, folded: event.folded }
    case 'opened':
      return { ...job, who: event.who ?? null, folded: event.options.fold === true }
    case 'left':
      return job
  }
}

function withPlan(job: Job, copy: PlanCopy): Job {
  const plan = planOf(copy)
  if (!plan.ok) throw new NotTaken('the plan that the job went on with cannot be read')
  return ontoPlan(job, plan.value).job
}

function told(job: Job, record: Extract<LogEvent, { e: 'told' }>['record'], seq: number): Job {
  const seqs = record.show === 'note' && record.kind === 'conflict' ? record.facts.seqs : undefined
  const saidAtOdds = Array.isArray(seqs) ? new Set([...job.saidAtOdds, ...seqs.map(Number)]) : job.saidAtOdds
  return { ...job, told: [...job.told, record], saidAtOdds, opened: openedBy(job, record, seq) }
}

/** A first boot that meets something unexpected opens a symptom's flow, and returns from it. */
function openedBy(job: Job, record: Extract<LogEvent, { e: 'told' }>['record'], seq: number): Job['opened'] {
  if (record.show !== 'note') return job.opened
  if (record.kind === 'opens') return { symptom: String(record.facts.symptom), seq }
  return record.kind === 'returns' ? null : job.opened
}

function noted(job: Job, text: string): Job {
  const last = job.trail.at(-1)
  if (!last) return job
  return { ...job, trail: [...job.trail.slice(0, -1), { ...last, notes: [...last.notes, text] }] }
}

const withMember = <T>(set: ReadonlySet<T>, member: T): ReadonlySet<T> => new Set([...set, member])

function replied(job: Job, { seq, reply, read, told: toldBy }: Said, prompt: Prompt): Job {
  const byPerson = read === undefined && toldBy === undefined
  const entered: Job = {
    ...job,
    pending: null,
    // What a reading or the guide answers takes nobody's time, and what was told by then has not been seen yet.
    told: !byPerson ? job.told : prompt.show === 'do' ? job.told.filter(isExpected) : [],
    minutes: Math.round((job.minutes + (reply === 'cannot' || !byPerson ? 0 : prompt.minutes)) * 100) / 100,
    trail: [
      ...job.trail,
      {
        seq,
        prompt,
        reply,
        undone: false,
        notes: [],
        ...(read === undefined ? {} : { read }),
        ...(toldBy === undefined ? {} : { told: toldBy }),
      },
    ],
    steps: new Map([...job.steps, [seq, job.step]]),
  }
  if (isGuides({ prompt })) return entered
  return prompt.show === 'do'
    ? didOrNot(entered, prompt, reply)
    : answered(entered, seq, read === undefined ? prompt : { ...prompt, error: READ_ERROR }, reply)
}

/** What is to be seen stands until it has been looked at, past what has to be done before. */
const isExpected = (told: Job['told'][number]): boolean => told.show === 'note' && told.kind === 'expect'

/** Who can't switch this machine off can do nothing inside it. */
const isGateTo = (prompt: Do, to: 'on' | 'off'): boolean =>
  prompt.purpose === 'gate' && prompt.edits.some((e) => e.do === 'power' && e.to === to)

/** Trials that are put back; a part that was changed or a plug that was pushed home stays so. */
const movesPlug = ({ do: what }: Edit): boolean => what === 'swap' || what === 'plug' || what === 'unplug'

function didOrNot(job: Job, prompt: Do, reply: Reply): Job {
  if (reply !== 'done') {
    const toolsMissing = isGateTo(prompt, 'off') ? withMember(job.toolsMissing, HANDS_IN) : job.toolsMissing
    const closed = job.step ? withMember(job.closed, job.step.id) : job.closed
    return { ...send(job, { type: 'CANNOT' }), toolsMissing, closed, step: null }
  }
  const isGate = prompt.purpose === 'gate'
  // A task that nothing is looked at after is over with it.
  const isOver = prompt.task !== undefined && job.step?.ask === null
  // With hands in, what an earlier trial changed has just been put back.
  const inForce =
    prompt.hands === 'out' ? job.inForce : job.step?.kind === 'check' ? job.step.edits.filter(movesPlug) : []
  return {
    ...send(job, { type: 'DID' }),
    history: [...job.history, ...prompt.edits],
    inForce,
    closed: isOver && job.step ? withMember(job.closed, job.step.id) : job.closed,
    cautioned: job.cautioned || isGate,
    proven: false,
  }
}

function answered(job: Job, seq: number, prompt: Ask, reply: Reply): Job {
  const learnt = typeof reply === 'string' ? null : evidenceOf(job, seq, prompt, reply)
  const closes = prompt.stage !== 'scope' && job.step ? withMember(job.closed, job.step.id) : job.closed
  const kept: Job = {
    ...job,
    closed: closes,
    evidence: learnt ? [...withoutRepeated(job, learnt), learnt] : job.evidence,
    toolsMissing: reply === 'cannot' ? new Set([...job.toolsMissing, ...prompt.tools]) : job.toolsMissing,
  }
  if (reply === 'cannot') return { ...send(kept, { type: 'CANNOT' }), step: null }
  const heard = send(kept, { type: 'REPLIED', saw: learnt !== null && showsTrouble(job, learnt) })
  if (stateText(heard) !== 'isolating.proving.judging') return { ...heard, step: null }
  const gone =
    learnt?.kind === 'many' &&
    learnt.marks.every((m) => !learnt.chosen.includes(m.id) || isWanted(job, m, learnt))
  return { ...send(heard, { type: gone ? 'PROVEN' : 'PERSISTS' }), proven: gone, step: null }
}

/** A mark on the map that is as it should be (a fan that may rest at zero, say). */
const isWanted = (job: Job, { observe, value }: Pick<Mark, 'observe' | 'value'>, by: Evidence): boolean =>
  value === wantedAfter(job.ground.build, observe, by.history)

/** Whether an answer shows something that is not as wanted. */
function showsTrouble(job: Job, learnt: Evidence): boolean {
  const { build } = job.ground
  if (learnt.kind === 'about') return false
  if (learnt.kind === 'many')
    return learnt.marks.some((m) => learnt.chosen.includes(m.id) && !isWanted(job, m, learnt))
  const means = learnt.answers.find((a) => a.id === learnt.chosen)?.means ?? []
  return learnt.observe.some((o, i) => means[i] != null && means[i] !== wantedAfter(build, o, learnt.history))
}

function evidenceOf(job: Job, seq: number, ask: Ask, ids: readonly string[]): Evidence {
  const base = { seq, id: ask.id, history: job.history, error: ask.error }
  if (ask.many) return { ...base, kind: 'many', marks: ask.marks, chosen: ids }
  const chosen = ids[0] ?? ''
  if ('about' in ask) return { ...base, kind: 'about', about: ask.about, chosen }
  return { ...base, kind: 'one', observe: ask.observe, answers: ask.answers, chosen }
}

function undone(job: Job, of: number): Job {
  const entry = job.trail.find((t) => t.seq === of)
  if (entry?.prompt.show !== 'ask') return job
  if (isGuides(entry)) return guideAgain(job, of)
  const step = againStep(job, of, entry.prompt)
  const closed = new Set(job.closed)
  const before = job.steps.get(of)
  if (before) closed.delete(before.id)
  const back = send(job, { type: 'UNDO', step })
  return {
    ...back,
    step: stateText(back).startsWith('scoping') ? null : step,
    pending: null,
    told: [],
    proven: false,
    closed,
    evidence: job.evidence.filter((e) => e.seq !== of),
    known: entry.read === undefined ? back.known : distrusted(back, entry.prompt),
    trail: job.trail.map((t) => (t.seq === of ? { ...t, undone: true } : t)),
  }
}

/** The question as a step of its own, so that it is reached through the gate if power or plugs have changed. */
export function againStep(job: Job, of: number, ask: Ask) {
  const before = job.steps.get(of)
  return {
    kind: 'again' as const,
    id: before?.id ?? ask.id,
    ...readyAgain(job, ask.id),
    handsIn: false,
    cycle: false,
    minutes: ask.minutes,
    ask: ask.stage === 'proof' ? null : { ...ask, again: 'undone' as const },
  }
}
