/** The wiring drawn as text. Each kind of lead has its own line, in ASCII as well; numbers lead to the findings. */

import type { Finding } from '../../core/audit/finding.ts'
import type { Line } from '../../core/audit/plug-order.ts'
import type { Plan } from '../../core/plan/plan.ts'
import { asAscii, wrapped } from '../ascii.ts'
import { clean, cleanName } from '../clean.ts'
import { type FindingWords, findingText } from '../findings.ts'
import { type Row, rowsOf } from './rows.ts'

export interface DrawingWords {
  readonly lines: Readonly<Record<Line, string>>
  readonly kinds: Readonly<Record<string, string>>
  readonly empty: string
  readonly loose: string
  readonly under: (plug: string) => string
  readonly findings: string
  readonly legend: string
  readonly sheet: {
    readonly title: (build: string) => string
    readonly about: readonly string[]
    readonly columns: Readonly<Record<'n' | 'from' | 'to' | 'mm' | 'label' | 'done', string>>
    readonly steps: Readonly<Record<Line, string>>
    readonly length: (mm: number) => string
  }
}

interface Pen {
  readonly lines: Readonly<Record<Line, string>>
  readonly tee: string
  readonly last: string
  readonly bar: string
}

const UNICODE: Pen = {
  lines: { supply: '═══', motor: '───', light: '╌╌╌', usb: '┅┅┅' },
  tee: '├',
  last: '└',
  bar: '│',
}
const ASCII: Pen = {
  lines: { supply: '===', motor: '---', light: '...', usb: '~~~' },
  tee: '+',
  last: '`',
  bar: '|',
}

/** The text of a row behind its lines. */
export function rowText(row: Row, words: DrawingWords): string {
  const { part, plug } = row
  const kind = part
    ? ` ${words.kinds[part.kind] ?? part.kind}${part.at ? `, ${cleanName(part.at)}` : ''}`
    : ''
  if (row.is === 'empty') return `${row.name} (${words.empty})`
  if (row.is === 'part') return `${row.name}${kind} (${words.loose})`
  if (row.is === 'source' || plug === undefined) return row.name
  return `${plug}${kind}${row.under ? ` (${words.under(row.under)})` : ''}`
}

const marksText = (row: Row): string => (row.findings.length > 0 ? `  ⚠ ${row.findings.join(' ')}` : '')

/** One row, broken between words where it is too long; the bars of what follows run on through the rest of it. */
function rowLines(row: Row, next: Row | undefined, words: DrawingWords, pen: Pen, width: number): string[] {
  const bar = (more: boolean): string => (more ? `${pen.bar}    ` : '     ')
  const above = row.more.slice(1, -1).map(bar).join('')
  const fork = row.depth === 0 ? '' : `${row.more.at(-1) ? pen.tee : pen.last} `
  const stroke = row.is === 'lead' && row.line ? `${row.name} ${pen.lines[row.line]} ` : ''
  const whole = `${above}${fork}${stroke}${rowText(row, words)}${marksText(row)}`
  if (whole.length <= width) return [whole]
  const onward = (next?.depth ?? 0) > row.depth ? pen.bar : ' '
  const under = `${above}${row.depth === 0 ? '' : bar(row.more.at(-1) ?? false)}${onward}   `
  const head = `${above}${fork}`
  return wrapped(whole.slice(head.length), Math.max(20, width - under.length)).map((line, i) =>
    i === 0 ? head + line : under + line.trimStart(),
  )
}

/** @param width columns; everything is broken at it between words */
export function drawText(
  plan: Plan,
  findings: readonly Finding[],
  words: DrawingWords,
  findingWords: FindingWords,
  options: { readonly ascii: boolean; readonly width: number },
): string[] {
  const pen = options.ascii ? ASCII : UNICODE
  const lines = [clean(plan.build), '']
  const rows = rowsOf(plan, findings)
  for (const [i, row] of rows.entries()) lines.push(...rowLines(row, rows[i + 1], words, pen, options.width))
  const used = (['supply', 'motor', 'light', 'usb'] as const).map(
    (line) => `${pen.lines[line]} ${words.lines[line]}`,
  )
  lines.push('', `${words.legend}: ${used.join('   ')}`)
  if (findings.length > 0) lines.push('', words.findings)
  findings.forEach((finding, i) => {
    const text = findingText(findingWords, finding, plan)
    lines.push(...wrapped(`⚠ ${i + 1} ${text.severity}: ${text.says}`, options.width, '    '))
  })
  return options.ascii ? lines.map(asAscii) : lines
}
