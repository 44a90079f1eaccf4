/**
 * A part of something long: lines of text from a scroll position, or a list around its highlighted row. What lies
 * above and below is counted, so that nobody takes the part for the whole.
 */
import { BLANK, type Line, line, span } from '../text/line.ts'
import { type Model, marksOf, say } from './model.ts'

const moreLine = (model: Model, mark: string, count: number): Line =>
  line(span(`  ${mark} ${model.words.more(count)}`, 'dim'))

/** The same below a text that has to be read before one can go on: how, and not to be overlooked. */
const readLine = (model: Model, mark: string, count: number): Line => {
  const reads = model.cursor.mode === 'job' || model.cursor.mode === 'told'
  const more = model.words.more(count)
  return line(span(say(model, `  ${mark} ${reads ? model.words.readOn(more) : more}`), 'strong'))
}

/** How far a text of `length` lines can be scrolled in `height` lines, the mark line counted. */
export const scrollMax = (length: number, height: number): number =>
  length <= height ? 0 : Math.max(1, length - Math.max(1, height - 1))

/** `height` lines of a text from `scroll` on; the last line tells what is left, if anything is. */
export function scrolledLines(model: Model, lines: readonly Line[], height: number, scroll: number): Line[] {
  if (lines.length <= height) return [...lines]
  const seen = Math.max(1, height - 1)
  const from = Math.min(scroll, scrollMax(lines.length, height))
  const below = Math.max(0, lines.length - from - seen)
  const marks = marksOf(model)
  const foot = below > 0 ? readLine(model, marks.down, below) : moreLine(model, marks.up, from)
  return [...lines.slice(from, from + seen), ...(height > 1 ? [foot] : [])]
}

/** Which rows of so many lines each fit `room` lines around row `at`: first and last, whole rows only. */
export function rowsAround(
  lines: readonly number[],
  at: number,
  room: number,
): [first: number, last: number] {
  let first = Math.max(0, Math.min(at, lines.length - 1))
  let last = first
  let used = lines[first] ?? 0
  // Grow to both sides as long as whole rows fit, downwards first: the next answers matter as much as the last.
  for (let grown = true; grown; ) {
    grown = false
    const below = lines[last + 1]
    if (below !== undefined && used + below <= room) {
      used += below
      last++
      grown = true
    }
    const above = lines[first - 1]
    if (above !== undefined && used + above <= room) {
      used += above
      first--
      grown = true
    }
  }
  return [first, last]
}

/** Rows of one or more lines each, `height` lines around row `at`; whole rows only, unless one alone is too tall. */
export function aroundRow(
  model: Model,
  rows: readonly (readonly Line[])[],
  at: number,
  height: number,
): Line[] {
  const total = rows.reduce((sum, r) => sum + r.length, 0)
  if (total <= height) return rows.flat()
  const room = Math.max(1, height - 2)
  const [first, last] = rowsAround(
    rows.map((r) => r.length),
    at,
    room,
  )
  const marks = marksOf(model)
  const body = rows
    .slice(first, last + 1)
    .flat()
    .slice(0, room)
  const above = rows.slice(0, first).reduce((sum, r) => sum + r.length, 0)
  const below = rows.slice(last + 1).reduce((sum, r) => sum + r.length, 0)
  const lines = [
    above > 0 ? moreLine(model, marks.up, above) : BLANK,
    ...body,
    below > 0 ? moreLine(model, marks.down, below) : BLANK,
  ]
  return lines.slice(0, height)
}
