/** One place that can be marked: its number, its box, its name and, once it is marked, what the mark says. */
import type { Mark, Prompt } from '../../core/checks/prompt.ts'
import type { Language, RowName } from '../../wording/language.ts'
import { markOn, type Row, spotsOf } from '../state/rows.ts'
import { type Line, line, padLine, span } from '../text/line.ts'
import type { Marks } from '../text/marks.ts'
import { middleCut, width } from '../text/width.ts'
import { type Model, marksOf, say } from './model.ts'

export type SpotRow = Row & { readonly row: 'spot' }

/** The shape of a place's mark of that number, from 0. */
export const shapeOf = (marks: Marks, index: number): string =>
  index < 0 ? marks.unset : (marks.set[Math.min(index, marks.set.length - 1)] ?? '')

/** What a mark says, in few words. */
export function wayWords(model: Model, { observe, value }: Mark): string {
  const { view, words, language } = model
  const power = view.prompt?.power ?? view.power
  return say(model, words.mark.short(observe, value, power) ?? language.value(observe, value, power, view))
}

/** The mark in words; nothing while unmarked. */
export function markWords(model: Model, row: SpotRow): string {
  const mark = row.spot.marks[markOn(row, model.cursor.marked)]
  return mark ? wayWords(model, mark) : ''
}

interface Names {
  readonly language: Language
  readonly of: ReadonlyMap<string, RowName>
  /** More than one thing is looked at, so each row says which. */
  readonly mixed: boolean
}

/** Made once for a question: every cell of every frame asks for them. */
const names = new WeakMap<Prompt, Names>()

/** The names of all places that a question asks about. */
function rowNames({ view, language }: Model): Names {
  const { prompt } = view
  if (prompt === null) return { language, of: new Map(), mixed: false }
  const known = names.get(prompt)
  if (known?.language === language) return known
  const places = [...new Set(spotsOf(prompt).map(({ at }) => at))]
  const rows = language.rows(places, view)
  const of = new Map(rows.map((name, i) => [places[i] ?? '', name]))
  const mixed =
    prompt.show === 'ask' && prompt.many && new Set(prompt.marks.map((m) => m.observe.what)).size > 1
  const made = { language, of, mixed }
  names.set(prompt, made)
  return made
}

/** A place's name, with what is looked at where that differs from row to row. */
function nameIn(model: Model, { spot: { at, look } }: SpotRow, form: keyof RowName): string {
  const { of, mixed } = rowNames(model)
  const name = of.get(at)?.[form] ?? ''
  const word = mixed && look !== 'plug' ? model.words.mark.look[look] : undefined
  return say(model, word === undefined ? name : `${name} ${word}`)
}

/** `F2`, `pump P1`, `SYS1`; with what is looked at where a part has more than one row. */
export const shortName = (model: Model, row: SpotRow): string => nameIn(model, row, 'short')

/** `F2 (front-top)`. */
export const longName = (model: Model, row: SpotRow): string => nameIn(model, row, 'long')

/** Pointer, number, box and the blanks between, for so many rows; and one blank behind the cell. */
export const aroundName = (rows: number): number => 7 + String(rows).length

export interface CellPlace {
  /** What a digit goes to, of how many. */
  readonly number: number
  readonly of: number
  readonly columns: number
  readonly picked: boolean
  /** The same for all that stand together: `C1.fan1` and "fan socket 2 of C1" do not look like one thing. */
  readonly form: 'long' | 'short'
}

/** ` 2 [●] F2: dark`. The name is whole if it can be; a mark that has no room is told by its shape alone. */
export function spotCell(model: Model, row: SpotRow, place: CellPlace): Line {
  const { number, of, columns, picked } = place
  const marks = marksOf(model)
  const words = markWords(model, row)
  const room = columns - aroundName(of)
  const name = nameIn(model, row, place.form)
  const least = width(name) <= room ? name : nameIn(model, row, 'id')
  const whole = `${least}: ${words}`
  const text = words !== '' && width(whole) <= room ? whole : middleCut(least, room, marks.cut)
  const box = `[${shapeOf(marks, markOn(row, model.cursor.marked))}]`
  return padLine(
    line(
      span(picked ? marks.pointer : ' ', picked ? 'picked' : 'plain'),
      span(`${String(number).padStart(String(of).length)} `, picked ? 'picked' : 'dim'),
      span(`${box} ${text}`, picked ? 'picked' : words === '' ? 'plain' : 'strong'),
    ),
    columns,
  )
}
