// The audit of a thousand fans, and against five hundred: near 2 where the work grows with the build, 4 where with its square.
// And the whole command on a plan of a thousand fans, against an empty program.
import { execFileSync, spawnSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { load } from './load.mjs'

const program =
  process.env.WHICHLEAD_PROGRAM ?? fileURLToPath(new URL('../../dist/whichlead.mjs', import.meta.url))
const node = process.env.WHICHLEAD_NODE ?? process.execPath
const ROUNDS = 7

const { auditTimes } = await load('tests/bench/audit.ts')
const { widePlan } = await load('tests/support/wide-plan.ts')
const { half, whole } = auditTimes()
console.log(`audit of 1000 fans: ${whole.toFixed(0)} ms, ${(whole / half).toFixed(2)} times that of 500`)

const timed = (run) => {
  const began = performance.now()
  run()
  return performance.now() - began
}
const median = (list) => [...list].sort((a, b) => a - b)[list.length >> 1]

const folder = mkdtempSync(join(tmpdir(), 'whichlead-audit-'))
try {
  const plan = join(folder, 'wall.build.yaml')
  writeFileSync(plan, widePlan(1000))
  const env = { ...process.env, XDG_CACHE_HOME: folder }
  const check = () => spawnSync(node, [program, 'check', plan], { env })
  check()
  const pairs = Array.from({ length: ROUNDS }, () => [
    timed(() => execFileSync(node, ['-e', '0'])),
    timed(check),
  ])
  const ratio = median(pairs.map(([empty, checked]) => checked / empty))
  console.log(
    `check of 1000 fans: ${median(pairs.map(([, c]) => c)).toFixed(0)} ms, ${ratio.toFixed(1)} of node -e 0`,
  )
} finally {
  rmSync(folder, { recursive: true, force: true })
}
