/** The answers of a question as numbered rows, the highlighted one marked by a pointer and not by colour alone. */
import { highlighted } from '../state/moves.ts'
import type { Row } from '../state/rows.ts'
import { type Line, line, paragraph, span } from '../text/line.ts'
import { type Model, marksOf, say } from './model.ts'
import { longName } from './spot-cell.ts'

/** A row's own words. */
export function rowText(model: Model, row: Row): string {
  const { view, language, words } = model
  if (row.row === 'way') return view.prompt === null ? words.exit : words.ways[row.id]
  if (view.prompt?.show !== 'ask') return ''
  if (row.row === 'answer') return language.answer(view.prompt, row.answer, view)
  return longName(model, row)
}

/** The key that says the same as a row, if there is one. */
const KEY_OF: Readonly<Record<string, string>> = { unsure: 'c', cannot: 'x' }

/** Rows that a filter leaves: those with its text in their words, and the ways not to answer. */
export function filterRows(model: Model, rows: readonly Row[]): Row[] {
  const wanted = model.cursor.filter.trim().toLocaleLowerCase()
  if (wanted === '') return [...rows]
  return rows.filter((r) => r.row === 'way' || rowText(model, r).toLocaleLowerCase().includes(wanted))
}

/** What the filter of a list holds, while it is typed or holds anything. */
export function filterLine(model: Model): Line[] {
  const { filter, filtering } = model.cursor
  if (!filtering && filter === '') return []
  return [line(span(say(model, model.words.filter(filter)) + (filtering ? '_' : ''), 'strong'))]
}

/** One block of lines a row. */
export function answerRows(model: Model, rows: readonly Row[], columns: number): Line[][] {
  const marks = marksOf(model)
  const current = highlighted(model.cursor, rows)
  const digits = String(rows.length).length
  const { view, language } = model
  const asked = view.prompt?.show === 'ask' ? language.question(view.prompt, view).title : ''
  const [, ...texts] = language.fullOnce([asked, ...rows.map((row) => rowText(model, row))], view)
  return rows.map((row, i) => {
    const picked = row === current
    const key = KEY_OF[row.id]
    const lead = `${picked ? marks.pointer : ' '} ${String(i + 1).padStart(digits)}  `
    const text = `${say(model, texts[i] ?? '')}${key && view.prompt ? `  (${key})` : ''}`
    const tone = picked ? 'picked' : row.row === 'way' && row.id !== 'done' ? 'dim' : 'plain'
    return paragraph(text, columns - 1, tone, lead).map((l) => (picked ? line(...l, span(' ', 'picked')) : l))
  })
}
