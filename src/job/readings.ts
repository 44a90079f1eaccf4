/**
 * A reading of another tool handed into a job: what of it can be taken as the job stands, or why nothing can; and how
 * the questions that it settles are answered. What was taken is evidence of its own, trusted more than a person's look.
 */
import { compile } from '../core/bench/build.ts'
import type { Edit } from '../core/bench/edit.ts'
import { type Observable, observableKey, type Value } from '../core/bench/observable.ts'
import { answersFor } from '../core/checks/answers.ts'
import type { Ask } from '../core/checks/prompt.ts'
import type { Evidence } from '../core/infer/evidence.ts'
import type { Plan } from '../core/plan/plan.ts'
import { type Named, places, readNames, withPlanned } from '../core/readings/naming.ts'
import { readText } from '../core/readings/recognize.ts'
import { takesFrom } from '../core/readings/take.ts'
import { type Job, powerOf } from './drive/job.ts'
import type { Known, ReadBody, ReadingRefusal } from './read-body.ts'
import { readingNote } from './reading-note.ts'

/** How often a figure that a tool printed, under a name that a person gave a place, says something else than is so. */
export const READ_ERROR = 0.01

export type Taking =
  | { readonly ok: true; readonly body: ReadBody }
  | { readonly ok: false; readonly reading: ReadingRefusal }

export interface HandedIn {
  readonly text: string
  /** `fan1=SYS1`. */
  readonly as: readonly string[]
  readonly by?: string
}

interface Standing {
  readonly build: ReturnType<typeof compile>
  readonly history: readonly Edit[]
  readonly named: readonly Named[]
  readonly power: 'on' | 'off'
}

const refused = (reading: ReadingRefusal): Taking => ({ ok: false, reading })

function take({ build, history, named: before, power }: Standing, { text, as, by }: HandedIn): Taking {
  if (power === 'off') return refused({ is: 'power-off' })
  const read = readText(text)
  if (!read.ok) {
    const { ok: _, ...why } = read
    return refused({ is: 'unreadable', ...why })
  }
  const names = readNames(build, as)
  if (!names.ok) return refused({ is: 'name', mistake: names })
  // What was said first in this job holds until it is said otherwise.
  const named = [...names.named, ...before.filter((b) => !names.named.some((n) => n.name === b.name))]
  const { reading } = read
  const { taken, left } = takesFrom(reading, { build, history, named: withPlanned(build, named) })
  const { source, remarks } = reading
  if (taken.length === 0) return refused({ is: 'nothing-taken', left, remarks, places: places(build) })
  return {
    ok: true,
    body: { e: 'read', source, ...(by === undefined ? {} : { by }), text, named, taken, left, remarks },
  }
}

export const takeReading = (job: Job, given: HandedIn): Taking =>
  take({ build: job.ground.build, history: job.history, named: job.named, power: powerOf(job) }, given)

/** The same on a build that no job has touched yet. */
export const tryReading = (plan: Plan, given: HandedIn): Taking =>
  take({ build: compile(plan), history: [], named: [], power: 'on' }, given)

const readId = (o: Observable): string => `read ${observableKey(o)}`

const isReading = (e: Evidence): e is Extract<Evidence, { kind: 'one' }> =>
  e.kind === 'one' && e.id.startsWith('read ')

/** The job with what was read: evidence, values for the questions to come, and the note that tells it. */
export function withReading(job: Job, seq: number, body: ReadBody): Job {
  const after = job.history.length
  const evidence = body.taken.map(
    ({ observe, value }): Evidence => ({
      kind: 'one',
      seq,
      id: readId(observe),
      history: job.history,
      error: READ_ERROR,
      observe: [observe],
      answers: answersFor([observe], [[value]]),
      chosen: value,
    }),
  )
  const known = new Map(job.known)
  for (const { observe, value } of body.taken) known.set(observableKey(observe), { seq, value, after })
  return {
    ...job,
    evidence: [...job.evidence, ...evidence],
    known,
    named: body.named,
    told: [...job.told, readingNote(body)],
  }
}

/** The value of an observable that was read with the build as it is now. */
function valueNow(job: Job, o: Observable): Known | undefined {
  const known = job.known.get(observableKey(o))
  return known?.after === job.history.length ? known : undefined
}

/** The reply that readings give to a question, and the reading it is from; undefined where they do not settle it. */
export function replyByReading(job: Job, ask: Ask): { ids: readonly string[]; read: number } | undefined {
  // What is asked again is asked for another look.
  if ('about' in ask || ask.again !== undefined || ask.power === 'off' || job.known.size === 0)
    return undefined
  const observe = ask.many ? ask.marks.map((m) => m.observe) : ask.observe
  const known = observe.map((o) => valueNow(job, o))
  const read = known.reduce((latest, k) => Math.max(latest, k?.seq ?? 0), 0)
  if (observe.length === 0 || known.some((k) => k === undefined)) return undefined
  if (ask.many) return { ids: ask.marks.filter((m, i) => known[i]?.value === m.value).map((m) => m.id), read }
  const fits = ask.answers.find((a) => a.means.every((m, i) => m !== null && m === known[i]?.value))
  const other = ask.answers.find((a) => a.means.every((m) => m === null))
  const id = (fits ?? other)?.id
  return id === undefined ? undefined : { ids: [id], read }
}

/** What an answer says of each thing that it looks at, by observable key. */
function saidIn(learnt: Exclude<Evidence, { kind: 'about' }>): ReadonlyMap<string, Value> {
  const says = new Map<string, Value>()
  if (learnt.kind === 'one') {
    const means = learnt.answers.find((a) => a.id === learnt.chosen)?.means ?? []
    for (const [i, o] of learnt.observe.entries()) says.set(observableKey(o), means[i] ?? '')
    return says
  }
  const chosen = new Set(learnt.chosen)
  for (const { id, observe, value } of learnt.marks) {
    const key = observableKey(observe)
    // Of what a look over everything goes over, only speeds are ever read; one that is not marked is right.
    if (chosen.has(id)) says.set(key, value)
    else if (!says.has(key)) says.set(key, 'plausible')
  }
  return says
}

/** The evidence without readings that an answer repeats: the same look at the same things is not counted twice. */
export function withoutRepeated(job: Job, learnt: Evidence | null): readonly Evidence[] {
  if (learnt === null || learnt.kind === 'about' || !job.evidence.some(isReading)) return job.evidence
  const says = saidIn(learnt)
  return job.evidence.filter((e) => {
    if (!isReading(e) || e.history.length !== learnt.history.length) return true
    const [o] = e.observe
    return o === undefined || says.get(observableKey(o)) !== e.chosen
  })
}

/** A reply by a reading was taken back: from now on a person says it. */
export function distrusted(job: Job, ask: Ask): ReadonlyMap<string, Known> {
  if ('about' in ask) return job.known
  const gone = new Set((ask.many ? ask.marks.map((m) => m.observe) : ask.observe).map(observableKey))
  return new Map([...job.known].filter(([key]) => !gone.has(key)))
}
