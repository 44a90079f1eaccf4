/** What waits to be handed in: found from the folder, noted when it is there, and nothing lost with the note. */
import { mkdirSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeEach, expect, test } from 'vitest'
import type { History, JobRecord } from '../../../src/job/history/history.ts'
import { handIn, ownLogs, remember } from '../../../src/job/history/outbox.ts'
import { bytesOf, idOf } from '../../support/job-records.ts'
import { ownFolder } from '../../support/own-folder.ts'

let folder: string
let there: Map<string, JobRecord>
let offered: number
let says: (jobs: readonly JobRecord[]) => string | undefined

const never = () => Promise.reject(new Error('not asked for here'))
const store: History & { id: string } = {
  id: 'one',
  find: never,
  sums: never,
  log: never,
  taught: never,
  forget: never,
  close: () => Promise.resolve(),
  put: async (jobs) => {
    offered += jobs.length
    const code = says(jobs)
    if (code === 'failed' || code === 'lost')
      return { ok: false, trouble: { code, where: 'here', facts: {} } }
    const fresh = jobs.filter((job) => !there.has(job.id))
    for (const job of jobs) there.set(job.id, job)
    return { ok: true, handed: { taken: fresh.length, known: jobs.length - fresh.length } }
  },
}
const always = { goOn: () => true }
const put = (n: number, lines = 8) =>
  writeFileSync(join(folder, `${String(n).padStart(3, '0')}.ndjson`), bytesOf({ id: idOf(n), lines }))

beforeEach(() => {
  folder = join(ownFolder(), 'jobs')
  mkdirSync(folder)
  there = new Map()
  offered = 0
  says = () => undefined
})

test('each log is offered once, and again when it has grown', async () => {
  for (const n of [1, 2, 3]) put(n)
  expect(await handIn(folder, store, always)).toMatchObject({ done: { taken: 3, known: 0, waiting: 0 } })
  expect(await handIn(folder, store, always)).toMatchObject({ done: { taken: 0, known: 0 } })
  expect(offered).toBe(3)
  put(2, 12)
  await handIn(folder, store, always)
  expect(offered).toBe(4)
  expect(there.get(idOf(2))?.lines).toBe(12)
})

test('without the note, or for another store, all are offered again', async () => {
  put(1)
  await handIn(folder, store, always)
  rmSync(join(folder, 'handed-in.json'))
  expect(await handIn(folder, store, always)).toMatchObject({ done: { taken: 0, known: 1 } })
  writeFileSync(join(folder, 'handed-in.json'), '{"format":1,"stores":"spoilt"')
  expect(await handIn(folder, store, always)).toMatchObject({ done: { known: 1 } })
  expect(await handIn(folder, { ...store, id: 'another' }, always)).toMatchObject({ done: { known: 1 } })
  expect(await handIn(folder, store, { ...always, all: true })).toMatchObject({ done: { known: 1 } })
})

test('what there is no time for waits, the newest first; what is no job does not', async () => {
  for (const n of [1, 2, 3]) put(n)
  writeFileSync(join(folder, '000.ndjson'), 'nothing of the kind\n')
  let left = 2
  const done = await handIn(folder, store, { goOn: () => left-- > 0 })
  expect(done).toMatchObject({ done: { taken: 2, waiting: 2 } })
  expect([...there.keys()]).toEqual([idOf(3), idOf(2)])
  expect(await handIn(folder, store, always)).toMatchObject({ done: { taken: 1, waiting: 0 } })
})

test('a job that the store does not take keeps no other back', async () => {
  for (const n of [1, 2, 3]) put(n)
  says = (jobs) => (jobs.some((job) => job.id === idOf(2)) ? 'failed' : undefined)
  const done = await handIn(folder, store, always)
  expect(done).toMatchObject({ done: { taken: 2, refused: [{ log: join(folder, '002.ndjson') }] } })
  expect([...there.keys()].sort()).toEqual([idOf(1), idOf(3)])
})

test('a store that goes meanwhile is told; what it had by then is not offered again', async () => {
  for (let n = 0; n < 60; n++) put(n)
  says = () => (offered > 50 ? 'lost' : undefined)
  expect(await handIn(folder, store, always)).toMatchObject({ ok: false, trouble: { code: 'lost' } })
  says = () => undefined
  expect(await handIn(folder, store, always)).toMatchObject({ done: { taken: 10, known: 0 } })
})

test('a log that lies elsewhere is remembered until it was handed in', async () => {
  const path = join(folder, '..', 'mine.ndjson')
  writeFileSync(path, bytesOf({ id: idOf(9), lines: 8 }))
  await remember(folder, path)
  says = () => 'lost'
  expect((await handIn(folder, store, always)).ok).toBe(false)
  says = () => undefined
  expect(await handIn(folder, store, always)).toMatchObject({ done: { taken: 1 } })
  expect(await ownLogs(folder, 'one')).toEqual(new Map([[idOf(9), path]]))
  expect(await handIn(folder, store, always)).toMatchObject({ done: { taken: 0, known: 0 } })
})
