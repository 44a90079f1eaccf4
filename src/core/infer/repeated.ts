/**
 * The same look again. Who looks a second time at what has not changed says the same again with some chance whatever
 * it shows, because a mix-up or a misreading comes along; else it is a fresh look. So agreeing again adds little, and
 * two looks that differ cancel each other out: then it is for everything else to say which of them was the slip.
 */
import { type Edit, powerAfter } from '../bench/edit.ts'
import { type Observable, observableKey, type Value } from '../bench/observable.ts'
import type { Answer, Mark } from '../checks/prompt.ts'
import { type Evidence, thingsIn } from './evidence.ts'

/** How often a second look repeats the first, whatever there is to be seen (judgement). */
export const REPEATS_ITSELF = 0.5

/** What a look said of a thing: a value, or that it is none of those that could have been marked. */
export type Said = { readonly is: Value } | { readonly noneOf: readonly Value[] }

/**
 * A look at a thing while nothing on the build has changed: the same question, or the thing's own look after a map on
 * which it was. A blade tried by hand with the mains off is another look than the fan seen turning.
 */
export function lookKey(o: Observable, history: readonly Edit[]): string {
  return `${observableKey(o)}, power ${powerAfter(history)}, after ${changes(history)}`
}

const changes = (history: readonly Edit[]): number => history.filter((edit) => edit.do !== 'power').length

type Saying = readonly (readonly [string, Said])[]

const sayings = new WeakMap<Evidence, Saying>()

/** The looks that a piece of evidence is made of, each with what it said. */
function saidIn(e: Evidence): Saying {
  const known = sayings.get(e) ?? sayingOf(e)
  sayings.set(e, known)
  return known
}

function sayingOf(e: Evidence): Saying {
  switch (e.kind) {
    case 'about':
      return []
    case 'many':
      return thingsIn(e).map(({ marks, chosen, observe }) => [
        lookKey(observe, e.history),
        chosen ? { is: chosen.value } : { noneOf: marks.map((m) => m.value) },
      ])
    case 'one': {
      const [only, ...others] = e.observe
      // Of several things at once only the very same question is the same look.
      if (!only || others.length > 0) return [[`${e.id}, after ${changes(e.history)}`, { is: e.chosen }]]
      const value = e.answers.find((a) => a.id === e.chosen)?.means[0]
      return [[lookKey(only, e.history), value == null ? notNamed(e.answers) : { is: value }]]
    }
  }
}

const notNamed = (answers: readonly Answer[]): Said => ({
  noneOf: answers.flatMap((a) => a.means.filter((m) => m !== null)),
})

const befores = new WeakMap<Evidence, readonly (Said | undefined)[]>()

/**
 * By piece of evidence, thing by thing: what the same look said the last time; undefined where it is the first. The very
 * same list as the time before, where nothing has changed in it.
 */
export function saidBefore(evidence: readonly Evidence[]): readonly (readonly (Said | undefined)[])[] {
  const latest = new Map<string, Said>()
  return evidence.map((e) => {
    const now = saidIn(e)
    const before = now.map(([key]) => latest.get(key))
    for (const [key, said] of now) latest.set(key, said)
    const known = befores.get(e)
    if (known?.every((said, i) => said === before[i])) return known
    befores.set(e, before)
    return before
  })
}

const last = new WeakMap<readonly Evidence[], ReadonlyMap<string, Said>>()

/** What each look said last, by its key. */
export function saidLast(evidence: readonly Evidence[]): ReadonlyMap<string, Said> {
  const known = last.get(evidence) ?? new Map(evidence.flatMap(saidIn))
  last.set(evidence, known)
  return known
}

/** Whether two looks at one thing said the same. */
export function agree(a: Said, b: Said): boolean {
  if ('is' in a) return 'is' in b ? a.is === b.is : !b.noneOf.includes(a.is)
  return 'is' in b ? !a.noneOf.includes(b.is) : true
}

/**
 * The odds of options when the look was made before; `odds` where it was not, or where none of them says what it said.
 * @param says what each option would say of the thing
 */
export function oddsAgain(odds: Float64Array, before: Said | undefined, says: readonly Said[]): Float64Array {
  return before === undefined ? odds : odds.map(chanceAgain(before, says))
}

/** The same of one option after the other, by number. */
export function chanceAgain(
  before: Said | undefined,
  says: readonly Said[],
): (p: number, option: number) => number {
  if (before === undefined) return (p) => p
  const same = says.map((s) => agree(before, s))
  const count = same.filter(Boolean).length
  if (count === 0) return (p) => p
  return (p, option) => (same[option] ? REPEATS_ITSELF / count : 0) + (1 - REPEATS_ITSELF) * p
}

/** What each mark of a map says of its thing, and last what no mark says. */
export const saidByMarks = (marks: readonly Mark[]): readonly Said[] => [
  ...marks.map((m): Said => ({ is: m.value })),
  { noneOf: marks.map((m) => m.value) },
]

/** What each answer of a question says: of the one thing that it is about, else only itself, of all together. */
export const saidOf = (observe: readonly Observable[], answers: readonly Answer[]): readonly Said[] =>
  observe.length === 1 ? saidBy(answers) : answers.map((a): Said => ({ is: a.id }))

/** What each answer of a question about one thing says of it. */
export const saidBy = (answers: readonly Answer[]): readonly Said[] =>
  answers.map(({ means: [value] }) => (value == null ? notNamed(answers) : { is: value }))
