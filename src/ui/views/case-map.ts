/**
 * The case as a map: its places laid out as one sees them with the side panel off, rear to the left, front to the right.
 * Places are read from the words of `at` in the plan; what has none, or is not a part of the case, lies inside.
 */

import { highlighted } from '../state/moves.ts'
import { partOfRef, type Row } from '../state/rows.ts'
import { type Line, line, padLine, span } from '../text/line.ts'
import { width } from '../text/width.ts'
import { type Model, marksOf } from './model.ts'
import { spotCell } from './spot-cell.ts'

export type Zone = 'top' | 'rear' | 'middle' | 'front' | 'bottom'

/** Words that people write for a place, as whole words or as the first of several. */
const ZONES: readonly (readonly [Zone, RegExp])[] = [
  ['rear', /\b(?:rear|back|exhaust)/iu],
  ['front', /\b(?:front|intake)/iu],
  ['top', /\b(?:top|roof|upper|ceiling)/iu],
  ['bottom', /\b(?:bottom|floor|lower|base|shroud)/iu],
]

/** Where in the case a part sits, from the first word of its place that names one. */
export function zoneOf(at: string | undefined): Zone {
  if (!at) return 'middle'
  const words = at.replace(/[-_/,]+/g, ' ')
  const found = ZONES.map(([zone, word]) => ({ zone, at: words.search(word) })).filter((z) => z.at >= 0)
  found.sort((a, b) => a.at - b.at)
  return found[0]?.zone ?? 'middle'
}

/** Order within a zone: what is higher, further back or lower in number comes first. */
function order(at: string | undefined): number {
  const words = (at ?? '').replace(/[-_/,]+/g, ' ')
  const number = /\d+/.exec(words)
  const place = /\b(?:top|upper|rear|back|left)\b/iu.test(words.replace(/^\S+/, ''))
    ? 0
    : /\b(?:bottom|lower|front|right)\b/iu.test(words.replace(/^\S+/, ''))
      ? 200
      : 100
  return place + (number ? Number(number[0]) : 50)
}

interface Cell {
  readonly row: Row & { row: 'spot' }
  readonly zone: Zone
}

interface Place {
  readonly x: number
  readonly y: number
}

export interface CaseMap {
  readonly lines: Line[]
  readonly places: Readonly<Record<string, Place>>
}

function cellsOf(model: Model, rows: readonly Row[]): Cell[] {
  const { parts } = model.view.plan
  const cells = rows.flatMap((row) => {
    if (row.row !== 'spot') return []
    const at = parts.find((p) => p.id === partOfRef(row.spot.at))?.at
    return [{ row, zone: zoneOf(at), order: order(at) }]
  })
  return cells.map((c, i) => ({ ...c, i })).sort((a, b) => a.order - b.order || a.i - b.i)
}

/** Places beside each other, as many on a line as fit. */
function shelf(cells: readonly Cell[], columns: number, cell: number): Cell[][] {
  const perLine = Math.max(1, Math.floor(columns / cell))
  const rows: Cell[][] = []
  for (let i = 0; i < cells.length; i += perLine) rows.push(cells.slice(i, i + perLine))
  return rows
}

/**
 * The map within `columns` and `height`; undefined where it does not fit or where the places say nothing (all of them
 * inside), so that a list is better.
 */
export function caseMap(
  model: Model,
  rows: readonly Row[],
  columns: number,
  height: number,
): CaseMap | undefined {
  const cells = cellsOf(model, rows)
  const inZone = (zone: Zone) => cells.filter((c) => c.zone === zone)
  if (cells.length === 0 || inZone('middle').length === cells.length || columns < 56) return undefined
  const current = highlighted(model.cursor, rows)
  const inner = columns - 4
  const third = Math.floor((inner - 2) / 3)
  const lines: Line[] = []
  const places: Record<string, Place> = {}
  const marks = marksOf(model)
  const { box: b } = marks
  const edge = (left: string, right: string, title: string): Line => {
    const head = title === '' ? '' : ` ${title} `
    return line(
      span(`${left}${b.h}${head}${b.h.repeat(Math.max(0, columns - 3 - width(head)))}${right}`, 'dim'),
    )
  }
  const put = (groups: readonly (readonly Cell[])[], cellWidth: number): void => {
    const y = lines.length
    const spans = groups.flatMap((group, column) => {
      const text = group.flatMap((c, i) => {
        places[c.row.id] = { x: 1 + column * (cellWidth + 1) + i * cellWidth, y }
        return spotCell(model, c.row, rows.indexOf(c.row) + 1, cellWidth, c.row === current)
      })
      return padLine(text, cellWidth)
    })
    lines.push(line(span(`${b.v} `, 'dim'), ...padLine(spans, inner), span(` ${b.v}`, 'dim')))
  }
  const { zones } = model.words
  lines.push(edge(b.tl, b.tr, inZone('top').length > 0 ? zones.top : ''))
  for (const row of shelf(inZone('top'), inner, third))
    put(
      row.map((c) => [c]),
      third,
    )
  const [rear, middle, front] = [inZone('rear'), inZone('middle'), inZone('front')]
  const head = (text: string, on: boolean): Line => padLine(line(span(on ? text : '', 'dim')), third)
  if (rear.length + middle.length + front.length > 0) {
    const heads = [
      ...head(zones.rear, rear.length > 0),
      span(' '),
      ...head(zones.middle, middle.length > 0),
      span(' '),
      ...head(zones.front, front.length > 0),
    ]
    lines.push(line(span(`${b.v} `, 'dim'), ...padLine(heads, inner), span(` ${b.v}`, 'dim')))
    for (let i = 0; i < Math.max(rear.length, middle.length, front.length); i++)
      put([rear.slice(i, i + 1), middle.slice(i, i + 1), front.slice(i, i + 1)], third)
  }
  const bottom = inZone('bottom')
  if (bottom.length > 0) {
    lines.push(
      line(
        span(`${b.v} `, 'dim'),
        ...padLine(line(span(zones.bottom, 'dim')), inner),
        span(` ${b.v}`, 'dim'),
      ),
    )
    for (const row of shelf(bottom, inner, third))
      put(
        row.map((c) => [c]),
        third,
      )
  }
  lines.push(edge(b.bl, b.br, ''))
  return lines.length <= height ? { lines, places } : undefined
}
