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
  readonly ascii: boolean
  readonly of: ReadonlyMap<string, RowName>
  /** Columns of the longest long name. */
  readonly widest: number
}

/** Made once for a question: every cell of every frame asks for them. */
const names = new WeakMap<Prompt, Names>()

/** The names of all places that a question asks about. */
function rowNames(model: Model): Names {
  const { view, language, ascii } = model
  const { prompt } = view
  if (prompt === null) return { language, ascii, of: new Map(), widest: 0 }
  const known = names.get(prompt)
  if (known?.language === language && known.ascii === ascii) return known
  const places = [...new Set(spotsOf(prompt).map(({ at }) => at))]
  const rows = language.rows(places, view)
  const of = new Map(rows.map((name, i) => [places[i] ?? '', name]))
  const widest = rows.reduce((most, { long }) => Math.max(most, width(say(model, long))), 0)
  const made = { language, ascii, of, widest }
  names.set(prompt, made)
  return made
}

/** `F2`, `pump P1`, `SYS1`; with what is looked at where a part has more than one row. */
export const shortName = (model: Model, row: SpotRow): string =>
  say(model, behind(model, rowNames(model).of.get(row.spot.at)?.short ?? '', row.spot.look))

/** `C1.fan1`: what tells it apart, without what it is. */
const idName = (model: Model, row: SpotRow): string =>
  say(model, behind(model, rowNames(model).of.get(row.spot.at)?.id ?? '', row.spot.look))

/** `F2 (front-top)`. */
export const longName = (model: Model, row: SpotRow): string =>
  say(model, behind(model, rowNames(model).of.get(row.spot.at)?.long ?? '', row.spot.look))

function behind(model: Model, name: string, look: string): string {
  const { prompt } = model.view
  const mixed =
    prompt?.show === 'ask' && prompt.many && new Set(prompt.marks.map((m) => m.observe.what)).size > 1
  const word = mixed ? model.words.mark.look[look] : undefined
  return word === undefined || look === 'plug' ? name : `${name} ${word}`
}

/** Pointer, number, box and the blanks between, for so many rows; and one blank behind the cell. */
export const aroundName = (rows: number): number => 7 + String(rows).length

export interface CellPlace {
  /** What a digit goes to, of how many. */
  readonly number: number
  readonly of: number
  readonly columns: number
  readonly picked: boolean
}

/** ` 2 [●] F2: dark`. The name is whole if it can be; a mark that has no room is told by its shape alone. */
export function spotCell(model: Model, row: SpotRow, place: CellPlace): Line {
  const { number, of, columns, picked } = place
  const marks = marksOf(model)
  const words = markWords(model, row)
  const room = columns - aroundName(of)
  const long = longName(model, row)
  // All of them in one form: the second row of a part leaves out what the first says.
  const allLong = room >= 31 && rowNames(model).widest <= room
  const short = shortName(model, row)
  const least = allLong && width(long) <= room ? long : width(short) <= room ? short : idName(model, row)
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
