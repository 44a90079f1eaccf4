/** What was seen, beside what the plan says should be seen; what differs is marked and said in words. */
import { seenAgainstPlan } from '../../job/seen.ts'
import type { Line } from '../text/line.ts'
import { type Model, marksOf, sayLines } from './model.ts'

export function expectedLines(model: Model, columns: number): Line[] {
  const { view, language, words } = model
  const marks = marksOf(model)
  const all = seenAgainstPlan(view.plan, view.trail)
  if (all.length === 0) return sayLines(model, words.seen.nothing, columns)
  return all.flatMap(({ observe, power, seen, planned }) => {
    const sighting = language.sighting(observe, seen, power, view)
    const lead = (differs: boolean): string => `${differs ? marks.warn : ' '} `
    if (planned === null) return sayLines(model, words.seen.open(sighting), columns, 'dim', lead(false))
    if (planned === seen) return sayLines(model, words.seen.same(sighting), columns, 'plain', lead(false))
    const should = language.value(observe, planned, power, view)
    return sayLines(model, words.seen.unlike(sighting, should), columns, 'strong', lead(true))
  })
}
