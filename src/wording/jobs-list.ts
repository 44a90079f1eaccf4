/** Jobs as CSV (RFC 4180), for a spreadsheet. */
import { faultText } from '../core/faults/fault.ts'
import type { Summary } from '../job/report/summary.ts'

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

/** Spreadsheets run cells that begin so, wide forms too; an apostrophe makes them text. (OWASP, CSV injection.) */
const FORMULA = /^[=+\-@\t\r\n＝＋－＠]/

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
