/**
 * A job as it stands, worked out from its log alone: applying the events in order gives the same job on every
 * machine. What is asked next is `next`'s; what is on disk is the log's; this is only what follows from the past.
 */
import { initialTransition, transition } from 'xstate'
import type { FlowEvent } from '../../../flows/shared/events.ts'
import { IDLE } from '../../../flows/shared/events.ts'
import { type Flow, flow } from '../../../flows/shared/flow.ts'
import type { EndStep, WorkStep } from '../../../flows/shared/step.ts'
import type { Build } from '../../core/bench/build.ts'
import type { Edit } from '../../core/bench/edit.ts'
import { mapped } from '../../core/checks/maps.ts'
import type { End, Note, Power, Prompt, Suspect, Verdict } from '../../core/checks/prompt.ts'
import type { Knowledge } from '../../core/infer/assess.ts'
import type { Evidence } from '../../core/infer/evidence.ts'
import type { Named } from '../../core/readings/naming.ts'
import type { Known } from '../read-body.ts'
import type { TrailEntry } from '../view.ts'

export type FlowSnapshot = ReturnType<typeof initialTransition<Flow['machine']>>[0]

/** What a job stands on. The flow is that of the symptom in hand. */
export interface Ground {
  readonly build: Build
  readonly flow: Flow
  readonly known: Knowledge
  /** Symptoms as they were told, where it is not the one of the flow: several, or none, to be found by the guide. */
  readonly told?: readonly string[]
}

export interface Job {
  readonly ground: Ground
  readonly snapshot: FlowSnapshot
  /** Until the flow is settled: the guide asks, or several symptoms were told. */
  readonly naming: 'guide' | 'told' | null
  /** What the job is about now; empty while nobody knows. */
  readonly symptoms: readonly string[]
  /** What is taken up afterwards. */
  readonly queued: readonly string[]
  /** The line with which a later symptom was taken up: what was answered before it is of another. */
  readonly since: number
  /** How the symptoms before this one have ended. */
  readonly outcomes: readonly EndStep['outcome'][]
  /** Suspected of those that ended without being solved. */
  readonly unsolved: readonly Suspect[]
  readonly evidence: readonly Evidence[]
  /** Everything done to the build, in order, power included. */
  readonly history: readonly Edit[]
  /** Edits of a trial that are still to be put back. */
  readonly inForce: readonly Edit[]
  readonly closed: ReadonlySet<string>
  readonly toolsMissing: ReadonlySet<string>
  readonly step: WorkStep | null
  readonly pending: { readonly seq: number; readonly prompt: Prompt } | null
  readonly told: readonly (Note | Verdict)[]
  readonly trail: readonly TrailEntry[]
  /** By `replied` line: the step it belonged to, for taking it back. */
  readonly steps: ReadonlyMap<number, WorkStep | null>
  readonly suspects: readonly Suspect[]
  readonly left: number
  readonly minutes: number
  /** The last look over the symptom showed all as wanted. */
  readonly proven: boolean
  /** The long cautions were shown. */
  readonly cautioned: boolean
  /** Numbers of the answers that were said to be at odds. */
  readonly saidAtOdds: ReadonlySet<number>
  /** By observable: what readings said last. */
  readonly known: ReadonlyMap<string, Known>
  /** Which name in a reading stands for which place. */
  readonly named: readonly Named[]
  /** On a first boot: the symptom's flow that something unexpected has opened, and the line that says so. */
  readonly opened: { readonly symptom: string; readonly seq: number } | null
  /** Who is at the bench, where it was said. */
  readonly who: string | null
  /** Explanations are folded away. */
  readonly folded: boolean
  readonly end: End | null
}

/** A flow without the looks over things that this build does not have. */
function fitted(plan: Flow, build: Build): Flow {
  if (plan.scoping.length === 0) return plan
  const [first, ...rest] = plan.scoping.filter((t) => 'about' in t || mapped(build, t.map).length > 0)
  if (rest.length + 1 === plan.scoping.length) return plan
  return flow({ ...plan, scoping: first ? [first, ...rest] : [{ name: 'sinceWhen', about: 'since' }] })
}

/**
 * A flow fitted to the build, at its beginning.
 * @param before the job as it stands where another symptom comes after one: power is as it is, the work goes on among the steps
 */
export function startOf(from: Ground, before?: FlowSnapshot): Pick<Job, 'ground' | 'snapshot'> {
  const ground = { ...from, flow: fitted(from.flow, from.build) }
  const { machine } = ground.flow
  if (before === undefined) return { ground, snapshot: initialTransition(machine)[0] }
  const power = before.matches({ power: 'on' }) ? 'on' : 'off'
  const value = { power, work: { isolating: 'deciding' } }
  return { ground, snapshot: machine.resolveState({ value, context: { passed: [], ...IDLE } }) }
}

/** A job on which nothing has been said yet. */
export function begin(from: Ground): Job {
  const { told = [from.flow.id] } = from
  return {
    ...startOf(from),
    naming: told.length === 1 ? null : told.length === 0 ? 'guide' : 'told',
    symptoms: told,
    queued: [],
    since: 0,
    outcomes: [],
    unsolved: [],
    evidence: [],
    history: [],
    inForce: [],
    closed: new Set(),
    toolsMissing: new Set(),
    step: null,
    pending: null,
    told: [],
    trail: [],
    steps: new Map(),
    suspects: [],
    left: 0,
    minutes: 0,
    proven: false,
    cautioned: false,
    saidAtOdds: new Set(),
    known: new Map(),
    named: [],
    opened: null,
    who: null,
    folded: false,
    end: null,
  }
}

/** The flow does not take what is sent to it: a mistake of ours, or a log that is not of this flow. */
export class NotTaken extends Error {}

/** Sends an event to the flow. One that the flow does not take is never swallowed. @throws NotTaken */
export function send(job: Job, event: FlowEvent): Job {
  if (!job.snapshot.can(event)) {
    throw new NotTaken(`the flow ${job.ground.flow.id} does not take ${event.type} in ${stateText(job)}`)
  }
  const [snapshot] = transition(job.ground.flow.machine, job.snapshot, event)
  if (snapshot.status === 'error')
    throw new NotTaken(`the flow ${job.ground.flow.id} failed on ${event.type}`)
  return { ...job, snapshot }
}

/** What was learnt of the symptom in hand. */
export const evidenceNow = (job: Job): readonly Evidence[] =>
  job.since === 0 ? job.evidence : job.evidence.filter((e) => e.seq > job.since)

export const takes = (job: Job, event: FlowEvent): boolean => job.snapshot.can(event)

export const powerOf = (job: Job): Power => (job.snapshot.matches({ power: 'on' }) ? 'on' : 'off')

/** Where the work stands, such as `naming`, `scoping.whichStayDark` or `isolating.gate.closing`. */
export function stateText(job: Job): string {
  if (job.naming !== null) return 'naming'
  const path = (value: unknown): string => {
    if (typeof value === 'string') return value
    const [first] = Object.entries(value as Record<string, unknown>)
    return first ? `${first[0]}.${path(first[1])}` : ''
  }
  return path((job.snapshot.value as { work: unknown }).work)
}
