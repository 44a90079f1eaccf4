/**
 * Where a first boot stands: the next point of the plan's walk, what is to be expected there, and putting right what
 * a look at the leads has shown already. Whatever is seen to be wrong with power on is the engine's.
 */
import type { WorkStep } from '../../../flows/shared/step.ts'
import type { Edit } from '../../core/bench/edit.ts'
import { type BootPoint, bootWalk } from '../../core/checks/boot-walk.ts'
import type { Note } from '../../core/checks/prompt.ts'
import { refOf } from '../../core/faults/entry.ts'
import type { Evidence } from '../../core/infer/evidence.ts'
import { wantedAfter } from '../../core/infer/planned.ts'
import type { Job } from './job.ts'

export interface Onward {
  readonly told: readonly Note[]
  readonly step: WorkStep
}

type Many = Extract<Evidence, { kind: 'many' }>

const MOST_CORRECTIONS = 2

const lastOf = (job: Job, id: string): Many | undefined =>
  job.evidence.findLast((e): e is Many => e.kind === 'many' && e.id === id)

const wrongIn = (job: Job, e: Many) =>
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

/** What a look at the leads has shown needs no search: it is put right, and looked at once more. */
function correction(job: Job, { ask }: BootPoint): WorkStep | undefined {
  const e = lastOf(job, ask.id)
  if (!ask.id.startsWith('walk leads') || !e) return undefined
  const wrong = wrongIn(job, e)
  const id = `put right ${ask.id} ${e.seq}`
  const times = job.evidence.filter((other) => other.id === ask.id).length
  if (wrong.length === 0 || job.closed.has(id) || times > MOST_CORRECTIONS) return undefined
  const loose = wrong.filter((m) => m.observe.what === 'seated').map((m) => m.observe.at)
  const astray = new Map(wrong.filter((m) => m.observe.what === 'goes').map((m) => [m.observe.at, m.value]))
  const edits: Edit[] = [
    ...homeward(job, astray),
    ...loose.filter((plug) => !astray.has(plug)).map((plug): Edit => ({ do: 'reseat', plug })),
  ]
  return {
    kind: 'repair',
    id,
    edits,
    handsIn: true,
    cycle: false,
    minutes: Math.max(1, edits.length),
    ask: { ...ask, again: 'changed' },
  }
}

const expected = ({ stage, ask, within }: BootPoint): Note => {
  const what = ask.many ? (ask.marks[0]?.observe.what ?? 'lit') : 'lit'
  const point = ask.id === 'walk blades' ? 'blades' : stage === 'soak' ? 'soak' : what
  return { show: 'note', kind: 'cross-check', facts: { what: `boot-${point}`, stage, seconds: within } }
}

/** The next thing of the walk, or undefined when it is through. */
export function onward(job: Job): Onward | undefined {
  const asked = new Set(job.trail.filter((t) => !t.undone && t.prompt.show === 'ask').map((t) => t.prompt.id))
  for (const point of bootWalk(job.ground.build)) {
    const { ask } = point
    const mend = correction(job, point)
    if (mend) return { told: [], step: mend }
    if (asked.has(ask.id) || job.closed.has(ask.id)) continue
    return {
      told: [expected(point)],
      step: { kind: 'check', id: ask.id, edits: [], handsIn: false, cycle: false, minutes: ask.minutes, ask },
    }
  }
  return undefined
}

/**
 * What bears on the fault in hand: on a walk, what was seen before the last mending is of faults that are gone.
 * The look that proved it still counts.
 */
export function sinceMended(job: Job): readonly Evidence[] {
  const mended = job.trail.findLast(({ seq, prompt, undone }) => {
    if (undone || prompt.show !== 'ask') return false
    const e = job.evidence.find((other) => other.seq === seq)
    if (e?.kind !== 'many' || wrongIn(job, e).length > 0) return false
    return prompt.stage === 'proof' || prompt.again === 'changed'
  })
  return mended ? job.evidence.filter((e) => e.seq >= mended.seq) : job.evidence
}
