/**
 * A job goes on with a changed plan. The machine in front of the person is taken to be the same: what was seen of it
 * holds as long as the plan still has the thing that was looked at, and what hands did holds as long as it still has
 * the plugs. The step in hand stands if it can still be done; else it is dropped, as one that can't be done here.
 */
import type { WorkStep } from '../../../flows/shared/step.ts'
import { audit } from '../../core/audit/audit.ts'
import { type Build, compile } from '../../core/bench/build.ts'
import type { Edit } from '../../core/bench/edit.ts'
import type { Observable } from '../../core/bench/observable.ts'
import { run } from '../../core/bench/run.ts'
import { supplyLeadAt } from '../../core/bench/world.ts'
import { mapped } from '../../core/checks/maps.ts'
import { knowledgeOf } from '../../core/infer/assess.ts'
import type { Evidence } from '../../core/infer/evidence.ts'
import type { Plan } from '../../core/plan/plan.ts'
import { type Job, send, stateText } from './job.ts'
import { think } from './think.ts'

export interface Moved {
  readonly job: Job
  /** Lines of the answers that no longer count. */
  readonly gone: readonly number[]
}

/** Whether a plan has all that the flow still has to look over; without, the job can't go on with it. */
export function canMoveOnto(job: Job, plan: Plan): boolean {
  const build = compile(plan)
  return job.ground.flow.scoping.every((topic) => 'about' in topic || mapped(build, topic.map).length > 0)
}

/** Pure: the same job and plan give the same job on every machine. */
export function ontoPlan(job: Job, plan: Plan): Moved {
  const build = compile(plan)
  const edits = (history: readonly Edit[]): readonly Edit[] => history.filter((edit) => canDo(build, edit))
  const kept = job.evidence.flatMap((e) => stillSeen(build, { ...e, history: edits(e.history) }))
  const counts = new Set(kept.map((e) => e.seq))
  const gone = [...new Set(job.evidence.map((e) => e.seq))].filter((seq) => !counts.has(seq))
  const history = edits(job.history)
  const ground = {
    build,
    flow: job.ground.flow,
    known: knowledgeOf(build, audit(plan), job.ground.known.learned),
  }
  const moved: Job = {
    ...job,
    ground,
    evidence: kept,
    history,
    inForce: edits(job.inForce),
    // What a reading said is known for as long as nothing was done since; how much was done is counted anew.
    known: new Map(
      [...job.known].flatMap(([key, known]) =>
        known.after === job.history.length ? [[key, { ...known, after: history.length }] as const] : [],
      ),
    ),
    named: job.named.filter(({ ref }) => hasPlace(build, ref)),
    trail: job.trail.map((t) => (gone.includes(t.seq) ? { ...t, undone: true } : t)),
    pending: null,
    proven: false,
  }
  const able = withoutLostStep(moved)
  return { job: able.suspects.length === 0 ? able : { ...able, suspects: think(able).suspects }, gone }
}

/** What waits is asked anew from the state of the flow; a step that the plan has no place for is over. */
function withoutLostStep(job: Job): Job {
  const { step } = job
  const { build } = job.ground
  if (step === null || stateText(job).startsWith('scoping')) return job
  if (stateText(job) === 'isolating.deciding' || canTake(build, step)) return job
  return { ...send(job, { type: 'CANNOT' }), step: null, closed: new Set([...job.closed, step.id]) }
}

function canTake(build: Build, { edits, ask }: WorkStep): boolean {
  if (!edits.every((edit) => canDo(build, edit))) return false
  if (ask === null || 'about' in ask) return true
  return (ask.many ? ask.marks.map((m) => m.observe) : ask.observe).every((o) => canSee(build, o))
}

function hasPlace(build: Build, at: string): boolean {
  return build.partAt.has(at) || build.portAt.has(at) || supplyLeadAt(build, at) >= 0
}

function canDo(build: Build, edit: Edit): boolean {
  switch (edit.do) {
    case 'power':
      return true
    case 'unplug':
    case 'reseat':
      return hasPlace(build, edit.plug)
    case 'plug':
      return hasPlace(build, edit.plug) && hasPlace(build, edit.socket)
    case 'swap':
      return hasPlace(build, edit.a) && hasPlace(build, edit.b)
    case 'substitute':
      return hasPlace(build, edit.what)
    case 'free':
      return hasPlace(build, edit.part)
    case 'set':
      return canSee(build, { what: 'setting', at: edit.setting })
  }
}

const OFF: readonly Edit[] = [{ do: 'power', to: 'off' }]

/** The build as planned shows something there, with power on or off. */
const canSee = (build: Build, o: Observable): boolean =>
  [[], OFF].some((edits) => run(build, { plants: [], edits }).see(o) !== null)

/** Of a look over many things, what was seen of those that are still there. */
function stillSeen(build: Build, e: Evidence): readonly Evidence[] {
  if (e.kind === 'about') return [e]
  if (e.kind === 'one') return e.observe.every((o) => canSee(build, o)) ? [e] : []
  const marks = e.marks.filter((m) => canSee(build, m.observe))
  const chosen = e.chosen.filter((id) => marks.some((m) => m.id === id))
  return marks.length === 0 ? [] : [{ ...e, marks, chosen }]
}
