/** The list of jobs as CSV comes back from a reader that knows only the grammar of RFC 4180, whatever stands in a name. */
import { expect, test } from 'vitest'
import type { Summary } from '../../src/job/report/summary.ts'
import { jobsCsv } from '../../src/wording/jobs-list.ts'
import fc from '../support/fast-check.ts'

/** RFC 4180, section 2: records end in CRLF; a field is bare without comma, quote, CR and LF, or quoted with quotes doubled. */
function readCsv(text: string): string[][] {
  const field = /(?:"((?:[^"]|"")*)"|([^",\r\n]*))(,|\r\n)/y
  const rows: string[][] = [[]]
  while (field.lastIndex < text.length) {
    const at = field.lastIndex
    const match = field.exec(text)
    if (match === null) throw new Error(`no field at: ${text.slice(at, at + 40)}`)
    const [, quoted, bare = '', end] = match
    rows.at(-1)?.push(quoted === undefined ? bare : quoted.replaceAll('""', '"'))
    if (end === '\r\n') rows.push([])
  }
  return rows.slice(0, -1)
}

const name = fc.oneof(
  fc.string({
    unit: fc.constantFrom('"', ',', '\r', '\n', '\t', '=', '+', '-', '@', "'", ';', 'a', 'ä', '＝'),
  }),
  fc.string({ unit: 'grapheme' }),
)
const job = (build: string, who: string): Summary => ({
  log: '/jobs/a.ndjson',
  build,
  symptom: 'lights-dark',
  who,
  began: '2026-03-03T09:30:00.000Z',
  outcome: 'fixed',
  minutes: 5.7,
  cause: { faults: [{ at: 'F1.light', mode: 'loose' }], p: 0.9, alike: [] },
  damaged: false,
})

test('every name comes back, and none that a spreadsheet would run is without its apostrophe', () => {
  fc.assert(
    fc.property(fc.array(fc.tuple(name, name), { maxLength: 5 }), (names) => {
      const [head, ...rows] = readCsv(jobsCsv(names.map(([build, who]) => job(build, who))))
      const safe = (text: string): string => (/^[=+\-@\t\r\n＝＋－＠]/.test(text) ? `'${text}` : text)
      expect(rows.map((row) => [row[head?.indexOf('build') ?? -1], row[head?.indexOf('who') ?? -1]])).toEqual(
        names.map(([build, who]) => [safe(build), safe(who)]),
      )
      for (const row of rows) expect(row).toHaveLength(head?.length ?? 0)
    }),
  )
})
