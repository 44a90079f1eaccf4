/** One place that can be marked: its number, its box, its name and, once it is marked, what the mark says. */
import type { Row, Spot } from '../state/rows.ts'
import { type Line, line, padLine, span } from '../text/line.ts'
import { middleCut, shortened, width } from '../text/width.ts'
import { type Model, marksOf, say } from './model.ts'

const markOf = (spot: Spot, marked: Readonly<Record<string, string>>) =>
  spot.marks.find((m) => m.id === marked[spot.at])

/** What stands in a cell's box: nothing, or the mark's shape; a second kind of mark has a shape of its own. */
function box(model: Model, spot: Spot): string {
  const marks = marksOf(model)
  const index = spot.marks.findIndex((m) => m.id === model.cursor.marked[spot.at])
  return `[${index < 0 ? marks.unset : index === 0 ? marks.set : marks.part}]`
}

/** The mark in words, short; nothing while unmarked. */
export function markWords(model: Model, spot: Spot): string {
  const mark = markOf(spot, model.cursor.marked)
  return mark ? say(model, model.language.value(mark.observe, mark.value, model.view.power, model.view)) : ''
}

/** With its place where there is room for it: `F2 (front-top)`, else `F2`. */
function named(model: Model, row: Row & { row: 'spot' }, columns: number): string {
  const long = model.language.ref(row.spot.at, model.view)
  return columns >= 40 && width(long) <= columns
    ? long
    : row.spot.at.replace(/^(?:board|headers|channels)[./]/, '')
}

/** ` 2 [●] F2: dark`, at most `columns` wide; `number` is what a digit goes to. */
export function spotCell(
  model: Model,
  row: Row & { row: 'spot' },
  number: number,
  columns: number,
  picked: boolean,
): Line {
  const marks = marksOf(model)
  const words = markWords(model, row.spot)
  const room = columns - 9
  const name = say(model, named(model, row, room))
  const left = room - width(name) - 2
  // The name whole and the beginning of the mark; the line above the map says it in full.
  const cut =
    words !== '' && left >= 4
      ? `${name}: ${shortened(words, left, marks.cut)}`
      : middleCut(name, room, marks.cut)
  return padLine(
    line(
      span(picked ? marks.pointer : ' ', picked ? 'picked' : 'plain'),
      span(`${String(number).padStart(2)} `, picked ? 'picked' : 'dim'),
      span(`${box(model, row.spot)} ${cut}`, picked ? 'picked' : words === '' ? 'plain' : 'strong'),
    ),
    columns,
  )
}
