/**
 * What a log still says after something happened to its file. The bytes are damaged in every way that files are:
 * cut at any byte, one bit flipped at any byte, lines lost, doubled, exchanged, rewritten by hand. The law: what is
 * read is a beginning of what was written, and where it is not all of it, that is said.
 */

import { describe, expect, test } from 'vitest'
import { type Decoded, decodeLog } from '../../../src/job/log/decode.ts'
import { lineSum } from '../../../src/job/log/digest.ts'
import { encodeEvents, START } from '../../../src/job/log/encode.ts'
import { FORMAT, type LogBody, type LogEvent, type Opened } from '../../../src/job/log/event.ts'
import fc from '../../support/fast-check.ts'
import { jobBodies, writtenJob } from '../../support/job-log.ts'

const job = writtenJob()
const whole = new TextEncoder().encode(job.text)

/** JSON text of each event: two events are the same where it is. */
const written = job.events.map((event) => JSON.stringify(event))
const writtenSet = new Set(written)

function isTrueBeginning(events: readonly LogEvent[]): boolean {
  return events.every((event, i) => JSON.stringify(event) === written[i])
}

/** The law above, for bytes made from the sample by some damage. */
function holds(log: Decoded, bytes: number): void {
  expect(isTrueBeginning(log.events)).toBe(true)
  expect(log.beyond.every((event) => writtenSet.has(JSON.stringify(event)))).toBe(true)
  expect(log.soundBytes + log.restBytes).toBe(bytes)
  if (log.restBytes > 0) expect(log.problems.length).toBeGreaterThan(0)
}

/** Bytes to strike at: each of them close to the end or the beginning of a line, where the form and the sum lie, and every seventh in its text. */
const places = Array.from(whole.keys()).filter(
  (at) => at % 7 === 0 || whole.subarray(Math.max(0, at - 4), at + 28).includes(10),
)

const codes = (log: Decoded): string[] => log.problems.map((p) => `${p.line} ${p.code}`)

describe('a log in order', () => {
  test('gives every event as it was written and no problem', () => {
    const log = decodeLog(whole)
    expect(log.events).toEqual(job.events)
    expect(log.problems).toEqual([])
    expect(log.restBytes).toBe(0)
    expect(log.open).toBe(false)
  })

  test('that went through a system with carriage returns, and got a mark at its start, says the same', () => {
    const log = decodeLog(`\uFEFF${job.text.replaceAll('\n', '\r\n')}`)
    expect(log.events).toEqual(job.events)
    expect(log.problems).toEqual([])
  })

  test('whose clock jumped a year back keeps the order of its lines', () => {
    const before = encodeEvents([jobBodies[0] as LogBody], Date.UTC(2026, 2, 3), START)
    const after = encodeEvents([{ e: 'noted', text: 'battery changed' }], Date.UTC(2025, 0, 1), before.tail)
    const log = decodeLog(before.text + after.text)
    expect(log.problems).toEqual([])
    expect(log.events.map((e) => [e.seq, e.at.slice(0, 4)])).toEqual([
      [1, '2026'],
      [2, '2025'],
    ])
  })
})

describe('a log cut off', () => {
  test('at any byte gives every whole line before the cut, and names the half one', () => {
    for (const cut of [...places, whole.length]) {
      const bytes = whole.subarray(0, cut)
      const log = decodeLog(bytes)
      holds(log, cut)
      const ends = bytes.filter((byte) => byte === 10).length
      // A last line that is all there but for its line end counts as whole.
      const complete = whole[cut] === 10 ? ends + 1 : ends
      expect(log.events.length).toBe(complete)
      expect(log.open).toBe(whole[cut] === 10)
      if (cut > 0 && log.restBytes > 0) expect(codes(log)).toContain(`${complete + 1} half-last-line`)
    }
  })

  test('whose end the disk filled with zeros is read as half a last line', () => {
    const bytes = new Uint8Array(whole.length + 512)
    bytes.set(whole)
    const log = decodeLog(bytes)
    expect(log.events).toEqual(job.events)
    expect(codes(log)).toEqual([`${job.events.length + 1} half-last-line`])
    expect(log.restBytes).toBe(512)
  })
})

describe('a log with one bit flipped', () => {
  test('at any byte never gives an answer that nobody gave', () => {
    for (const at of places) {
      const bytes = whole.slice()
      bytes[at] = (bytes[at] as number) ^ (1 << (at % 8))
      const log = decodeLog(bytes)
      holds(log, bytes.length)
      const harmless = log.events.length === job.events.length
      if (harmless) expect(log.open || bytes[at] === 13 || at === 0 || log.problems.length === 0).toBe(true)
      else expect(log.problems.length).toBeGreaterThan(0)
    }
  })

  test('names its line, and finds the whole lines after it', () => {
    const line = 12
    const start = job.lines.slice(0, line - 1).join('\n').length + 1
    const bytes = whole.slice()
    const at = start + (job.lines[line - 1] as string).indexOf('changed')
    bytes[at] = (bytes[at] as number) ^ 1
    const log = decodeLog(bytes)
    expect(codes(log)).toEqual([`${line} changed`])
    expect(log.events.length).toBe(line - 1)
    expect(log.beyond).toEqual(job.events.slice(line))
  })
})

describe('a log edited by hand', () => {
  const edited = (edit: (lines: string[]) => void): Decoded => {
    const lines = [...job.lines]
    edit(lines)
    const text = `${lines.join('\n')}\n`
    const log = decodeLog(text)
    holds(log, new TextEncoder().encode(text).length)
    return log
  }

  test('with another answer put in is not believed', () => {
    const log = edited((lines) => {
      lines[7] = (lines[7] as string).replace('["F1","F2"]', '["F1","F3"]')
    })
    expect(codes(log)).toEqual(['8 changed'])
    expect(log.events.length).toBe(7)
  })

  test('with only its blanks changed is not believed either', () => {
    expect(
      codes(edited((lines) => void lines.splice(3, 1, (lines[3] as string).replace(',"to"', ', "to"')))),
    ).toEqual(['4 changed'])
  })

  test('with a line taken out names the gap', () => {
    const log = edited((lines) => void lines.splice(5, 1))
    expect(codes(log)).toEqual(['6 out-of-order'])
    expect(log.problems[0]?.facts).toMatchObject({ expected: 6, found: 7 })
    expect(log.beyond.map((e) => e.seq)).toEqual(job.events.slice(7).map((e) => e.seq))
  })

  test('with a line doubled, two exchanged, or one of another job put in, stops there', () => {
    expect(codes(edited((lines) => void lines.splice(6, 0, lines[5] as string)))[0]).toBe('7 out-of-order')
    const exchanged = edited((lines) => {
      const [a, b] = [lines[3] as string, lines[4] as string]
      lines[3] = b
      lines[4] = a
    })
    expect(codes(exchanged)[0]).toBe('4 out-of-order')
    const opening = { ...(jobBodies[0] as Opened), symptom: 'fan-still' }
    const other = writtenJob([opening, { e: 'noted', text: 'another job' }])
    expect(codes(edited((lines) => void lines.splice(1, 1, other.lines[1] as string)))[0]).toBe('2 changed')
  })

  test('without its opening has no job in it, but says that it was a log', () => {
    const log = edited((lines) => void lines.shift())
    expect(codes(log)[0]).toBe('1 out-of-order')
    expect(log.events).toEqual([])
  })
})

describe('what is no log', () => {
  test('is told from a damaged one', () => {
    expect(codes(decodeLog(''))).toEqual(['0 empty'])
    for (const text of ['build: Reading room\n', '{"jobs": []}\n', '\u0000\u0001\u0002', '[]', '\n\n\n'])
      expect(codes(decodeLog(text))[0]).toBe('0 not-a-log')
    expect(codes(decodeLog(job.text.slice(0, 60)))).toEqual(['1 half-last-line'])
  })

  test('of any bytes at all is read without a crash', () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 400 }), (bytes) => {
        const log = decodeLog(bytes)
        expect(log.events).toEqual([])
        expect(log.problems.length).toBeGreaterThan(0)
      }),
    )
  })

  test('with pieces of a log thrown together never gives a false event', () => {
    const piece = fc.oneof(
      fc.constantFrom(...job.lines).map((line) => `${line}\n`),
      fc.constantFrom(...job.lines).chain((line) => fc.nat(line.length).map((n) => line.slice(0, n))),
      fc.string({ maxLength: 20 }),
    )
    fc.assert(
      fc.property(fc.array(piece, { maxLength: 12 }), (pieces) => {
        const text = pieces.join('')
        holds(decodeLog(text), new TextEncoder().encode(text).length)
      }),
      { numRuns: 300 },
    )
  })
})

describe('a log from a newer program', () => {
  test('of a newer format is read as far as it is known, and says so', () => {
    const [first, ...others] = jobBodies
    const newer = writtenJob([{ ...(first as Opened), format: FORMAT + 1 }, ...others])
    const log = decodeLog(newer.text)
    expect(codes(log)).toEqual(['1 newer-format'])
    expect(log.events.length).toBe(job.events.length)
  })

  test('with a kind of line that is not known here keeps that line as it is', () => {
    const body = '{"seq":1,"at":"2026-03-03T09:30:00.000Z","e":"measured","volts":4.9'
    const line = `${body},"sum":"${lineSum(START.sum, body)}"}`
    const log = decodeLog(`${line}\n`)
    expect(log.unknown).toEqual([{ line: 1, kind: 'measured', raw: line }])
    expect(codes(log)).toEqual(['1 unknown-kind'])
    expect(log.restBytes).toBe(0)
  })
})
