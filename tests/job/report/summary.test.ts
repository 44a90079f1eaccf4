/** Jobs in a list: one line each, found by the words that a person remembers of them. */
import { expect, test } from 'vitest'
import { decodeLog } from '../../../src/job/log/decode.ts'
import { isFound, type Summary, summarize } from '../../../src/job/report/summary.ts'
import { jobBodies, writtenJob } from '../../support/job-log.ts'

const summaryOf = (lines: number): Summary | undefined =>
  summarize(
    '/jobs/2026-03-03-093000-reading-room.ndjson',
    decodeLog(writtenJob(jobBodies.slice(0, lines)).text),
  )

test('a fixed job names its cause, one that goes on names none', () => {
  expect(summaryOf(jobBodies.length)).toMatchObject({
    outcome: 'fixed',
    minutes: 5.7,
    cause: { faults: [{ at: 'F1.light', mode: 'loose' }] },
    damaged: false,
  })
  expect(summaryOf(20)).toMatchObject({ outcome: 'open', minutes: 3.7 })
  expect(summaryOf(20)?.cause).toBeUndefined()
  expect(summaryOf(0)).toBeUndefined()
})

test('a job is found by build, symptom, date, person and faulty part, in any case and order', () => {
  const summary = summaryOf(jobBodies.length) as Summary
  for (const text of ['', 'READING', 'dark room', 'f1.light', '2026-03', 'early fixed', 'bench'])
    expect(isFound(summary, text), text).toBe(true)
  for (const text of ['F2.light', 'reading cellar', '2025']) expect(isFound(summary, text), text).toBe(false)
})
