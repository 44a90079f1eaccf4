/** The folder of one bench keeps what every history promises. */
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { lockFile } from '../../../src/io/file-lock.ts'
import { folderHistory } from '../../../src/job/history/folder-history.ts'
import { idOf, recordFor } from '../../support/job-records.ts'
import { ownFolder } from '../../support/own-folder.ts'
import { contract } from './contract.ts'

const now = () => '2026-06-01T00:00:00.000Z'

describe('the folder', () => {
  contract(async () => folderHistory(join(ownFolder(), 'jobs'), now))
})

test('a log that somebody works on is not written over', async () => {
  const folder = join(ownFolder(), 'jobs')
  const history = folderHistory(folder, now)
  await history.put([recordFor({ id: idOf(1), lines: 15 })])
  const [name = ''] = readdirSync(folder)
  const before = readFileSync(join(folder, name))
  const locked = await lockFile(join(folder, name), now())
  expect(await history.put([recordFor({ id: idOf(1) })])).toMatchObject({ handed: { taken: 0, known: 1 } })
  expect(readFileSync(join(folder, name))).toEqual(before)
  if (locked.ok) await locked.lock.release()
})
