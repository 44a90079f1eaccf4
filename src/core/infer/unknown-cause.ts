/**
 * What "none of these" foresees. An unknown cause leaves a share of all things as they would be without it and shows
 * anything at the others, each value alike. It keeps to that whatever is done to the build, or shows something anew at each
 * look. How much it leaves as usual and which of the two it does is not known: each way is followed, weighted by how
 * well it foresaw the answers so far, so that the product over all answers is the mean of the products (the chain rule of
 * probability). What a thing keeps to is a hidden state of its own, weighted by the answers about it in the same way.
 */
import { type Edit, powerAfter } from '../bench/edit.ts'
import { type Observable, observableKey, type Value } from '../bench/observable.ts'
import type { Answer } from '../checks/prompt.ts'
import { type Evidence, type Many, type One, observedIn, optionOf, thingsIn } from './evidence.ts'
import { HEALTHY, type Hypothesis } from './hypothesis.ts'
import { answerOdds, likelihood } from './likelihood.ts'
import { agree, chanceAgain, type Said, saidBefore, saidByMarks, saidOf } from './repeated.ts'
import type { Sights } from './sights.ts'

type Tuple = readonly (Value | null)[]

/** It may leave much or little as usual, and keep to it or not; all are equally likely at first (judgement). */
const WAYS = [0.5, 0.9].flatMap((usual) => [true, false].map((keeps) => ({ usual, keeps })))

/** A look at a thing, or at several of which only all together are told. */
interface Look {
  /** What is looked at, with the mains on or off. */
  readonly key: string
  /** What each option says of it. */
  readonly says: readonly Said[]
  /** P(option) where it is as usual. */
  readonly usual: Float64Array
  readonly error: number
}

/** What a thing may show, as usual first, and by way how likely each is. */
interface State {
  readonly values: readonly Said[]
  readonly odds: readonly Float64Array[]
}

export interface UnknownCause {
  /** P(evidence | an unknown cause and all evidence before), by piece of evidence. */
  readonly column: readonly number[]
  /** P(each answer) of one more look, if it is not the same look again. @param healthy what is seen with no fault */
  foresee(
    observe: readonly Observable[],
    history: readonly Edit[],
    answers: readonly Answer[],
    healthy: Tuple,
    error: number,
  ): Float64Array
}

const sum = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0)

const keyOf = (observe: readonly Observable[], history: readonly Edit[]): string =>
  `${observe.map(observableKey).join('; ')}, power ${powerAfter(history)}`

/** P(an option | a thing keeps to a value). */
function keptChance(value: Said, { says, error }: Look, option: number): number {
  const count = says.reduce((n, s) => (agree(value, s) ? n + 1 : n), 0)
  if (count === 0 || count === says.length) return 1 / says.length
  return agree(value, says[option]!) ? (1 - error) / count : error / (says.length - count)
}

const stateAtFirst = (values: readonly Said[]): State => ({
  values,
  odds: WAYS.map(({ usual }) => {
    const odds = new Float64Array(values.length + 1).fill((1 - usual) / values.length)
    odds[0] = usual
    return odds
  }),
})

/** P(an option | state), by state. */
const underEach = (look: Look, { values }: State, option: number): readonly number[] => [
  look.usual[option]!,
  ...values.map((value) => keptChance(value, look, option)),
]

/** P(an option), by way. */
const byWay = (under: readonly number[], { odds }: State): readonly number[] =>
  odds.map((p) => under.reduce((total, chance, s) => total + p[s]! * chance, 0))

const asked = (observe: readonly Observable[], history: readonly Edit[], answers: readonly Answer[]) => ({
  key: keyOf(observe, history),
  says: saidOf(observe, answers),
})

/** The looks of a piece of evidence, each with the option that was chosen. */
function looksOf(e: One | Many, sights: Sights): readonly (readonly [Look, number])[] {
  if (e.kind === 'one') {
    const [healthy = []] = sights.values(HEALTHY, e.history, e.observe)
    const usual = answerOdds(e.answers, healthy, e.error)
    const option = e.answers.findIndex((a) => a.id === e.chosen)
    return [[{ ...asked(e.observe, e.history, e.answers), usual, error: e.error }, option]]
  }
  const [healthy = []] = sights.values(HEALTHY, e.history, observedIn(e))
  return thingsIn(e).map((thing, i) => {
    const { observe, marks } = thing
    const at = marks.findIndex((m) => m.value === healthy[i])
    const usual = new Float64Array(marks.length + 1).fill(e.error / marks.length)
    usual[at < 0 ? marks.length : at] = 1 - e.error
    const look = { key: keyOf([observe], e.history), says: saidByMarks(marks), usual, error: e.error }
    return [look, optionOf(thing)]
  })
}

function follow(evidence: readonly Evidence[], none: Hypothesis, sights: Sights): UnknownCause {
  const said = saidBefore(evidence)
  const states = new Map<string, State>()
  const stateOf = ({ key, says }: Look): State => states.get(key) ?? stateAtFirst(says)
  let weights: readonly number[] = WAYS.map(() => 1 / WAYS.length)

  /** P(what was chosen), by way; what it tells of the thing is kept. */
  function take(look: Look, option: number, before: Said | undefined): readonly number[] {
    if (option < 0) return WAYS.map(() => 1 / look.says.length)
    const state = stateOf(look)
    const again = chanceAgain(before, look.says)
    const under = underEach(look, state, option).map((p) => again(p, option))
    const chance = byWay(under, state)
    const odds = state.odds.map((p, w) =>
      WAYS[w]!.keeps ? p.map((share, s) => (share * under[s]!) / chance[w]!) : p,
    )
    states.set(look.key, { values: state.values, odds })
    return chance
  }

  const column = evidence.map((e, i) => {
    if (e.kind === 'about') return likelihood(e, none, sights)
    const chances = looksOf(e, sights).map(([look, option], t) => take(look, option, said[i]?.[t]))
    const joint = weights.map((weight, w) => chances.reduce((p, chance) => p * chance[w]!, weight))
    const foreseen = sum(joint)
    if (foreseen > 0) weights = joint.map((p) => p / foreseen)
    return foreseen
  })
  return {
    column,
    foresee: (observe, history, answers, healthy, error) => {
      const look = { ...asked(observe, history, answers), usual: answerOdds(answers, healthy, error), error }
      const state = stateOf(look)
      return Float64Array.from(answers, (_, option) =>
        byWay(underEach(look, state, option), state).reduce((p, chance, w) => p + weights[w]! * chance, 0),
      )
    },
  }
}

const followed = new WeakMap<readonly Evidence[], UnknownCause>()

/** The unknown cause as it stands after all answers. */
export function unknownAfter(evidence: readonly Evidence[], none: Hypothesis, sights: Sights): UnknownCause {
  const known = followed.get(evidence) ?? follow(evidence, none, sights)
  followed.set(evidence, known)
  return known
}
