/** The column at the right of a wide screen: who is suspected, what is changed for now, what was done last. */
import { BLANK, beside, type Line, line, span } from '../text/line.ts'
import { type Model, marksOf, say, sayLines } from './model.ts'

/** `2/5` of a bar of ten, beside the figure that says the same. */
function bar(model: Model, p: number): string {
  const marks = marksOf(model)
  const full = Math.round(Math.max(0, Math.min(1, p)) * 10)
  return marks.full.repeat(full) + marks.empty.repeat(10 - full)
}

function suspectLines(model: Model, columns: number, most: number): Line[] {
  const { view, language, words } = model
  if (view.suspects.length === 0) return [line(span(say(model, words.noSuspects), 'dim'))]
  return view.suspects
    .slice(0, most)
    .flatMap((s) => [
      ...sayLines(model, language.suspect(s, view), columns),
      line(span(`  ${bar(model, s.p)} ${say(model, language.labels.percent(s.p))}`, 'dim')),
    ])
}

/** The body with the column beside it. */
export function sidePanel(
  model: Model,
  body: readonly Line[],
  columns: number,
  side: number,
  height: number,
): Line[] {
  const { view, language, words } = model
  const head = (text: string): Line => line(span(say(model, text), 'strong'))
  const suspects = [head(words.suspects), ...suspectLines(model, side, height > 30 ? 8 : 5)]
  const changed =
    view.inForce.length > 0
      ? [
          BLANK,
          head(words.stillChanged),
          ...view.inForce.flatMap((e) => sayLines(model, language.edit(e, view), side, 'plain', '  ')),
        ]
      : []
  const room = height - suspects.length - changed.length - 2
  const past = view.trail
    .filter((e) => !e.undone)
    .flatMap((e) => sayLines(model, language.trail(e, view), side, 'dim'))
  const trail = room >= 3 && past.length > 0 ? [BLANK, head(words.head.trail), ...past.slice(-room)] : []
  const right = [...suspects, ...changed, ...trail].slice(0, height)
  const filled = [...body, ...Array.from({ length: Math.max(0, height - body.length) }, () => BLANK)]
  return beside(filled, right, columns, ` ${marksOf(model).bar} `)
}
