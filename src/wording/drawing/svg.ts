/**
 * The wiring drawn as SVG: the same rows as the text. Kinds of lead differ by width and dashes, so the drawing
 * survives a black-and-white printer.
 */

import type { Finding } from '../../core/audit/finding.ts'
import type { Line } from '../../core/audit/plug-order.ts'
import type { Plan } from '../../core/plan/plan.ts'
import { wrapped } from '../ascii.ts'
import { clean } from '../clean.ts'
import { type FindingWords, findingText } from '../findings.ts'
import { type Marked, UNMARKED } from './cause.ts'
import { type Row, rowsOf } from './rows.ts'
import { type DrawingWords, rowText } from './text.ts'

const STEP = 44
const ROW = 22
const LEFT = 20
const CHAR = 7.3
/** Room for the line between a header and the plug in it. */
const HEADED = 48
/** Longer findings go on in the next line. */
const MOST_CHARS = 110

const STYLE: Readonly<Record<Line, string>> = {
  supply: 'stroke-width="4"',
  motor: 'stroke-width="1.8"',
  light: 'stroke-width="1.8" stroke-dasharray="9 4"',
  usb: 'stroke-width="2.4" stroke-dasharray="2 4" stroke-linecap="round"',
}

const escaped = (text: string): string =>
  clean(text)
    .replaceAll('&', '&amp;')
    .replaceAll('<', '&lt;')
    .replaceAll('>', '&gt;')
    .replaceAll('"', '&quot;')

const text = (x: number, y: number, content: string, more = ''): string =>
  `<text x="${x}" y="${y}"${more}>${escaped(content)}</text>`

interface Placed {
  readonly row: Row
  readonly y: number
}

/** The marked way is a broad band behind the line, so it shows in black and white as well. */
const BAND = 'stroke="#f2b25c" stroke-width="10" stroke-opacity="0.55" stroke-linejoin="round"'

function strokes({ row, y }: Placed, placed: readonly Placed[], i: number, marked: Marked): string[] {
  if (row.depth === 0) {
    if (row.is !== 'lead') return []
    const start = LEFT + row.name.length * CHAR + 6
    const own = `M${Math.ceil(start)} ${y} H${Math.ceil(start) + HEADED - 12}`
    return [
      ...(marked.path.has(i) ? [`<path d="${own}" fill="none" ${BAND}/>`] : []),
      `<path d="${own}" fill="none" stroke="currentColor" ${STYLE[row.line ?? 'motor']}/>`,
    ]
  }
  const x = LEFT + (row.depth - 1) * STEP + 8
  const above = placed.slice(0, i)
  const parent = above.findLastIndex((p) => p.row.depth < row.depth)
  // From the last lead of the same part on, not from the part each time: dashes laid over dashes fill each other's gaps.
  const before = above.findLastIndex((p) => p.row.depth === row.depth)
  const from = before > parent ? (above[before]?.y ?? y) : (above[parent]?.y ?? y) + 6
  const style = STYLE[row.line ?? 'motor']
  const faint = row.is === 'empty' ? ' opacity="0.35"' : ''
  const way = `M${x} ${from} V${y} H${x + STEP - 12}`
  const whole = `M${x} ${(above[parent]?.y ?? y) + 6} V${y} H${x + STEP - 12}`
  return [
    ...(marked.path.has(i) ? [`<path d="${whole}" fill="none" ${BAND}/>`] : []),
    `<path d="${way}" fill="none" stroke="currentColor" ${style}${faint}/>`,
  ]
}

/** A whole SVG document. With `marked`, the place of a cause is boxed and the way there is broad. */
export function drawSvg(
  plan: Plan,
  findings: readonly Finding[],
  words: DrawingWords,
  findingWords: FindingWords,
  marked: Marked = UNMARKED,
): string {
  const placed = rowsOf(plan, findings).map((row, i): Placed => ({ row, y: 60 + i * ROW }))
  const said = findings.flatMap((finding, i) => {
    const { severity, says } = findingText(findingWords, finding, plan)
    return wrapped(`⚠ ${i + 1} ${severity}: ${says}`, MOST_CHARS, '\u00a0\u00a0\u00a0\u00a0')
  })
  const label = (row: Row): string =>
    row.is === 'lead' && row.depth > 0 ? `${row.name}: ${rowText(row, words)}` : rowText(row, words)
  /** Where the label begins: a header has its name and its line before it. */
  const startOf = (row: Row): number =>
    Math.ceil(
      LEFT + row.depth * STEP + (row.depth === 0 && row.is === 'lead' ? row.name.length * CHAR + HEADED : 0),
    )
  const after = 60 + placed.length * ROW + 20
  const height = after + 40 + said.length * ROW + 20
  const widest = Math.max(
    640,
    ...placed.map(({ row }) => startOf(row) + (label(row).length + 12) * CHAR),
    ...said.map((s) => LEFT + s.length * CHAR),
  )
  const drawn = placed.flatMap((p, i) => [
    ...strokes(p, placed, i, marked),
    ...(marked.here.has(i)
      ? [
          `<rect x="${startOf(p.row) - 5}" y="${p.y - 10}" width="${Math.ceil(label(p.row).length * CHAR + 10)}" height="19" rx="3" fill="#fff" stroke="#a63d00" stroke-width="2"/>`,
        ]
      : []),
    ...(p.row.depth === 0 && p.row.is === 'lead'
      ? [text(LEFT, p.y + 4, p.row.name, ' font-weight="bold"')]
      : []),
    text(
      startOf(p.row),
      p.y + 4,
      label(p.row),
      p.row.is === 'empty' ? ' opacity="0.6"' : p.row.is === 'source' ? ' font-weight="bold"' : '',
    ),
    ...(p.row.findings.length > 0
      ? [
          text(
            Math.ceil(startOf(p.row) + (label(p.row).length + 1) * CHAR),
            p.y + 4,
            `⚠ ${p.row.findings.join(' ')}`,
            ' font-weight="bold"',
          ),
        ]
      : []),
  ])
  const legend = (Object.keys(STYLE) as Line[]).flatMap((line, i) => {
    const x = LEFT + i * 150
    return [
      `<path d="M${x} ${after} H${x + 50}" fill="none" stroke="currentColor" ${STYLE[line]}/>`,
      text(x + 58, after + 4, words.lines[line]),
    ]
  })
  return [
    `<svg xmlns="http://www.w3.org/2000/svg" role="img" viewBox="0 0 ${Math.ceil(widest)} ${height}" width="${Math.ceil(widest)}" height="${height}" font-family="ui-monospace, monospace" font-size="12" color="#111" fill="#111">`,
    `<title>${escaped(plan.build)}</title>`,
    `<rect width="100%" height="100%" fill="#fff"/>`,
    text(LEFT, 32, plan.build, ' font-size="16" font-weight="bold"'),
    ...drawn,
    ...legend,
    ...said.map((s, i) => text(LEFT, after + 40 + i * ROW, s)),
    '</svg>',
  ].join('\n')
}
