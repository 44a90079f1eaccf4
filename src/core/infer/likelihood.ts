/**
 * How probable an answer is under a suspect: right with the chance that this look is right, else any of the other
 * answers alike. No answer of a person is impossible, so none rules a suspect out. "None of these" foresees every
 * answer alike, so it wins exactly when the known suspects explain worse than chance.
 */
import type { Edit } from '../bench/edit.ts'
import { type Observable, observableKey, type Value } from '../bench/observable.ts'
import type { Answer, Mark } from '../checks/prompt.ts'
import type { Family } from '../faults/fault.ts'
import type { Evidence } from './evidence.ts'
import type { Hypothesis } from './hypothesis.ts'
import type { Sights } from './sights.ts'

type Tuple = readonly (Value | null)[]

/** How often a loose contact is broken at the moment of a look (judgement). */
const BROKEN_SHARE = 0.65
/** How often a person who looks at something unsteady says so (judgement). */
const SAYS_UNSTEADY = 0.3
const UNSTEADY: readonly string[] = ['flicker', 'erratic', 'comes-and-goes', 'doubtful']
/** The same look again repeats its error: each repetition counts for this share of the one before. */
const REPEAT_SHARE = 0.3
/** A person's account of the past is wrong about one time in four (common practice, no source). */
const TOLD_SHARE = 0.75

const holds = (means: Tuple, values: Tuple): boolean =>
  means.every((m, i) => m === null || (values[i] !== null && m === values[i]))

const isOther = (means: Tuple): boolean => means.every((m) => m === null)

/** P(each answer | values), summing to 1. An `other` answer holds only where no named one does. */
export function answerOdds(answers: readonly Answer[], values: Tuple, error: number): Float64Array {
  const odds = new Float64Array(answers.length)
  if (values.every((v) => v === null)) return odds.fill(1 / answers.length)
  let fits = answers.flatMap((a, i) => (!isOther(a.means) && holds(a.means, values) ? [i] : []))
  if (fits.length === 0) fits = answers.flatMap((a, i) => (isOther(a.means) ? [i] : []))
  if (fits.length === 0 || fits.length === answers.length) return odds.fill(1 / answers.length)
  odds.fill(error / (answers.length - fits.length))
  for (const i of fits) odds[i] = (1 - error) / fits.length
  return odds
}

/** The odds of a check's answers under a suspect, with unsteady ones mixed. */
export function oddsUnder(answers: readonly Answer[], sights: readonly Tuple[], error: number): Float64Array {
  const [broken, made] = sights
  if (!broken) return new Float64Array(answers.length).fill(1 / answers.length)
  const first = answerOdds(answers, broken, error)
  if (!made) return first
  const second = answerOdds(answers, made, error)
  const mixed = first.map((p, i) => BROKEN_SHARE * p + (1 - BROKEN_SHARE) * (second[i] ?? 0))
  const differs = broken.some((v, i) => v !== made[i])
  const unsteady = answers.flatMap((a, i) =>
    a.means.some((m) => m !== null && UNSTEADY.includes(m)) ? [i] : [],
  )
  if (!differs || unsteady.length === 0) return mixed
  for (let i = 0; i < mixed.length; i++) mixed[i] = (mixed[i] ?? 0) * (1 - SAYS_UNSTEADY)
  for (const i of unsteady) mixed[i] = (mixed[i] ?? 0) + SAYS_UNSTEADY / unsteady.length
  return mixed
}

interface Thing {
  readonly marks: readonly Mark[]
  readonly chosen: Mark | undefined
}

type Many = Extract<Evidence, { kind: 'many' }>

/** Sorted once an answer, since every suspect is held against it. */
const sorted = new WeakMap<Many, readonly Thing[]>()

/** What a map goes over, each thing with its marks and the one that was chosen. */
export function thingsIn(e: Many): readonly Thing[] {
  const known = sorted.get(e) ?? things(e.marks, e.chosen)
  sorted.set(e, known)
  return known
}

/** Marks by what they are about: each thing is a small question of its own, answered by a mark or by none. */
function things(marks: readonly Mark[], chosen: readonly string[]): readonly Thing[] {
  const by = new Map<string, Mark[]>()
  for (const mark of marks) {
    const key = `${mark.observe.what} ${mark.observe.at}`
    by.set(key, [...(by.get(key) ?? []), mark])
  }
  return [...by.values()].map((of) => ({ marks: of, chosen: of.find((m) => chosen.includes(m.id)) }))
}

function manyOdds(of: readonly Thing[], values: readonly (Value | null)[], error: number): number {
  return of.reduce((product, { marks, chosen }, i) => {
    const value = values[i] ?? null
    const right = marks.find((m) => m.value === value)
    const options = marks.length + 1
    return product * (right === chosen ? 1 - error : error / (options - 1))
  }, 1)
}

/** Family weights by what a person tells of the history (judgement; see the priors' page). */
const SINCE: Readonly<Record<string, Readonly<Record<Family, number>>>> = {
  new: {
    connection: 1.2,
    wiring: 1.4,
    setting: 1.2,
    host: 1.2,
    part: 0.6,
    lead: 0.7,
    load: 1.2,
    reading: 1,
    none: 1,
  },
  changed: {
    connection: 1.4,
    wiring: 1.1,
    setting: 1.2,
    host: 1.1,
    part: 0.7,
    lead: 0.9,
    load: 1,
    reading: 0.9,
    none: 1,
  },
  suddenly: {
    connection: 0.8,
    wiring: 0.15,
    setting: 0.6,
    host: 1,
    part: 2,
    lead: 1.6,
    load: 1.2,
    reading: 0.8,
    none: 1.2,
  },
}

function aboutOdds(about: string, chosen: string, h: Hypothesis): number {
  if (about === 'since') {
    const row = SINCE[chosen]
    return row ? h.families.reduce((p, f) => p * row[f], 1) : 1
  }
  if (about === 'comes-and-goes') {
    const says = chosen === 'yes'
    return h.intermittent === says ? TOLD_SHARE : 1 - TOLD_SHARE
  }
  if (about === 'worked' && chosen === 'never') return h.families.includes('wiring') ? 1.3 : 1
  return 1
}

const tempered = (p: number, times: number): number => (times === 0 ? p : p ** (REPEAT_SHARE ** times))

/** P(this piece of evidence | suspect), up to a factor that is the same for all suspects. */
export function likelihood(e: Evidence, h: Hypothesis, sights: Sights, times: number): number {
  if (e.kind === 'about') return aboutOdds(e.about, e.chosen, h)
  if (e.kind === 'one') {
    if (h.kind === 'none') return tempered(1 / e.answers.length, times)
    const odds = oddsUnder(e.answers, sights.values(h, e.history, e.observe), e.error)
    return tempered(odds[e.answers.findIndex((a) => a.id === e.chosen)] ?? 1 / e.answers.length, times)
  }
  const of = thingsIn(e)
  if (h.kind === 'none')
    return tempered(
      of.reduce((p, t) => p / (t.marks.length + 1), 1),
      times,
    )
  const seen = sights.values(
    h,
    e.history,
    of.map((t) => t.marks[0]?.observe ?? { what: 'lit', at: '' }),
  )
  const [broken, made] = seen
  const first = manyOdds(of, broken ?? [], e.error)
  if (!made) return tempered(first, times)
  const unsteadyChosen = of.some(
    (t, i) => t.chosen && UNSTEADY.includes(t.chosen.value) && broken?.[i] !== made[i],
  )
  const steady = BROKEN_SHARE * first + (1 - BROKEN_SHARE) * manyOdds(of, made, e.error)
  if (!unsteadyChosen) return tempered(steady, times)
  // What differs between the two sights may be told as unsteady; the rest must still fit.
  const asTold = of.map((t, i) =>
    t.chosen && UNSTEADY.includes(t.chosen.value) && broken?.[i] !== made[i]
      ? t.chosen.value
      : (broken?.[i] ?? null),
  )
  return tempered((1 - SAYS_UNSTEADY) * steady + SAYS_UNSTEADY * manyOdds(of, asTold, e.error), times)
}

/**
 * A look at a thing while nothing on the build has changed: the same question, or the thing's own look after a map on
 * which it was. A blade tried by hand with the mains off is another look than the fan seen turning.
 */
export function lookKey(o: Observable, history: readonly Edit[]): string {
  const power = history.findLast((edit) => edit.do === 'power')
  return `${observableKey(o)}, power ${power?.do === 'power' ? power.to : 'on'}, after ${changes(history)}`
}

const changes = (history: readonly Edit[]): number => history.filter((edit) => edit.do !== 'power').length

/** How often each piece repeats an earlier look with nothing changed on the build in between. */
export function repetitions(evidence: readonly Evidence[]): readonly number[] {
  const counts = new Map<string, number>()
  const count = (key: string): number => {
    const times = counts.get(key) ?? 0
    counts.set(key, times + 1)
    return times
  }
  return evidence.map((e) => {
    const only = e.kind === 'one' && e.observe.length === 1 ? e.observe[0] : undefined
    if (only) return count(lookKey(only, e.history))
    if (e.kind === 'many') for (const key of keysOf(e)) count(key)
    return count(`${e.id} after ${changes(e.history)}`)
  })
}

/** The looks that a map is made of. */
const keysOf = (e: Many): ReadonlySet<string> => new Set(e.marks.map((m) => lookKey(m.observe, e.history)))

/** Looks that were answered and would show the same again. */
export function answeredLooks(evidence: readonly Evidence[]): ReadonlySet<string> {
  return new Set(
    evidence.flatMap((e) =>
      e.kind === 'many'
        ? [...keysOf(e)]
        : e.kind === 'one'
          ? e.observe.map((o) => lookKey(o, e.history))
          : [],
    ),
  )
}
