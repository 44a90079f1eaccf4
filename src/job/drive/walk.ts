/**
 * Where a first boot stands: the next point of the plan's walk, what is to be expected there, putting right what a look
 * at leads or settings has shown already, and the signature at the end. Whatever else is seen to be wrong is the engine's.
 */
import type { EndStep, WorkStep } from '../../../flows/shared/step.ts'
import type { Edit } from '../../core/bench/edit.ts'
import { rightSetting } from '../../core/bench/setting-now.ts'
import { expectedAt } from '../../core/checks/boot/expected.ts'
import { type BootPoint, pointId } from '../../core/checks/boot/point.ts'
import { bootWalk } from '../../core/checks/boot/walk.ts'
import type { Note, Task } from '../../core/checks/prompt.ts'
import { HANDS_IN } from '../../core/checks/step.ts'
import { refOf } from '../../core/faults/entry.ts'
import type { Evidence } from '../../core/infer/evidence.ts'
import { hostAfter, wantedAfter } from '../../core/infer/planned.ts'
import { type Job, powerOf } from './job.ts'

export interface Onward {
  readonly told: readonly Note[]
  readonly step: WorkStep | EndStep
}

type Many = Extract<Evidence, { kind: 'many' }>

const MOST_CORRECTIONS = 2

const lastOf = (job: Job, id: string): Many | undefined =>
  job.evidence.findLast((e): e is Many => e.kind === 'many' && e.id === id)

/** What a look over many things showed not to be as wanted. */
export const wrongIn = (job: Job, e: Many) =>
  e.marks.filter(
    (m) => e.chosen.includes(m.id) && m.value !== wantedAfter(job.ground.build, m.observe, e.history),
  )

/** Plugs that sit elsewhere go home: exchanged where two sit in each other's place, else all out and each in. */
function homeward(job: Job, at: ReadonlyMap<string, string>): readonly Edit[] {
  const { build } = job.ground
  const home = (plug: string): string => refOf(build, build.socketOf[build.portAt.get(plug) ?? -1] ?? -1)
  const done = new Set<string>()
  const edits: Edit[] = []
  for (const [a, socket] of at)
    for (const [b, other] of at)
      if (a < b && !done.has(a) && !done.has(b) && home(a) === other && home(b) === socket) {
        edits.push({ do: 'swap', a, b })
        done.add(a).add(b)
      }
  const rest = [...at.keys()].filter((plug) => !done.has(plug))
  return [
    ...edits,
    ...rest.map((plug): Edit => ({ do: 'unplug', plug })),
    ...rest.map((plug): Edit => ({ do: 'plug', plug, socket: home(plug) })),
  ]
}

/** Looks that name what is wrong by themselves: plugs and settings. */
const namesIt = ({ marks }: Many): boolean =>
  marks.every((m) => ['seated', 'goes', 'setting'].includes(m.observe.what))

/** What puts right all that such a look showed. */
function righting(job: Job, wrong: Many['marks']): readonly Edit[] {
  const loose = wrong.filter((m) => m.observe.what === 'seated').map((m) => m.observe.at)
  const astray = new Map(wrong.filter((m) => m.observe.what === 'goes').map((m) => [m.observe.at, m.value]))
  return [
    ...homeward(job, astray),
    ...loose.filter((plug) => !astray.has(plug)).map((plug): Edit => ({ do: 'reseat', plug })),
    ...wrong.flatMap(({ observe: { what, at } }): Edit[] => {
      const value = what === 'setting' ? rightSetting(job.ground.build, at) : undefined
      return value === undefined ? [] : [{ do: 'set', setting: at, value }]
    }),
  ]
}

const MINUTES_EACH = 1

/** What a look at leads or settings has shown needs no search: it is put right, and looked at once more. */
function correction(job: Job, { ask }: BootPoint): WorkStep | undefined {
  const e = lastOf(job, ask.id)
  if (!e || !namesIt(e)) return undefined
  const wrong = wrongIn(job, e)
  const id = `put right ${ask.id} ${e.seq}`
  const times = job.evidence.filter((other) => other.id === ask.id).length
  if (wrong.length === 0 || job.closed.has(id) || times > MOST_CORRECTIONS) return undefined
  const edits = righting(job, wrong)
  return {
    kind: 'repair',
    id,
    edits,
    handsIn: edits.some((edit) => edit.do !== 'set'),
    cycle: false,
    minutes: MINUTES_EACH * edits.length,
    ask: { ...ask, again: 'changed' },
  }
}

/** The host is made to speak, or kept from it, where that is not so by now. */
function hostEdits(job: Job, { host }: Pick<BootPoint, 'host'>): readonly Edit[] {
  if (host === null || hostAfter(job.ground.build, job.history) === host) return []
  return [{ do: 'set', setting: 'host/program', value: host }]
}

/** What brings the build to where a point is looked at: its own task, or the one that its host needs. */
function readiness(job: Job, point: BootPoint): Pick<WorkStep, 'edits' | 'task'> {
  const edits = hostEdits(job, point)
  const forHost: Task = point.host === 'running' ? 'program' : 'firmware'
  const task = point.task ?? (edits.length > 0 ? forHost : undefined)
  return { edits, ...(task === undefined ? {} : { task }) }
}

/** Minutes that a task takes beside the look after it; the soak is common practice, no source. */
const TASK_MINUTES: Readonly<Record<Task, number>> = {
  'never-on': 0,
  'first-on': 0,
  'on-again': 0,
  firmware: 2,
  system: 3,
  program: 2,
  'save-pattern': 2,
  soak: 30,
  'cold-start': 3,
  'by-itself': 3,
  'sign-off': 1,
}

function stepAt(job: Job, point: BootPoint): WorkStep {
  const { ask } = point
  const ready = readiness(job, point)
  return {
    kind: 'check',
    id: ask.id,
    ...ready,
    handsIn: false,
    cycle: point.cycle === true,
    minutes: ask.minutes + (ready.task ? TASK_MINUTES[ready.task] : 0),
    ask,
  }
}

/** The point of the walk that a question is, if it is one. */
const pointOf = (job: Job, id: string | undefined): BootPoint | undefined =>
  job.ground.flow.walk ? bootWalk(job.ground.build).find(({ ask }) => ask.id === id) : undefined

/** How far the walk is; null where the job is none. */
export function progressOf(job: Job): { readonly n: number; readonly of: number } | null {
  if (!job.ground.flow.walk) return null
  const walk = bootWalk(job.ground.build)
  const asked = askedIds(job)
  // What a point has shown to be wrong is put right, and looked at again, at that point.
  const here = walk.findIndex(({ ask }) => ask.id === job.step?.ask?.id)
  const at = here >= 0 ? here : walk.findIndex(({ ask }) => !asked.has(ask.id) && !job.closed.has(ask.id))
  return { n: at < 0 ? walk.length : at + 1, of: walk.length }
}

/** What is to be seen at the point in hand. */
export const expectedNow = (job: Job): readonly Note[] => {
  const point = pointOf(job, job.step?.kind === 'repair' ? undefined : job.step?.ask?.id)
  return point ? [expectedAt(job.ground.build, point)] : []
}

/** A question that is asked again after it was taken back needs the same host as before. */
export const readyAgain = (job: Job, id: string): Pick<WorkStep, 'edits' | 'task'> => {
  const point = pointOf(job, id)
  const edits = point ? hostEdits(job, point) : []
  return edits.length === 0 ? { edits } : { edits, task: point?.host === 'running' ? 'program' : 'firmware' }
}

const askedIds = (job: Job): ReadonlySet<string> =>
  new Set(job.trail.filter((t) => !t.undone && t.prompt.show === 'ask').map((t) => t.prompt.id))

/** What nobody can do here is not asked for one by one. */
const outOfReach = (job: Job, { ask, cycle }: BootPoint): boolean =>
  job.toolsMissing.has(HANDS_IN) && (ask.hands === 'in' || cycle === true)

const SIGN_OFF = pointId('cold-start', 'sign-off')

/** The next thing of the walk, its end included. */
export function onward(job: Job): Onward {
  const asked = askedIds(job)
  for (const point of bootWalk(job.ground.build)) {
    const { ask } = point
    const mend = correction(job, point)
    if (mend) return { told: [], step: mend }
    if (asked.has(ask.id) || job.closed.has(ask.id) || outOfReach(job, point)) continue
    // Where the mains go off first, it is told with the question.
    const first = ask.power === 'off' && powerOf(job) === 'on'
    return { told: first ? [] : [expectedAt(job.ground.build, point)], step: stepAt(job, point) }
  }
  if (!job.closed.has(SIGN_OFF)) return signOff(job)
  const mended = job.trail.some(
    ({ prompt, reply }) => prompt.show === 'do' && prompt.purpose === 'repair' && reply === 'done',
  )
  const outcome = leftWrong(job).length > 0 ? 'handed-over' : mended ? 'fixed' : 'nothing-wrong'
  return { told: [], step: { kind: 'end', outcome } }
}

/** Leads and settings that were seen to be wrong, and stayed so. */
const leftWrong = (job: Job): readonly string[] =>
  bootWalk(job.ground.build).flatMap(({ ask }) => {
    const e = lastOf(job, ask.id)
    return e && namesIt(e) ? wrongIn(job, e).map((m) => m.observe.at) : []
  })

/** Points that were not seen: nobody could tell, it could not be done, or it was out of reach. */
const notSeen = (job: Job): readonly string[] =>
  bootWalk(job.ground.build).flatMap(({ ask }) => (lastOf(job, ask.id) ? [] : [ask.id]))

/** Whoever walked it says so by name, knowing what was not seen and what is still wrong. */
function signOff(job: Job): Onward {
  const points = bootWalk(job.ground.build).length
  const open = notSeen(job)
  const wrong = leftWrong(job)
  const facts = { what: 'sign-off', seen: points - open.length, of: points, open, wrong }
  return {
    told: [{ show: 'note', kind: 'expect', facts }],
    step: {
      kind: 'check',
      id: SIGN_OFF,
      edits: [],
      handsIn: false,
      cycle: false,
      minutes: TASK_MINUTES['sign-off'],
      task: 'sign-off',
      ask: null,
    },
  }
}
