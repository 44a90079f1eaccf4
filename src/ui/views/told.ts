/** What was told since the last reply: verdicts first, then remarks. Short ones stand above the question, long ones have a page. */
import { graveFindings } from '../../core/audit/grave.ts'
import type { Note, Verdict } from '../../core/checks/prompt.ts'
import { findingNote } from '../../job/drive/cross-check.ts'
import type { View } from '../../job/view.ts'
import { BLANK, type Line, type Tone } from '../text/line.ts'
import { type Model, marksOf, sayLines } from './model.ts'

const lineTexts = (model: Model, told: Note | Verdict): string[] =>
  told.show === 'verdict' ? model.language.verdict(told, model.view) : model.language.note(told, model.view)

/** The view that a screen opens with: what in the plan would do damage or cannot work is told before all else. */
export const withGrave = (view: View): View => ({
  ...view,
  told: [...graveFindings(view.findings).map(findingNote), ...view.told],
})

const damages = (told: Note | Verdict): boolean =>
  told.show === 'note' && told.kind === 'finding' && told.facts.severity === 'will-damage'

/** One remark; a caution bears the mark that it has at a step, and is never dimmed. */
function remark(model: Model, told: Note | Verdict, columns: number, usual: Tone): Line[] {
  const marks = marksOf(model)
  const verdict = told.show === 'verdict'
  const caution = (told.show === 'note' && told.kind === 'caution') || damages(told)
  const [first = '', ...rest] = lineTexts(model, told)
  const tone = caution ? 'plain' : usual
  const lead = verdict ? '' : `${caution ? marks.warn : marks.bullet} `
  return [
    ...sayLines(model, first, columns, verdict || caution ? 'strong' : tone, lead),
    ...rest.flatMap((text) => sayLines(model, text, columns, tone, verdict ? '' : '  ')),
  ]
}

/** Everything, one block a remark. */
export const toldLines = (model: Model, columns: number): Line[] =>
  model.view.told.flatMap((told, i) => [...(i > 0 ? [BLANK] : []), ...remark(model, told, columns, 'plain')])

/** The same without blank lines, for the room above a question. */
export const toldShort = (model: Model, columns: number): Line[] =>
  model.view.told.flatMap((told) => remark(model, told, columns, 'dim')).filter((l) => l.length > 0)

/** Explanations are among what is told. */
export const canFold = (view: View): boolean =>
  view.told.some((t) => t.show === 'note' && t.kind === 'expect')

/**
 * Whether it has to be read on a page of its own before the question: a verdict, answers at odds, what would do damage,
 * or more than fits above the question.
 */
export function toldNeedsPage(model: Model): boolean {
  const { told } = model.view
  if (told.length === 0) return false
  if (told.some((t) => t.show === 'verdict' || t.kind === 'conflict' || damages(t))) return true
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
