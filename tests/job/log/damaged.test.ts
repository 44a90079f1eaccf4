/** Logs of real jobs damaged in every way that files are; `tests/bench/damaged.mjs` does the same ten thousand times. */
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { seeded } from '../../bench/accuracy.ts'
import { damageAll, sampleJob } from '../../support/damaged-jobs.ts'
import { ownFolder } from '../../support/own-folder.ts'

test('a damaged log goes on from a true beginning of the job, or is refused with the place named', async () => {
  const folder = ownFolder()
  const plan = fileURLToPath(new URL('../../../docs/examples/small-three-fans.build.yaml', import.meta.url))
  const job = { plan, symptom: 'lights-dark', fault: { at: 'F2.light', mode: 'unplugged' } }
  const samples = [
    await sampleJob(folder, { ...job, replies: 4 }),
    await sampleJob(folder, { ...job, replies: 7 }),
  ]
  const { flaws, taken, refused } = await damageAll(samples, 300, seeded(20260303), folder)
  expect(flaws).toEqual([])
  expect([taken > 50, refused > 50]).toEqual([true, true])
})
