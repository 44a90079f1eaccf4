/**
 * Logs of every format that was ever released, kept as they were written. Each must be read for as long as the program
 * lives; none of these files is ever written again.
 */
import { readdirSync, readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { decodeLog } from '../../../src/job/log/decode.ts'
import { eventSchema, FORMAT } from '../../../src/job/log/event.ts'
import { assembleReport } from '../../../src/job/report/assemble.ts'

const folder = new URL('../../fixtures/logs/', import.meta.url)
const formatOf = (name: string): number => Number(/^format-(\d+)/.exec(name)?.[1])
const names = readdirSync(folder)

test('there is a log of each format up to the one that is written now', () => {
  const kept = new Set(names.map(formatOf))
  for (let format = 1; format <= FORMAT; format++) expect(kept).toContain(format)
})

test.each(names)('%s is read without a problem and gives its report', (name) => {
  const log = decodeLog(readFileSync(new URL(name, folder)))
  expect(log.problems).toEqual([])
  expect(log.restBytes).toBe(0)
  const report = assembleReport(log)
  expect(report?.outcome).toBe('fixed')
  expect(report?.steps.length).toBe(7)
})

test('the newest of them has every kind of line in it', () => {
  const name = names.filter((n) => formatOf(n) === FORMAT).at(-1) as string
  const log = decodeLog(readFileSync(new URL(name, folder)))
  const kinds = new Set(log.events.map((event) => event.e))
  for (const kind of eventSchema.def.options) expect(kinds).toContain(kind.shape.e.def.values.join())
})
