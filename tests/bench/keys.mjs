// Keys of whole jobs, each in a process of its own, as at the bench: every question stands there for the first time.
//   node tests/bench/keys.mjs [JOBS] [LOOK]   LOOK: milliseconds that the person looks before each answer; 1000
import { mkdirSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { load } from './load.mjs'
import { quantile } from './quantile.mjs'

const here = (path) => fileURLToPath(new URL(path, import.meta.url))
const command = [
  process.env.WHICHLEAD_NODE ?? process.execPath,
  process.env.WHICHLEAD_PROGRAM ?? here('../../dist/whichlead.mjs'),
]
const planFile = here('../../docs/examples/archive-ten-fans.build.yaml')
const [jobs, look] = [Number(process.argv[2] ?? 12), Number(process.argv[3] ?? 1000)]

const { keysOf } = await load('tests/bench/keys.ts')
const { singles } = await load('tests/bench/accuracy.ts')
const { readPlanFile } = await load('src/io/read-plan.ts')
const plan = readPlanFile(planFile).value
const { cases } = singles(plan)
const home = mkdtempSync(join(tmpdir(), 'whichlead-keys-'))
const env = { HOME: home, XDG_STATE_HOME: home, LANG: 'C.UTF-8' }
const ms = (list, q) => `${Math.round(quantile(list, q))} ms`

try {
  const waits = []
  // The first only fills the cache of compiled code.
  for (let i = 0; i <= jobs; i++) {
    const { symptom, faults } = cases[Math.floor(((i + 0.5) * cases.length) / (jobs + 1))]
    const folder = join(home, `job${i}`)
    mkdirSync(folder)
    const job = { command, planFile, plan, symptom, faults: faults.map((f) => f.fault), folder, env, look }
    const keys = await keysOf(job)
    if (i > 0) waits.push(...keys)
  }
  console.log(
    `${jobs} jobs, ${waits.length} keys, looked at for ${look} ms each: median ${ms(waits, 0.5)}, ` +
      `90th percentile ${ms(waits, 0.9)}, 95th ${ms(waits, 0.95)}, longest ${ms(waits, 1)}`,
  )
} finally {
  rmSync(home, { recursive: true, force: true })
}
