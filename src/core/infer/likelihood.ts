/**
 * How probable an answer is under a suspect: right with the chance that this look is right, else any of the other
 * answers alike. No answer of a person is impossible, so none rules a suspect out. What "none of these" foresees is told
 * in `unknown-cause`.
 */
import type { Value } from '../bench/observable.ts'
import type { Answer } from '../checks/prompt.ts'
import type { Family } from '../faults/fault.ts'
import { type Evidence, type Many, type One, observedIn, thingsIn } from './evidence.ts'
import type { Hypothesis } from './hypothesis.ts'
import { oddsOfMarks } from './marks.ts'
import { oddsAgain, type Said, saidOf } from './repeated.ts'
import { type Sights, seenIn } from './sights.ts'

type Tuple = readonly (Value | null)[]

/** How often a loose contact is broken at the moment of a look (judgement). */
const BROKEN_SHARE = 0.65
/** How often a person who looks at something unsteady says so (judgement). */
const SAYS_UNSTEADY = 0.3
const UNSTEADY: readonly string[] = ['flicker', 'erratic', 'comes-and-goes', 'doubtful']
/** A person's account of the past is wrong about one time in four (common practice, no source). */
const TOLD_SHARE = 0.75

const holds = (means: Tuple, values: Tuple): boolean => means.every((m, i) => m === null || m === values[i])

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

/**
 * P(this piece of evidence | suspect), up to a factor that is the same for all suspects.
 * @param said thing by thing, what the same look said before (see `saidBefore`)
 */
export function likelihood(
  e: Evidence,
  h: Hypothesis,
  sights: Sights,
  said: readonly (Said | undefined)[] = [],
): number {
  switch (e.kind) {
    case 'about':
      return aboutOdds(e.about, e.chosen, h)
    case 'one':
      return oneOdds(e, h, sights, said[0])
    case 'many':
      return mapOdds(e, h, sights, said)
  }
}

function oneOdds(e: One, h: Hypothesis, sights: Sights, said: Said | undefined): number {
  const fresh = oddsUnder(e.answers, sights.values(h, e.history, e.observe), e.error)
  const odds = oddsAgain(fresh, said, saidOf(e.observe, e.answers))
  return odds[e.answers.findIndex((a) => a.id === e.chosen)] ?? 1 / e.answers.length
}

function mapOdds(e: Many, h: Hypothesis, sights: Sights, said: readonly (Said | undefined)[]): number {
  const of = thingsIn(e)
  const [broken, made] = sights.views(h, e.history, observedIn(e))
  const odds = oddsOfMarks(e, said)
  if (!broken) return 1
  const first = odds(broken)
  if (!made) return first
  // What differs between the two sights may be told as unsteady; the rest must still fit.
  const steady = BROKEN_SHARE * first + (1 - BROKEN_SHARE) * odds(made)
  const unsteady = new Map<number, Value>()
  of.forEach(({ chosen }, i) => {
    if (chosen && UNSTEADY.includes(chosen.value) && seenIn(broken, i) !== seenIn(made, i))
      unsteady.set(i, chosen.value)
  })
  if (unsteady.size === 0) return steady
  return (1 - SAYS_UNSTEADY) * steady + SAYS_UNSTEADY * odds(broken, unsteady)
}
