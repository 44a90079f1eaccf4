/**
 * A log's lines as they are written: one JSON object a line whose sum anyone can compute again, and nothing written
 * that could not be read.
 */
import { createHash } from 'node:crypto'
import { expect, test } from 'vitest'
import { decodeLog } from '../../../src/job/log/decode.ts'
import { planDigest } from '../../../src/job/log/digest.ts'
import { clockText, encodeEvents, START } from '../../../src/job/log/encode.ts'
import type { LogBody } from '../../../src/job/log/event.ts'
import fc from '../../support/fast-check.ts'
import { jobBodies, MORNING, planCopy, writtenJob } from '../../support/job-log.ts'

test('every line is JSON by itself, numbered from 1, with the time in UTC', () => {
  const { lines } = writtenJob()
  const objects = lines.map((line) => JSON.parse(line) as Record<string, unknown>)
  expect(objects.map((o) => o.seq)).toEqual(lines.map((_, i) => i + 1))
  expect(objects[0]).toMatchObject({ at: '2026-03-03T09:30:00.000Z', e: 'opened', format: 1 })
  expect(objects[2]).toMatchObject({
    at: '2026-03-03T09:31:00.000Z',
    e: 'shown',
    prompt: { id: 'which-dark' },
  })
})

test('the sum is what the page on the format says, computed here with nothing of the program', () => {
  let before = '0000000000000000'
  for (const line of writtenJob().lines) {
    const cut = line.lastIndexOf(',"sum":"')
    const sum = createHash('sha256').update(before).update(line.slice(0, cut)).digest('hex').slice(0, 16)
    expect(line.slice(cut)).toBe(`,"sum":"${sum}"}`)
    before = sum
  }
})

test('a note with any text in it comes back as it was', () => {
  fc.assert(
    fc.property(fc.string({ unit: 'binary', maxLength: 60 }), (text) => {
      const { text: log } = encodeEvents([{ e: 'noted', text }], MORNING, START)
      expect(log.split('\n').length).toBe(2)
      expect(decodeLog(log).events).toMatchObject([{ e: 'noted', text }])
    }),
  )
})

test('what could not be read again is not written', () => {
  const bad: LogBody = {
    e: 'suspects',
    suspects: [{ faults: [{ at: 'F1', mode: 'seized' }], p: Number.NaN, alike: [] }],
    minutes: 1,
  }
  expect(() => encodeEvents([bad], MORNING, START)).toThrow()
})

test('a clock out of its mind still gives a time', () => {
  for (const ms of [Number.NaN, Number.POSITIVE_INFINITY, -1e20, 1e15])
    expect(clockText(ms)).toBe('1970-01-01T00:00:00.000Z')
  expect(clockText(Date.UTC(1999, 11, 31, 23, 59, 59, 5))).toBe('1999-12-31T23:59:59.005Z')
})

test('a plan digest is that of its text, as other tools compute it', () => {
  // SHA-256 of "abc": FIPS 180-2, appendix B.1.
  expect(planDigest({ file: 'x', text: 'abc', includes: [] })).toBe(
    'ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad',
  )
  const two = (text: string, include: string) =>
    planDigest({ file: 'x', text, includes: [{ file: 'y', text: include }] })
  expect(two('ab', 'c')).not.toBe(two('a', 'bc'))
  expect(planDigest({ ...planCopy, file: 'moved/elsewhere.yaml' })).toBe(planDigest(planCopy))
})

test('the same events give the same bytes', () => {
  const reversed = jobBodies.map(
    (body) => Object.fromEntries(Object.entries(body).reverse()) as unknown as LogBody,
  )
  expect(writtenJob(reversed).text).toBe(writtenJob().text)
})
