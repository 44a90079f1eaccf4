/** A prompt as lines: what it takes, what to do or look at, the answers by number, and what may be said besides. */
import type { Ask, Prompt } from '../core/checks/prompt.ts'
import { powerUnknown } from '../job/power-unknown.ts'
import type { View } from '../job/view.ts'
import type { Language } from '../wording/language.ts'
import { answerIds } from './understand.ts'
import { things } from './understand-marks.ts'

type Kind = 'do' | 'one' | 'many'

/** How a prompt is answered. */
export const kindOf = (prompt: Prompt): Kind => (prompt.show === 'do' ? 'do' : prompt.many ? 'many' : 'one')

function stepLines(prompt: Prompt & { show: 'do' }, view: View, language: Language): string[] {
  const text = language.step(prompt, view)
  return [
    ...text.cautions.flatMap((c) => [`! ${c.title}.`, ...c.lines.map((l) => `  ${l}`)]),
    text.title,
    ...text.lines.map((l) => `  ${l}`),
    `  1. ${language.labels.done}`,
    ...(prompt.task === 'sign-off' ? [`  ${language.dialogue.signHow(view.who)}`] : []),
  ]
}

function questionLines(prompt: Prompt & { show: 'ask' }, view: View, language: Language): string[] {
  const text = language.question(prompt, view)
  return [
    ...(text.again ? [text.again] : []),
    text.title,
    ...text.hints.map((h) => `  ${h}`),
    ...(prompt.many ? thingLines(prompt, view, language) : answerLines(prompt, view, language)),
  ]
}

function answerLines(prompt: Ask, view: View, language: Language): string[] {
  const texts = answerIds(prompt).map((id) => language.answer(prompt, id, view))
  const [, ...once] = language.fullOnce([language.question(prompt, view).title, ...texts], view)
  return once.map((text, i) => `  ${i + 1}. ${text}`)
}

/** One line a thing; the ways in which it can be marked once for all, since they are the same for nearly all. */
function thingLines(prompt: Extract<Ask, { many: true }>, view: View, language: Language): string[] {
  const values = new Map(
    prompt.marks.map((m) => [m.value, language.value(m.observe, m.value, prompt.power, view)]),
  )
  const places = things(prompt.marks).flatMap(([mark]) => (mark ? [mark.observe.at] : []))
  return [
    ...language.rows(places, view).map(({ long }, i) => `  ${i + 1}. ${long}`),
    `  ${language.dialogue.markWords([...values])}`,
  ]
}

function headLine(view: View, prompt: Prompt, language: Language): string {
  const power = powerUnknown(view) ? null : prompt.show === 'do' ? view.power : prompt.power
  const left = view.suspects.length > 0 ? view.left : null
  return language.dialogue.head(view.trail.length + 1, power, prompt.hands, prompt.minutes, left)
}

/** The prompt with all that can be said to it; nothing where the job is over. */
export function promptLines(view: View, language: Language): string[] {
  const { prompt } = view
  if (prompt === null) return []
  return [
    headLine(view, prompt, language),
    ...(prompt.show === 'do' ? stepLines(prompt, view, language) : questionLines(prompt, view, language)),
    language.dialogue.ways(kindOf(prompt), view.canUndo),
  ]
}
