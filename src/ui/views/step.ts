/**
 * A thing to do: its actions numbered, its cautions in full the first time a job shows them and by their title after,
 * and below it the rows that say whether it is done.
 */
import type { Do } from '../../core/checks/prompt.ts'
import type { CautionText } from '../../wording/language.ts'
import { BLANK, type Line, paragraph, type Span, span } from '../text/line.ts'
import { type Model, marksOf, say, sayLines } from './model.ts'

/** Cautions that an earlier step of this job has shown already. */
function seenBefore(model: Model): ReadonlySet<string> {
  return new Set(
    model.view.trail.flatMap((e) => (e.prompt.show === 'do' && e.reply === 'done' ? e.prompt.cautions : [])),
  )
}

/** How power goes off stands point by point; every other caution is one run of text behind its title. */
function cautionLines(model: Model, step: Do, columns: number): Line[] {
  const seen = seenBefore(model)
  const marks = marksOf(model)
  return model.language.step(step, model.view).cautions.flatMap((c) => {
    const title = (): Line[] => sayLines(model, c.title, columns, 'strong', `${marks.warn} `)
    if (seen.has(c.id)) return title()
    if (step.purpose === 'gate' && c.lines.length > 2)
      return [
        ...title(),
        ...c.lines.flatMap((l) => sayLines(model, l, columns, 'plain', `  ${marks.bullet} `)),
      ]
    return runIn(model, `${marks.warn} `, c, columns)
  })
}

/** The title in strong letters, the sentences behind it on the same line. */
function runIn(model: Model, lead: string, { title, lines }: CautionText, columns: number): Line[] {
  const [head, text] = [say(model, `${title}.`), say(model, lines.join(' '))]
  return paragraph(`${head} ${text}`, columns, 'plain', lead).map((l, i) =>
    i > 0 ? l : l.flatMap((s): Line => emphasised(s, head)),
  )
}

function emphasised(piece: Span, head: string): Span[] {
  if (!piece.text.startsWith(head)) return [{ ...piece, tone: 'strong' }]
  return [span(head, 'strong'), span(piece.text.slice(head.length))]
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
