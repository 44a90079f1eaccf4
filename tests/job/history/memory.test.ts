/** What the logs in a folder taught: kept beside them, worked out anew when a log changes, forgotten when asked. */
import { mkdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeEach, expect, test } from 'vitest'
import { forget, recall } from '../../../src/job/history/memory.ts'
import { jobBodies, writtenJob } from '../../support/job-log.ts'
import { ownFolder } from '../../support/own-folder.ts'

let folder: string
beforeEach(() => {
  folder = join(ownFolder(), 'jobs')
  mkdirSync(folder)
})

const put = (name: string, text = writtenJob().text) => writeFileSync(join(folder, `${name}.ndjson`), text)

test('an empty or missing folder has taught nothing', async () => {
  expect(await recall(folder)).toMatchObject({ lessons: [], since: null })
  expect((await recall(join(folder, 'none'))).lessons).toEqual([])
})

test('a closed job teaches, one that was left or is damaged does not', async () => {
  put('closed')
  put('left', writtenJob(jobBodies.slice(0, 15)).text)
  const { lines } = writtenJob()
  put('damaged', `${lines.map((l, i) => (i === 9 ? `${l} ` : l)).join('\n')}\n`)
  const { lessons, learned } = await recall(folder)
  expect(lessons).toHaveLength(1)
  expect([...(lessons[0]?.causes.keys() ?? [])]).toEqual(['loose|fan|light'])
  expect(learned.get('loose|fan')).toBeGreaterThan(1)
})

test('what was learnt is the same from the kept file as from the logs, and follows a log that goes', async () => {
  put('a')
  put('b')
  const first = await recall(folder)
  expect(await recall(folder)).toEqual(first)
  writeFileSync(join(folder, 'learned.json'), 'spoilt')
  expect(await recall(folder)).toEqual(first)
  rmSync(join(folder, 'b.ndjson'))
  expect((await recall(folder)).lessons).toHaveLength(1)
})

test('forgetting leaves the logs alone, and only later jobs teach again', async () => {
  put('a')
  const before = readFileSync(join(folder, 'a.ndjson'))
  expect(await forget(folder, '2030-01-01T00:00:00.000Z')).toBe(true)
  expect(await recall(folder)).toMatchObject({ lessons: [], since: '2030-01-01T00:00:00.000Z' })
  expect(readFileSync(join(folder, 'a.ndjson'))).toEqual(before)
  await forget(folder, '2020-01-01T00:00:00.000Z')
  expect((await recall(folder)).lessons).toHaveLength(1)
})
