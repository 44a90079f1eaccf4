/** The page on the job log: its example is a sound log, and every kind of line that the program knows is on it. */
import { readFileSync } from 'node:fs'
import { expect, test } from 'vitest'
import { decodeLog } from '../../../src/job/log/decode.ts'
import { planDigest } from '../../../src/job/log/digest.ts'
import { eventSchema, isKnownKind } from '../../../src/job/log/event.ts'

const page = readFileSync(new URL('../../../docs/job-log.md', import.meta.url), 'utf8')

test('the example on the page is a sound log', () => {
  const example = /```ndjson\n(.*?)```/s.exec(page)?.[1] ?? ''
  const log = decodeLog(example)
  expect(log.problems).toEqual([])
  expect(log.events.map((event) => event.e)).toEqual(['opened', 'shown', 'replied', 'left'])
  const [opened] = log.events
  expect(opened?.e === 'opened' && planDigest(opened.plan)).toBe(opened?.e === 'opened' && opened.digest)
})

test('every kind of line and every field of it is on the page', () => {
  const rows = new Map(
    [...page.matchAll(/^\| `([a-z-]+)` \| (.*) \|$/gm)].map((row) => [row[1] as string, row[2] as string]),
  )
  for (const kind of eventSchema.def.options) {
    const name = kind.shape.e.def.values.join()
    expect(isKnownKind(name)).toBe(true)
    const row = rows.get(name) ?? ''
    for (const field of Object.keys(kind.shape).filter((f) => !['seq', 'at', 'e'].includes(f)))
      expect(row, `${name}.${field}`).toContain(`\`${field}\``)
  }
})
