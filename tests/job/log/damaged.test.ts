/** Logs of real jobs damaged in every way that files are; `tests/bench/damaged.mjs` does the same ten thousand times. */
import { fileURLToPath } from 'node:url'
import { expect, test } from 'vitest'
import { seeded } from '../../bench/accuracy.ts'
import { damageAll, sampleJob } from '../../support/damaged-jobs.ts'
import { ownFolder } from '../../support/own-folder.ts'

test('a damaged log goes on from a true beginning of the job, or is refused with the place named', async () => {
  const folder = ownFolder()
  const plan = fileURLToPath(new URL('../../../docs/examples/small-three-fans.build.yaml', import.meta.url))
  const dark = { plan, symptom: 'lights-dark', fault: { at: 'F2.light', mode: 'unplugged' }, replies: 4 }
  // Another symptom, so that no beginning of one is a beginning of the other.
  const still = { plan, symptom: 'fan-still', fault: { at: 'F2.motor', mode: 'loose' }, replies: 2 }
  const samples = [await sampleJob(folder, dark), await sampleJob(folder, still)]
  const { flaws, taken, refused } = await damageAll(samples, 80, seeded(20260303), folder)
  expect(flaws).toEqual([])
  expect([taken > 10, refused > 30]).toEqual([true, true])
}, 150_000)
