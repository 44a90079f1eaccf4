/**
 * A job's log as the program uses it: made, written, left, taken up again after a power cut, refused when damaged,
 * salvaged when asked.
 */
import { existsSync, readdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { decodeLog } from '../../../src/job/log/decode.ts'
import { FORMAT, type LogBody, type Opened } from '../../../src/job/log/event.ts'
import { createLog, createLogIn, openLog, readLog } from '../../../src/job/log/log.ts'
import { jobBodies, MORNING, writtenJob } from '../../support/job-log.ts'
import { ownFolder } from '../../support/own-folder.ts'

const clock = () => MORNING
const opening = jobBodies[0] as Opened
const rest = jobBodies.slice(1)
const job = writtenJob()

async function newLog(path: string) {
  const made = await createLog(path, opening, clock)
  if (!made.ok) throw new Error(made.trouble.code)
  return made.writer
}

async function open(path: string, options = {}) {
  const opened = await openLog(path, clock, options)
  if (!opened.ok) throw new Error(opened.trouble.code)
  return opened
}

describe('a job’s log', () => {
  test('has each event on the disk when its append resolves', async () => {
    const path = join(ownFolder(), 'job.ndjson')
    const writer = await newLog(path)
    for (const [i, body] of rest.entries()) {
      expect(writer.nextSeq()).toBe(i + 2)
      const appended = await writer.append([body])
      expect(appended).toMatchObject({ ok: true, events: [{ ...body, seq: i + 2 }] })
      expect(decodeLog(readFileSync(path)).events.length).toBe(i + 2)
    }
    await writer.close()
    const read = await readLog(path)
    expect(read.ok && read.log.events).toMatchObject(jobBodies)
    expect(read.ok && read.log.problems).toEqual([])
  })

  test('keeps the order of appends that nobody waited for', async () => {
    const path = join(ownFolder(), 'job.ndjson')
    const writer = await newLog(path)
    const appends = Array.from({ length: 40 }, (_, i) => writer.append([{ e: 'noted', text: `note ${i}` }]))
    await writer.close()
    expect((await Promise.all(appends)).every((a) => a.ok)).toBe(true)
    const log = decodeLog(readFileSync(path))
    expect(log.problems).toEqual([])
    expect(log.events.slice(1).map((e) => e.e === 'noted' && e.text)).toEqual(
      Array.from({ length: 40 }, (_, i) => `note ${i}`),
    )
  })

  test('gone on with is the same as one written in one go', async () => {
    const path = join(ownFolder(), 'job.ndjson')
    await (await newLog(path)).close()
    for (const body of rest) {
      const { writer } = await open(path)
      await writer.append([body])
      await writer.close()
    }
    const whole = join(ownFolder(), 'whole.ndjson')
    const writer = await newLog(whole)
    await writer.append(rest)
    await writer.close()
    expect(readFileSync(path, 'utf8')).toBe(readFileSync(whole, 'utf8'))
  })

  test('gets a name of its own in the folder of jobs, also when several begin at once', async () => {
    const folder = join(ownFolder(), 'jobs')
    const made = await Promise.all([1, 2, 3].map(() => createLogIn(folder, opening, clock)))
    for (const log of made) if (log.ok) await log.writer.close()
    const name = '2026-03-03-093000-reading-room-workstation-lights-dark'
    expect(readdirSync(folder).sort()).toEqual([`${name}-2.ndjson`, `${name}-3.ndjson`, `${name}.ndjson`])
  })

  test('cannot be opened twice, and a taken name is not written over', async () => {
    const path = join(ownFolder(), 'job.ndjson')
    const writer = await newLog(path)
    expect(await openLog(path, clock)).toMatchObject({ ok: false, trouble: { code: 'in-use' } })
    await writer.close()
    expect(await createLog(path, opening, clock)).toMatchObject({ ok: false, trouble: { code: 'exists' } })
  })
})

describe('after a power cut', () => {
  test('at any byte, the job goes on from the last whole event and the half line is kept', async () => {
    const folder = ownFolder()
    const bytes = new TextEncoder().encode(job.text)
    const firstLine = (job.lines[0] as string).length
    const note: LogBody = { e: 'noted', text: 'after the power cut' }
    for (let cut = firstLine; cut < bytes.length; cut += 41) {
      const path = join(folder, `${cut}.ndjson`)
      writeFileSync(path, bytes.subarray(0, cut))
      const sound = decodeLog(bytes.subarray(0, cut))
      const opened = await open(path)
      expect(opened.events).toEqual(sound.events)
      await opened.writer.append([note])
      await opened.writer.close()
      const after = decodeLog(readFileSync(path))
      expect(after.problems).toEqual([])
      expect(after.events.slice(0, -1)).toEqual(sound.events)
      expect(after.events.at(-1)).toMatchObject(note)
      if (sound.restBytes > 0) {
        expect(opened.rest).toBe(`${path}.rest`)
        expect(opened.problems).toMatchObject([{ code: 'half-last-line' }])
        const kept = readFileSync(`${path}.rest`)
        expect(kept.subarray(0, -1)).toEqual(Buffer.from(bytes.subarray(sound.soundBytes, cut)))
      } else expect(existsSync(`${path}.rest`)).toBe(false)
    }
  })
})

describe('a log that cannot be gone on with', () => {
  const damaged = () => {
    const lines = [...job.lines]
    lines[11] = (lines[11] as string).replace('changed', 'new')
    return `${lines.join('\n')}\n`
  }

  test('because of damage in the middle is refused with the line, and left as it is', async () => {
    const path = join(ownFolder(), 'job.ndjson')
    writeFileSync(path, damaged())
    expect(await openLog(path, clock)).toMatchObject({
      ok: false,
      trouble: {
        code: 'damaged',
        problems: [{ line: 12, code: 'changed' }],
        facts: { sound: 11, beyond: job.events.length - 12 },
      },
    })
    expect(readFileSync(path, 'utf8')).toBe(damaged())
    expect(readdirSync(join(path, '..'))).toEqual(['job.ndjson'])
  })

  test('goes on before the damage when asked to, with all the rest kept', async () => {
    const path = join(ownFolder(), 'job.ndjson')
    writeFileSync(path, damaged())
    const opened = await open(path, { salvage: true })
    expect(opened.events).toEqual(job.events.slice(0, 11))
    await opened.writer.append([{ e: 'noted', text: 'goes on' }])
    await opened.writer.close()
    expect(decodeLog(readFileSync(path)).problems).toEqual([])
    const kept = readFileSync(`${path}.rest`, 'utf8')
    expect(damaged().endsWith(kept.slice(0, -1))).toBe(true)
    expect(kept.split('\n')[1]).toBe(job.lines[12])
  })

  test('is told from no log at all, an empty file, and one of a newer program', async () => {
    const folder = ownFolder()
    const [first, ...others] = jobBodies
    const cases: [string, string, string][] = [
      ['plan.yaml', 'build: Reading room\n', 'no-job'],
      ['empty.ndjson', '', 'no-job'],
      ['begun.ndjson', job.text.slice(0, 50), 'no-job'],
      ['newer.ndjson', writtenJob([{ ...(first as Opened), format: FORMAT + 1 }, ...others]).text, 'newer'],
    ]
    for (const [name, text, code] of cases) {
      writeFileSync(join(folder, name), text)
      for (const salvage of [false, true]) {
        expect(await openLog(join(folder, name), clock, { salvage })).toMatchObject({
          ok: false,
          trouble: { code },
        })
      }
      expect(readFileSync(join(folder, name), 'utf8')).toBe(text)
    }
  })
})
