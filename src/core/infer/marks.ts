/**
 * How probable the marks on a map are where this or that is seen of it. All suspects show most of a map alike, so what
 * is usual is worked out once, and of each suspect only what is otherwise.
 */
import type { Value } from '../bench/observable.ts'
import { type Many, optionOf, type Thing, thingsIn } from './evidence.ts'
import { chanceAgain, type Said, saidByMarks } from './repeated.ts'
import type { View } from './sights.ts'

type SaidBefore = readonly (Said | undefined)[]

/** Chance of the marks of all things, or of none, where this is seen. @param but other than in the view, by place */
type OddsOfMarks = (view: View, but?: ReadonlyMap<number, Value>) => number

const known = new WeakMap<Many, { readonly said: SaidBefore; readonly odds: OddsOfMarks }>()

/** @param said thing by thing, what the same look said before */
export function oddsOfMarks(e: Many, said: SaidBefore): OddsOfMarks {
  const before = known.get(e)
  if (before?.said === said) return before.odds
  const odds = oddsFor(thingsIn(e), e.error, said)
  known.set(e, { said, odds })
  return odds
}

function oddsFor(of: readonly Thing[], error: number, said: SaidBefore): OddsOfMarks {
  const again = of.map(({ marks }, i) => chanceAgain(said[i], saidByMarks(marks)))
  const fits = of.map((thing, i) => again[i]!(1 - error, optionOf(thing)))
  const fails = of.map((thing, i) => again[i]!(error / thing.marks.length, optionOf(thing)))
  const chance = (i: number, value: Value | null): number => {
    const { marks, chosen } = of[i]!
    return (marks.find((m) => m.value === value) === chosen ? fits : fails)[i]!
  }
  const usual = new Map<View['usual'], Float64Array>()
  return (view, but) => {
    const each = usual.get(view.usual) ?? Float64Array.from(view.usual, (value, i) => chance(i, value))
    usual.set(view.usual, each)
    // Put in for the time of one product: it goes over all things in their order, as if each had been worked out.
    for (const [i, value] of view.but) each[i] = chance(i, value)
    for (const [i, value] of but ?? []) each[i] = chance(i, value)
    const product = each.reduce((all, p) => all * p, 1)
    for (const i of view.but.keys()) each[i] = chance(i, view.usual[i]!)
    for (const i of but?.keys() ?? []) each[i] = chance(i, view.usual[i]!)
    return product
  }
}
