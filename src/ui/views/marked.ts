/** Below the places that can be marked: what Space goes through there, and what Enter would record now. */
import { highlighted } from '../state/moves.ts'
import { markOn, type Row } from '../state/rows.ts'
import { type Line, line, span } from '../text/line.ts'
import { shortened, width } from '../text/width.ts'
import { type Model, marksOf, say, sayLines } from './model.ts'
import { markWords, type SpotRow, shapeOf, shortName, wayWords } from './spot-cell.ts'

const MOST_CYCLE = 2

/** `Space: ● dark, ◐ in part, then no mark`, for the highlighted place, as many as have room; nothing where there is only one way. */
function cycleLines(model: Model, rows: readonly Row[], columns: number): Line[] {
  const here = highlighted(model.cursor, rows)
  if (here?.row !== 'spot' || here.spot.marks.length < 2) return []
  const marks = marksOf(model)
  const ways = here.spot.marks.map((mark, i) => `${shapeOf(marks, i)} ${wayWords(model, mark)}`)
  const shown = (count: number): Line[] => {
    const some = count < ways.length ? [...ways.slice(0, count), marks.cut] : ways
    return sayLines(model, model.words.mark.cycle(some), columns, 'dim')
  }
  let count = ways.length
  while (count > 1 && shown(count).length > MOST_CYCLE) count--
  return shown(count).slice(0, MOST_CYCLE)
}

const isMarked = (model: Model, row: Row): row is SpotRow =>
  row.row === 'spot' && markOn(row, model.cursor.marked) >= 0

/** Always one line, so that nothing moves when the first mark is set; all marks count, a filter or not. */
function recordLine(model: Model, all: readonly Row[], columns: number): Line {
  const words = model.words.mark
  const set = all.filter((row) => isMarked(model, row))
  if (set.length === 0)
    return line(span(shortened(say(model, words.none), columns, marksOf(model).cut), 'dim'))
  const byName = set.map((row) => words.one(shortName(model, row), markWords(model, row)))
  const text = say(model, words.records(set.length, byName))
  if (width(text) <= columns) return line(span(text, 'strong'))
  const counts = new Map<string, number>()
  for (const row of set) counts.set(markWords(model, row), (counts.get(markWords(model, row)) ?? 0) + 1)
  const byWay = [...counts].map(([way, n]) => (counts.size === 1 ? way : words.several(n, way)))
  return line(
    span(shortened(say(model, words.records(set.length, byWay)), columns, marksOf(model).cut), 'strong'),
  )
}

/** @param shown rows that a filter leaves  @param all every row of the question */
export const markLines = (
  model: Model,
  shown: readonly Row[],
  all: readonly Row[],
  columns: number,
): Line[] => [...cycleLines(model, shown, columns), recordLine(model, all, columns)]
