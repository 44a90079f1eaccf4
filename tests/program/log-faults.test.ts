/**
 * The built program and a log that something happened to: cut off, zeroed, edited, of another version, open elsewhere, on
 * a disk that takes no more, under a clock that jumps. Each is said in words, and no answer is lost or made up.
 */
import { spawnSync } from 'node:child_process'
import {
  chmodSync,
  copyFileSync,
  existsSync,
  readdirSync,
  readFileSync,
  statSync,
  writeFileSync,
} from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { beforeAll, beforeEach, describe, expect, test } from 'vitest'
import { FIRST_SUM } from '../../src/job/log/digest.ts'
import { encodeLine } from '../../src/job/log/encode.ts'
import type { LogEvent } from '../../src/job/log/event.ts'
import { runLines } from '../support/kill.ts'
import { ownFolder } from '../support/own-folder.ts'
import { call, envIn, NODE, PROGRAM, SMALL } from '../support/program.ts'

const FIXTURES = fileURLToPath(new URL('../fixtures/logs/', import.meta.url))
const LATER = 'Step 3.'

/** Runs a program by a shell that was told something first. */
function shell(command: string, args: readonly string[], input: string) {
  const env = { ...envIn(folder), WHICHLEAD_CODE_CACHE: 'off' }
  const { stdout, stderr } = spawnSync('sh', ['-c', command, ...args], {
    cwd: folder,
    env,
    input,
    encoding: 'utf8',
  })
  return { out: stdout, err: stderr }
}

/** A job that was left at its third question, and its lines. */
let left: string
let lines: readonly string[]
beforeAll(() => {
  const folder = ownFolder()
  begin(folder, '{"unsure":true}\n{"unsure":true}\n')
  left = readFileSync(join(folder, 'job.ndjson'), 'utf8')
  lines = left.trimEnd().split('\n')
})

let folder: string
let log: string
beforeEach(() => {
  folder = ownFolder()
  log = join(folder, 'job.ndjson')
})

const begin = (where: string, input: string, env = {}) =>
  call(where, ['diagnose', SMALL, '--symptom', 'fan-still', '--lines', '--log', 'job.ndjson'], { input, env })

const resume = (...options: readonly string[]) => call(folder, ['resume', log, '--plain', ...options])

/** With lines changed, and the sums as they were. */
function damaged(change: (lines: string[]) => void): void {
  const now = [...lines]
  change(now)
  writeFileSync(log, `${now.join('\n')}\n`)
}

describe('a log that a power cut left', () => {
  test.each([
    ['with half a last line', () => left.slice(0, -30)],
    ['with zeros in place of its end', () => left.slice(0, -30) + '\0'.repeat(512)],
  ])('%s goes on at the question where it stood; what was cut off is kept', (_, text) => {
    writeFileSync(log, text())
    const { code, out, err } = resume()
    expect(code).toBe(0)
    expect(err).toMatch(
      /^Line \d+ was cut off while it was written \(\d+ bytes\); every line before it is whole\.\n$/,
    )
    expect(out).toContain(LATER)
    expect(existsSync(`${log}.rest`)).toBe(true)
  })
})

describe('a log that was edited by hand', () => {
  const LINE = 4
  test.each([
    [
      'in one word',
      5,
      'Step 1.',
      (all: string[]) => all.splice(LINE, 1, (all[LINE] ?? '').replace('unsure', 'cannot')),
    ],
    ['with a line taken out', 5, 'Step 1.', (all: string[]) => all.splice(LINE, 1)],
    ['with a line doubled', 6, 'Step 2.', (all: string[]) => all.splice(LINE, 0, all[LINE] ?? '')],
  ])(
    '%s is refused with the line, and not touched; --salvage goes on before it and keeps the rest',
    (_, line, step, change) => {
      damaged(change)
      const before = readFileSync(log, 'utf8')
      const refused = resume()
      expect([refused.code, refused.out]).toEqual([2, ''])
      expect(refused.err).toContain('this log is damaged. Nothing was changed.')
      expect(refused.err).toContain(`Line ${line}: `)
      expect(refused.err).toContain('add --salvage')
      expect(readFileSync(log, 'utf8')).toBe(before)
      const salvaged = resume('--salvage')
      expect(salvaged.code).toBe(0)
      expect(salvaged.out).toContain(step)
      expect(before.trimEnd().endsWith(readFileSync(`${log}.rest`, 'utf8').trimEnd())).toBe(true)
    },
  )

  test('gives a report of its sound part, with the damage on the page', () => {
    damaged((all) => all.splice(LINE, 1))
    const { code, out, err } = call(folder, ['report', log])
    expect(code).toBe(0)
    expect(err).toContain('Line 5: ')
    expect(out).toMatch(/whole lines after the damage are left out/)
  })
})

/** The same job as another version would have opened it, all sums right. */
function openedAs(change: (opened: Record<string, unknown>) => void): string {
  let sum = FIRST_SUM
  return lines
    .map((text, i) => {
      const { sum: _, ...event } = JSON.parse(text)
      if (i === 0) change(event)
      const encoded = encodeLine(event as LogEvent, sum)
      sum = encoded.sum
      return `${encoded.line}\n`
    })
    .join('')
}

describe('a log of another version', () => {
  test('that is newer can be reported, and is not gone on with nor touched', () => {
    const text = openedAs((opened) => {
      opened.format = 99
      opened.tool = '9.0.0'
    })
    writeFileSync(log, text)
    const { code, err } = resume()
    expect(code).toBe(2)
    expect(err).toContain('written by a newer version')
    expect(readFileSync(log, 'utf8')).toBe(text)
    const reported = call(folder, ['report', log])
    expect([reported.code, reported.err]).toEqual([
      0,
      expect.stringContaining('format 99, from version 9.0.0'),
    ])
  })

  test('that is older goes on', () => {
    writeFileSync(
      log,
      openedAs((opened) => {
        opened.format = 1
        opened.tool = '0.0.1'
      }),
    )
    expect(resume()).toMatchObject({ code: 0, err: '', out: expect.stringContaining(LATER) })
  })

  test.each(readdirSync(FIXTURES))('kept as it was written, %s, gives its report', (name) => {
    copyFileSync(join(FIXTURES, name), log)
    expect(call(folder, ['report', log])).toMatchObject({
      code: 0,
      err: '',
      out: expect.stringContaining('# Reading room workstation'),
    })
  })
})

test('two programs do not get the same job: the second is told, and the first goes on', async () => {
  const seconds: ReturnType<typeof resume>[] = []
  const first = await runLines({
    args: ['diagnose', SMALL, '--symptom', 'fan-still', '--lines', '--log', log],
    program: PROGRAM,
    cwd: folder,
    env: envIn(folder),
    reply: ({ type }) => {
      if (type !== 'ask') return undefined
      if (seconds.length > 0) return { leave: true }
      seconds.push(resume())
      return { unsure: true }
    },
  })
  expect(seconds).toMatchObject([{ code: 2, out: '' }])
  expect(seconds[0]?.err).toMatch(/another program has this job open/)
  expect([first.code, first.stderr]).toEqual([0, ''])
  expect(resume().out).toContain('Step 2.')
})

test.skipIf(process.platform === 'win32')(
  'a disk that takes no more in the middle of a job is said, the answer not counted, and nothing is half written',
  () => {
    const room = Math.ceil(Buffer.byteLength(lines.slice(0, 8).join('\n')) / 512)
    const command = `ulimit -f ${room}; exec "$0" "$@"`
    const args = [NODE, PROGRAM, 'diagnose', SMALL, '--symptom', 'fan-still', '--lines', '--log', log]
    const ran = shell(command, args, '{"unsure":true}\n'.repeat(8))
    expect(ran.out).toMatch(/a quota or a limit on file size is reached\. Make room, then answer again/)
    expect(ran.err).not.toMatch(/\n\s+at /)
    expect(statSync(log).size).toBeLessThanOrEqual(room * 512)
    const kept = readFileSync(log, 'utf8')
    expect(kept.endsWith('\n')).toBe(true)
    const { code, err, out } = resume()
    expect([code, err]).toEqual([0, ''])
    expect(out).toMatch(/Step \d+\./)
    expect(readFileSync(log, 'utf8').startsWith(kept)).toBe(true)
  },
)

test.skipIf(process.getuid?.() === 0 || process.platform === 'win32')(
  'a log that may only be read is reported, and not gone on with',
  () => {
    writeFileSync(log, left)
    chmodSync(log, 0o444)
    expect(resume()).toMatchObject({ code: 2, out: '' })
    expect(call(folder, ['report', log]).code).toBe(0)
  },
)

test('a clock that jumps by a year and back changes no order', () => {
  const clock = join(folder, 'clock.cjs')
  writeFileSync(
    clock,
    'const now = Date.now.bind(Date); let n = 0; Date.now = () => now() - (n++ % 2) * 366 * 86400e3',
  )
  const env = { NODE_OPTIONS: `--require=${JSON.stringify(clock)}` }
  begin(folder, '{"unsure":true}\n{"unsure":true}\n', env)
  const years = readFileSync(log, 'utf8')
    .trimEnd()
    .split('\n')
    .map((line) => JSON.parse(line).at.slice(0, 4))
  expect(new Set(years).size).toBe(2)
  expect(resume()).toMatchObject({ code: 0, err: '', out: expect.stringContaining(LATER) })
  expect(call(folder, ['report', log]).code).toBe(0)
})
