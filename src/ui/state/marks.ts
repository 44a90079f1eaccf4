/** What Space and `a` do on a question with several marks. */
import type { What } from '../../core/bench/observable.ts'
import type { Mark } from '../../core/checks/prompt.ts'
import type { Cursor } from './cursor.ts'
import { highlighted } from './moves.ts'
import { markOn, type Row } from './rows.ts'

type SpotRow = Row & { row: 'spot' }

const isSpot = (row: Row): row is SpotRow => row.row === 'spot'

const put = (marks: Cursor['marked'], id: string, mark: Mark | undefined): Cursor['marked'] => {
  const { [id]: _, ...rest } = marks
  return mark === undefined ? rest : { ...rest, [id]: mark.id }
}

const nextOf = (row: SpotRow, marks: Cursor['marked']): Mark | undefined =>
  row.spot.marks[markOn(row, marks) + 1]

/** The next of a place's marks, after the last one none. */
export const marked = (cursor: Cursor, row: SpotRow): Cursor => ({
  ...cursor,
  row: row.id,
  marked: put(cursor.marked, row.id, nextOf(row, cursor.marked)),
})

const like = (row: SpotRow, what: What, value: string): Mark | undefined =>
  row.spot.marks.find((m) => m.observe.what === what && m.value === value)

/**
 * All like the highlighted one: those that are not marked yet get its mark (the first one where it has none). Where all
 * are marked already, all go on to its next mark together, after the last one to none. What was marked otherwise stays
 * until then, so that a slip of the finger loses nothing.
 */
export function allMarked(cursor: Cursor, rows: readonly Row[]): Cursor {
  const here = highlighted(cursor, rows)
  if (here === undefined || !isSpot(here)) return cursor
  const alike = rows.filter(isSpot).filter((row) => row.spot.look === here.spot.look)
  const own = here.spot.marks[markOn(here, cursor.marked)]
  // A plug cannot sit elsewhere in its own socket: who can't have that mark is not waited for.
  const canHave = (row: SpotRow): boolean =>
    own === undefined || like(row, own.observe.what, own.value) !== undefined
  const open = alike.filter((row) => cursor.marked[row.id] === undefined && canHave(row))
  const [to, which] =
    open.length === 0 ? [nextOf(here, cursor.marked), alike] : [own ?? here.spot.marks[0], open]
  const marks = which.reduce<Cursor['marked']>(
    (all, row) =>
      put(all, row.id, to && (like(row, to.observe.what, to.value) ?? (row === here ? to : undefined))),
    cursor.marked,
  )
  return { ...cursor, row: here.id, marked: marks }
}
