/** The list of a folder's jobs, kept beside them: the same as read from the logs, and read anew where one has changed. */
import { appendFileSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { summariesIn } from '../../../src/job/history/summaries.ts'
import { jobBodies, writtenJob } from '../../support/job-log.ts'
import { ownFolder } from '../../support/own-folder.ts'

const whole = writtenJob()
const half = `${whole.lines.slice(0, 12).join('\n')}\n`

async function listed(folder: string) {
  const list = await summariesIn(folder)
  if (!list.ok) throw new Error(list.trouble.code)
  return list
}

function folderWithJobs(): string {
  const folder = ownFolder()
  writeFileSync(join(folder, '2026-03-03-a.ndjson'), whole.text)
  writeFileSync(join(folder, '2026-03-04-b.ndjson'), half)
  writeFileSync(join(folder, '2026-03-05-c.ndjson'), 'shopping list\n')
  return folder
}

test('a list from what was kept is the list from the logs', async () => {
  const folder = folderWithJobs()
  const first = await listed(folder)
  expect(first.summaries.map((s) => s.outcome)).toEqual(['open', 'fixed'])
  expect(first.unreadable).toEqual([join(folder, '2026-03-05-c.ndjson')])
  expect(readFileSync(join(folder, 'listed.json'), 'utf8')).toContain('2026-03-03-a.ndjson')
  expect(await listed(folder)).toEqual(first)
})

test('a log that went on, or is gone, is seen', async () => {
  const folder = folderWithJobs()
  await listed(folder)
  appendFileSync(join(folder, '2026-03-04-b.ndjson'), `${whole.lines.slice(12).join('\n')}\n`)
  rmSync(join(folder, '2026-03-03-a.ndjson'))
  const { summaries } = await listed(folder)
  expect(summaries.map((s) => [s.log, s.outcome])).toEqual([[join(folder, '2026-03-04-b.ndjson'), 'fixed']])
})

test.each(['', '{', '{"format":99,"logs":{}}', '{"format":1,"logs":{"2026-03-03-a.ndjson":{"mark":1}}}'])(
  'a kept list that reads %j counts for nothing',
  async (text) => {
    const folder = folderWithJobs()
    const right = await listed(folder)
    writeFileSync(join(folder, 'listed.json'), text)
    expect(await listed(folder)).toEqual(right)
  },
)

test('what was kept of a folder that was moved names the logs where they are now', async () => {
  const folder = folderWithJobs()
  await listed(folder)
  const moved = ownFolder()
  for (const name of ['listed.json', '2026-03-03-a.ndjson'])
    writeFileSync(join(moved, name), readFileSync(join(folder, name)))
  const { summaries } = await listed(moved)
  expect(summaries.map((s) => s.log)).toEqual([join(moved, '2026-03-03-a.ndjson')])
  expect(jobBodies.length).toBe(whole.events.length)
})
