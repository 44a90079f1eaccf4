/**
 * The places of a question as a list, where the map of the case has no room or nothing to say: in columns side by side if
 * all can be seen that way, else one below the other around the highlighted one.
 */
import type { Facts } from '../state/facts.ts'
import { highlighted } from '../state/moves.ts'
import type { Row } from '../state/rows.ts'
import type { Line } from '../text/line.ts'
import type { Model } from './model.ts'
import { spotCell } from './spot-cell.ts'
import { aroundRow } from './window.ts'

/** Narrower than this a name and its mark are cut. */
const CELL = 25
/** Wider than this the eye loses the line. */
const ROW = 64

export interface SpotList {
  readonly lines: Line[]
  readonly map: Facts['map']
}

export function spotList(model: Model, rows: readonly Row[], columns: number, height: number): SpotList {
  const current = highlighted(model.cursor, rows)
  const cell = (row: Row, number: number, columns: number): Line =>
    row.row === 'spot'
      ? spotCell(model, row, { number, of: rows.length, columns, picked: row === current })
      : []
  if (rows.length <= height) {
    const lines = rows.map((row, i) => cell(row, i + 1, Math.min(columns, ROW)))
    return { lines, map: {} }
  }
  const beside = Math.floor(columns / CELL)
  const deep = Math.ceil(rows.length / Math.max(1, beside))
  if (beside < 2 || deep > height) {
    const blocks = rows.map((row, i) => [cell(row, i + 1, Math.min(columns, ROW))])
    return { lines: aroundRow(model, blocks, current ? rows.indexOf(current) : 0, height), map: {} }
  }
  const wide = Math.floor(columns / beside)
  const map = Object.fromEntries(
    rows.map((row, i) => [row.id, { x: Math.floor(i / deep) * wide, y: i % deep }]),
  )
  const lines = Array.from({ length: deep }, (_, y) =>
    Array.from({ length: beside }, (_, x) => {
      const at = x * deep + y
      const row = rows[at]
      return row ? cell(row, at + 1, wide) : []
    }).flat(),
  )
  return { lines, map }
}
