/** What is said about a log that has suffered: which line, what was kept, what to do; and nothing that could harm a terminal. */
import { describe, expect, test } from 'vitest'
import { decodeLog } from '../../src/job/log/decode.ts'
import type { FileTroubleCode, Trouble } from '../../src/job/log/trouble.ts'
import { logWords } from '../../src/wording/en/log.ts'
import { writtenJob } from '../support/job-log.ts'

const { lines } = writtenJob()

const said = (text: string): string[] => decodeLog(text).problems.map(logWords.problem)

describe('what is said of a line', () => {
  test('names its number and what happened to it', () => {
    const changed = [...lines]
    changed[7] = (changed[7] as string).replace('F2', 'F3')
    expect(said(`${changed.join('\n')}\n`)).toEqual([
      'Line 8: changed after it was written; its sum does not fit.',
    ])
    expect(said(`${lines.slice(0, 3).join('\n')}\n{"seq":4,`)).toEqual([
      'Line 4 was cut off while it was written (9 bytes); every line before it is whole.',
    ])
    const gap = [...lines.slice(0, 4), ...lines.slice(6)]
    expect(said(`${gap.join('\n')}\n`)[0]).toMatch(/^Line 5: out of order\. Number 5 is due, 7 stands there/)
  })
})

describe('what is said of a disk', () => {
  const codes: readonly FileTroubleCode[] = [
    'exists',
    'missing',
    'folder-missing',
    'is-a-folder',
    'not-a-file',
    'no-permission',
    'read-only',
    'disk-full',
    'limit-reached',
    'too-large',
    'in-use',
    'changed-by-another',
    'vanished',
    'name-too-long',
    'disk-error',
  ]
  const facts = {
    pid: 12,
    host: 'bench-7',
    since: '2026-03-03',
    lock: '/a.lock',
    bytes: 3e8,
    limit: 2e8,
    system: 'EIO',
  }

  test.each(codes)('%s: begins with the file, ends with what to do, and leaves nothing unsaid', (code) => {
    const trouble: Trouble = { code, path: '/jobs/a.ndjson', facts }
    const [line = '', ...more] = logWords.trouble(trouble)
    expect(more).toEqual([])
    expect(line).toMatch(/^\/jobs\/a\.ndjson: .+[.?]$/)
    expect(line).not.toMatch(/undefined|NaN|object/)
  })

  test('a path with control bytes in it reaches no terminal', () => {
    const path = '/jobs/\u001b[2J\u0007evil.ndjson'
    for (const trouble of [
      { code: 'missing', path, facts: {} },
      { code: 'damaged', path, problems: [], facts: { sound: 1, beyond: 2 } },
    ] as Trouble[])
      expect(logWords.trouble(trouble).join('')).not.toMatch(/\p{Cc}/u)
  })

  test('a damaged log is told with how much of it is whole and how to go on', () => {
    const log = decodeLog(
      `${lines.map((line, i) => (i === 11 ? line.replace('changed', 'x') : line)).join('\n')}\n`,
    )
    const trouble: Trouble = {
      code: 'damaged',
      path: 'a.ndjson',
      problems: log.problems,
      facts: { sound: log.events.length, beyond: log.beyond.length },
    }
    const text = logWords.trouble(trouble).join('\n')
    expect(text).toContain('Nothing was changed')
    expect(text).toContain('Line 12')
    expect(text).toContain('11 lines')
    expect(text).toContain('--salvage')
  })
})
