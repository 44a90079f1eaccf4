/** Jobs as a table for a terminal and as CSV (RFC 4180) for a spreadsheet. */
import { faultText } from '../core/faults/fault.ts'
import type { Summary } from '../job/report/summary.ts'
import { clean, shorten } from './clean.ts'
import type { Language } from './language.ts'
import { when } from './report-page.ts'
import { sceneOf } from './report-scene.ts'
import type { ReportWords } from './report-words.ts'

const LONGEST: readonly number[] = [16, 28, 30, 30, 6, 48]

/** Lines of a table: head, rule, a line a job, and the total. */
export function jobsTable(jobs: readonly Summary[], language: Language, words: ReportWords): string[] {
  const rows = jobs.map((job) => [
    when(job.began),
    clean(job.build),
    language.symptom(job.symptom).name,
    `${words.outcome[job.outcome]}${job.damaged ? ` (${words.jobs.damaged})` : ''}`,
    words.figure(job.minutes),
    job.cause === undefined
      ? ''
      : language.list(
          job.cause.faults.map((fault) => language.fault(fault, sceneOf(undefined, job.build)).name),
        ),
  ])
  const cells = [[...words.jobs.head], ...rows].map((row) =>
    row.map((text, i) => shorten(text, LONGEST[i] as number)),
  )
  const widths = LONGEST.map((_, i) => Math.max(...cells.map((row) => (row[i] as string).length)))
  const line = (row: readonly string[]): string =>
    row
      // Figures to the right, words to the left.
      .map((text, i) => (i === 4 ? text.padStart(widths[i] as number) : text.padEnd(widths[i] as number)))
      .join('  ')
      .trimEnd()
  const [head, ...body] = cells.map(line)
  const ended = jobs.filter((job) => job.outcome !== 'open').length
  return [
    head as string,
    widths.map((width) => '-'.repeat(width)).join('  '),
    ...body,
    '',
    words.jobs.total(jobs.length, ended),
  ]
}

const COLUMNS = [
  'log',
  'began',
  'build',
  'symptom',
  'outcome',
  'minutes',
  'cause',
  'p',
  'who',
  'where',
] as const

/** Spreadsheets run cells that begin so; an apostrophe makes them text. */
const FORMULA = /^[=+\-@\t\r]/

function csvCell(text: string): string {
  const safe = FORMULA.test(text) ? `'${text}` : text
  return /[",\r\n]/.test(safe) ? `"${safe.replaceAll('"', '""')}"` : safe
}

/** A head and a row a job, in the order given. Causes are `AT:MODE`, joined by blanks, for programs to read. */
export function jobsCsv(jobs: readonly Summary[]): string {
  const rows = jobs.map((job) =>
    [
      job.log,
      job.began,
      job.build,
      job.symptom,
      job.outcome,
      String(job.minutes),
      job.cause?.faults.map(faultText).join(' ') ?? '',
      job.cause === undefined ? '' : String(job.cause.p),
      job.who ?? '',
      job.where ?? '',
    ].map(csvCell),
  )
  return [[...COLUMNS], ...rows].map((row) => `${row.join(',')}\r\n`).join('')
}
