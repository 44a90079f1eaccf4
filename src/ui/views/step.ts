/**
 * A thing to do: its actions numbered, its cautions in full the first time a job shows them and by their title after,
 * and below it the rows that say whether it is done.
 */
import type { Do } from '../../core/checks/prompt.ts'
import { BLANK, type Line } from '../text/line.ts'
import { type Model, marksOf, sayLines } from './model.ts'

/** Cautions that an earlier step of this job has shown already. */
function seenBefore(model: Model): ReadonlySet<string> {
  return new Set(
    model.view.trail.flatMap((e) => (e.prompt.show === 'do' && e.reply === 'done' ? e.prompt.cautions : [])),
  )
}

function cautionLines(model: Model, step: Do, columns: number): Line[] {
  const seen = seenBefore(model)
  const marks = marksOf(model)
  return model.language.step(step, model.view).cautions.flatMap((c) => {
    const title = sayLines(model, c.title, columns, 'strong', `${marks.warn} `)
    if (seen.has(c.id)) return title
    return [...title, ...c.lines.flatMap((l) => sayLines(model, l, columns, 'plain', `  ${marks.bullet} `))]
  })
}

/** Actions and cautions, wrapped; the cautions first where hands go in, since they come before the work. */
export function stepLines(model: Model, step: Do, columns: number): Line[] {
  const { lines } = model.language.step(step, model.view)
  const actions = lines.flatMap((text, i) =>
    sayLines(model, text, columns, 'plain', lines.length > 1 ? `${i + 1}. ` : ''),
  )
  const cautions = cautionLines(model, step, columns)
  return cautions.length > 0 && actions.length > 0
    ? [...actions, BLANK, ...cautions]
    : [...actions, ...cautions]
}
