/**
 * The places of a question as a list, where the map of the case has no room or nothing to say: in columns side by side if
 * all can be seen that way, else one below the other around the highlighted one.
 */
import type { Facts } from '../state/facts.ts'
import { highlighted } from '../state/moves.ts'
import type { Row } from '../state/rows.ts'
import type { Line } from '../text/line.ts'
import { width } from '../text/width.ts'
import type { Model } from './model.ts'
import { aroundName, longName, spotCell } from './spot-cell.ts'
import { aroundRow } from './window.ts'

/** Narrower than this a name and its mark are cut. */
const CELL = 25

export interface SpotList {
  readonly lines: Line[]
  readonly map: Facts['map']
}

export function spotList(model: Model, rows: readonly Row[], columns: number, height: number): SpotList {
  const current = highlighted(model.cursor, rows)
  const of = rows.length
  const cell = (row: Row, number: number, columns: number, form: 'long' | 'short'): Line =>
    row.row === 'spot' ? spotCell(model, row, { number, of, columns, picked: row === current, form }) : []
  const below = (): Line[] => {
    const room = columns - aroundName(of)
    const long = rows.every((row) => row.row !== 'spot' || width(longName(model, row)) <= room)
    return rows.map((row, i) => cell(row, i + 1, columns, long ? 'long' : 'short'))
  }
  if (rows.length <= height) return { lines: below(), map: {} }
  const beside = Math.floor(columns / CELL)
  const deep = Math.ceil(rows.length / Math.max(1, beside))
  if (beside < 2 || deep > height) {
    const blocks = below().map((row) => [row])
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
      return row ? cell(row, at + 1, wide, 'short') : []
    }).flat(),
  )
  return { lines, map }
}
