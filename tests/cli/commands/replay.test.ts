/** `replay` as it is called, on a log that is kept as a fixture: the order is that of the job, nothing is written. */
import { mkdtempSync, readFileSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { PassThrough } from 'node:stream'
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import type { Shell } from '../../../src/cli/command.ts'
import { run } from '../../../src/cli/commands/replay.ts'
import { english } from '../../../src/wording/en/english.ts'

const LOG = fileURLToPath(new URL('../../fixtures/logs/format-1.ndjson', import.meta.url))

async function replay(
  path: string,
  typed?: readonly string[],
): Promise<{ code: number; out: string; err: string }> {
  let out = ''
  let err = ''
  const stdin = new PassThrough()
  for (const line of typed ?? []) stdin.write(`${line}\n`)
  if (typed) stdin.end()
  const isTTY = typed !== undefined
  const stdout = {
    isTTY,
    columns: 200,
    write: (text: string) => {
      out += text
      return true
    },
  }
  const shell = {
    language: english,
    cwd: '/',
    env: { LANG: 'C.UTF-8' },
    stdin: Object.assign(stdin, { isTTY }),
    stdout,
    stderr: stdout,
    job: {},
    out: (line: string) => {
      out += `${line}\n`
    },
    err: (line: string) => {
      err += `${line}\n`
    },
  } as unknown as Shell
  const given = { arguments: [path], flags: new Set<string>(), values: new Map(), lists: new Map() }
  return { code: await run(given, shell), out, err }
}

test('without a terminal a job comes at once, in its order, with what was taken back and what was read', async () => {
  const before = readFileSync(LOG)
  const { code, out } = await replay(LOG)
  expect(code).toBe(0)
  const places = [
    'F1 and F2 hang on H1.',
    'taken back',
    'Since when',
    'Shut down and switch',
    'Push the light lead',
    'Fixed',
  ]
  const at = places.map((text) => out.indexOf(text))
  expect(at.every((n) => n >= 0)).toBe(true)
  expect([...at].sort((a, b) => a - b)).toEqual(at)
  expect(out).toContain('H1 over USB')
  expect(out).toContain('93')
  expect(readFileSync(LOG)).toEqual(before)
})

test('at a terminal Enter shows the next step, and a word ends it', async () => {
  const { out } = await replay(LOG, ['', '', 'q', ''])
  expect(out.match(/\[Enter: next step\]/g)).toHaveLength(3)
  expect(out).toContain('Step 2.')
  expect(out).not.toContain('Step 3.')
})

test('a file that is no log is refused', async () => {
  const path = join(mkdtempSync(join(tmpdir(), 'replay-')), 'list.ndjson')
  writeFileSync(path, 'bread\n')
  const { code, err } = await replay(path)
  expect(code).toBe(2)
  expect(err).not.toBe('')
})
