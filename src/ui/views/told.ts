/** What was told since the last reply: verdicts first, then remarks. Short ones stand above the question, long ones have a page. */
import type { Note, Verdict } from '../../core/checks/prompt.ts'
import type { View } from '../../job/view.ts'
import { BLANK, type Line } from '../text/line.ts'
import { type Model, marksOf, sayLines } from './model.ts'

const lineTexts = (model: Model, told: Note | Verdict): string[] =>
  told.show === 'verdict' ? model.language.verdict(told, model.view) : model.language.note(told, model.view)

/** Everything, one block a remark. */
export function toldLines(model: Model, columns: number): Line[] {
  const marks = marksOf(model)
  return model.view.told.flatMap((told, i) => {
    const [first = '', ...rest] = lineTexts(model, told)
    const verdict = told.show === 'verdict'
    return [
      ...(i > 0 ? [BLANK] : []),
      ...sayLines(model, first, columns, verdict ? 'strong' : 'plain', verdict ? '' : `${marks.bullet} `),
      ...rest.flatMap((text) => sayLines(model, text, columns, 'plain', verdict ? '' : '  ')),
    ]
  })
}

/** The same without blank lines, for the room above a question. */
export const toldShort = (model: Model, columns: number): Line[] =>
  toldLines(model, columns)
    .filter((l) => l.length > 0)
    .map((l) => l.map((s) => (s.tone === 'plain' ? { ...s, tone: 'dim' as const } : s)))

/** Explanations are among what is told. */
export const canFold = (view: View): boolean =>
  view.told.some((t) => t.show === 'note' && t.kind === 'expect')

/**
 * Whether it has to be read on a page of its own before the question: a verdict, answers at odds, or more than fits
 * above the question.
 */
export function toldNeedsPage(model: Model): boolean {
  const { told } = model.view
  if (told.length === 0) return false
  if (told.some((t) => t.show === 'verdict' || t.kind === 'conflict')) return true
  return toldShort(model, model.size.columns - 2).length > Math.max(3, Math.floor(model.size.rows / 5))
}

/**
 * Before a question, all that was told. Before something to do only what is new; and what is to be seen at a point of the
 * first boot only where it is to be seen from the first second.
 */
export function hasToRead({ prompt, told }: View, known: View['told']): boolean {
  if (prompt?.show !== 'do' || prompt.task === 'first-on') return true
  return told.some((t) => !known.includes(t) && !(t.show === 'note' && t.kind === 'expect'))
}
