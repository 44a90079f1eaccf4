/**
 * The case as a map: its places laid out as one sees them with the side panel off, rear to the left, front to the right.
 * Places are read from the words of `at` in the plan; what has none, or is not a part of the case, lies inside. Where anything
 * is asked about that is not looked at in its place, such as a speed, there is no map.
 */

import { highlighted } from '../state/moves.ts'
import { type Look, partOfRef, type Row } from '../state/rows.ts'
import { type Line, line, padLine, span } from '../text/line.ts'
import { width } from '../text/width.ts'
import { type Model, marksOf } from './model.ts'
import { aroundName, shortName, spotCell, wayWords } from './spot-cell.ts'

export type Zone = 'top' | 'rear' | 'middle' | 'front' | 'bottom'

/** Words that people write for a place, as whole words or as the first of several. */
const ZONES: readonly (readonly [Zone, RegExp])[] = [
  ['rear', /\b(?:rear|back|exhaust)/iu],
  ['front', /\b(?:front|intake)/iu],
  ['top', /\b(?:top|roof|upper|ceiling)/iu],
  ['bottom', /\b(?:bottom|floor|lower|base|shroud)/iu],
]

/** Where in the case a part sits, from the first word of its place that names one. */
function zoneOf(at: string | undefined): Zone {
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

/** Looked at where it lies in the case; a speed or an alarm is read on a screen, and a channel has no one place. */
const IN_PLACE: ReadonlySet<Look> = new Set(['spins', 'steady', 'lit', 'flickers', 'shows', 'plug'])

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

const MIDDLE = ['rear', 'middle', 'front'] as const

/**
 * Widths of the cells: of roof and floor one, of rear, inside and front one each. All names whole, and the words of every
 * mark too where there is room for them; undefined where not even the names fit, so that a list is better.
 */
function columnWidths(
  model: Model,
  cells: readonly Cell[],
  of: number,
  inner: number,
): { readonly shelf: number; readonly middle: readonly number[] } | undefined {
  const need = (cell: Cell, words: boolean): number => {
    const ways = words ? cell.row.spot.marks.map((m) => width(wayWords(model, m)) + 2) : [0]
    return aroundName(of) + width(shortName(model, cell.row)) + Math.max(...ways)
  }
  const most = (zones: readonly Zone[], words: boolean): number =>
    Math.max(0, ...cells.filter((c) => zones.includes(c.zone)).map((c) => need(c, words)))
  const fits = (words: boolean) => {
    const least = MIDDLE.map((zone) => most([zone], words))
    const slack = inner - (MIDDLE.length - 1) - least.reduce((sum, w) => sum + w, 0)
    const shelf = most(['top', 'bottom'], words)
    if (slack < 0 || shelf > inner) return undefined
    const each = Math.floor(slack / MIDDLE.length)
    return { shelf: Math.max(shelf, Math.floor((inner - 2) / 3)), middle: least.map((w) => w + each) }
  }
  return fits(true) ?? fits(false)
}

/**
 * The map within `columns` and `height`; undefined where it does not fit or where the places say nothing (all of them
 * inside, or not what one looks at), so that a list is better.
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
  if (cells.some(({ row }) => !IN_PLACE.has(row.spot.look))) return undefined
  const widths = columnWidths(model, cells, rows.length, columns - 4)
  if (widths === undefined) return undefined
  const current = highlighted(model.cursor, rows)
  const inner = columns - 4
  const lines: Line[] = []
  const places: Record<string, Place> = {}
  const { box: b } = marksOf(model)
  const edge = (left: string, right: string, title: string): Line => {
    const head = title === '' ? '' : ` ${title} `
    const rest = b.h.repeat(Math.max(0, columns - 3 - width(head)))
    return line(span(left + b.h, 'dim'), span(head), span(rest + right, 'dim'))
  }
  const framed = (l: Line): void =>
    void lines.push(line(span(`${b.v} `, 'dim'), ...padLine(l, inner), span(` ${b.v}`, 'dim')))
  /** Cells beside each other; a place without one stays empty. */
  const put = (groups: readonly (Cell | undefined)[], wide: readonly number[]): void => {
    let x = 1
    const spans = groups.flatMap((cell, i) => {
      const room = wide[i] ?? 0
      const at = x
      x += room + 1
      if (!cell) return padLine([], i < groups.length - 1 ? room + 1 : room)
      places[cell.row.id] = { x: at, y: lines.length }
      const number = rows.indexOf(cell.row) + 1
      const picked = cell.row === current
      return [
        ...spotCell(model, cell.row, { number, of: rows.length, columns: room, picked, form: 'short' }),
        span(i < groups.length - 1 ? ' ' : ''),
      ]
    })
    framed(spans)
  }
  /** Roof and floor: as many beside each other as fit. */
  const shelf = (zone: readonly Cell[], wide: number): void => {
    const beside = Math.max(1, Math.floor((inner + 1) / (wide + 1)))
    for (let i = 0; i < zone.length; i += beside)
      put(
        zone.slice(i, i + beside),
        Array.from({ length: beside }, () => wide),
      )
  }
  const { zones } = model.words
  lines.push(edge(b.tl, b.tr, inZone('top').length > 0 ? zones.top : ''))
  shelf(inZone('top'), widths.shelf)
  const between = MIDDLE.map(inZone)
  const deep = Math.max(...between.map((zone) => zone.length))
  const heads = MIDDLE.flatMap((zone, i) => {
    const head = line(span((between[i]?.length ?? 0) > 0 ? zones[zone] : '', 'dim'))
    return [...padLine(head, widths.middle[i] ?? 0), span(i < MIDDLE.length - 1 ? ' ' : '')]
  })
  if (deep > 0) framed(heads)
  for (let i = 0; i < deep; i++)
    put(
      between.map((zone) => zone[i]),
      widths.middle,
    )
  const bottom = inZone('bottom')
  if (bottom.length > 0) framed(line(span(zones.bottom, 'dim')))
  shelf(bottom, widths.shelf)
  lines.push(edge(b.bl, b.br, ''))
  return lines.length <= height ? { lines, places } : undefined
}
