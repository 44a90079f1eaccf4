// Logs of jobs damaged by chance, from a seed: cut off, bits flipped, lines lost, exchanged, rewritten. Counts how many
// were taken up, how many refused, and how many came out otherwise than they may.
//   node tests/bench/damaged.mjs [--variants N] [--seed S]
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { load } from './load.mjs'

const plan = (name) => fileURLToPath(new URL(`../../docs/examples/${name}.build.yaml`, import.meta.url))
const JOBS = [
  { plan: plan('small-three-fans'), symptom: 'lights-dark', fault: 'F2.light:unplugged', replies: 5 },
  { plan: plan('small-three-fans'), symptom: 'fan-still', fault: 'F2.motor:loose', replies: 8 },
  { plan: plan('plain-no-lights'), symptom: 'zero-rpm', fault: 'F1.motor:open-TACH', replies: 6 },
  { plan: plan('archive-ten-fans'), symptom: 'lights-dark', fault: 'F5.light:unplugged', replies: 7 },
].map((job) => {
  const [at, mode] = job.fault.split(':')
  return { ...job, fault: { at, mode } }
})

export async function damage({ variants = 10_000, seed = 1 } = {}) {
  const { damageAll, sampleJob } = await load('tests/support/damaged-jobs.ts')
  const { seeded } = await load('tests/bench/accuracy.ts')
  const folder = mkdtempSync(join(tmpdir(), 'whichlead-damaged-'))
  try {
    const samples = []
    for (const job of JOBS) samples.push(await sampleJob(folder, job))
    return await damageAll(samples, variants, seeded(seed), folder)
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const option = (name, usual) => {
    const at = process.argv.indexOf(name)
    return at > 0 ? Number(process.argv[at + 1]) : usual
  }
  const { variants, taken, refused, flaws } = await damage({
    variants: option('--variants', 10_000),
    seed: option('--seed', 1),
  })
  console.log(
    `${variants} damaged logs: ${taken} taken up, ${refused} refused with the place named, ${flaws.length} flaws`,
  )
  for (const flaw of flaws.slice(0, 20)) console.log(flaw)
  process.exitCode = flaws.length === 0 ? 0 : 1
}
