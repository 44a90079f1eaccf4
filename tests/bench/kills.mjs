// Kills the built program with SIGKILL at every point of several jobs (each message, each reply, each line of the log),
// takes each up again, and counts what was lost or changed.
//   node tests/bench/kills.mjs [--stride N]      needs a built program
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath, pathToFileURL } from 'node:url'
import { load } from './load.mjs'

const here = (path) => fileURLToPath(new URL(path, import.meta.url))
const program = here('../../dist/whichlead.mjs')
const plan = here('../../docs/examples/archive-ten-fans.build.yaml')
const small = here('../../docs/examples/small-three-fans.build.yaml')

const JOBS = [
  { plan, symptom: 'lights-dark', fault: 'F5.light:unplugged' },
  { plan, symptom: 'fan-still', fault: 'F4.motor:unplugged' },
  { plan, symptom: 'zero-rpm', fault: 'F7.motor:open-TACH' },
  { plan, symptom: 'lights-stuck', fault: 'host/program:not-running' },
  { plan: small, symptom: 'lights-dark', fault: 'F2.light:swapped-with-F3.light' },
]

export async function kills({ stride = 1, tell = () => {} } = {}) {
  const { killAndResume, killPoints, wholeJob } = await load('tests/support/kill-job.ts')
  const folder = mkdtempSync(join(tmpdir(), 'whichlead-kills-'))
  const sum = { jobs: 0, points: 0, struck: 0, flaws: [] }
  try {
    for (const job of JOBS) {
      const whole = await wholeJob({ ...job, program, folder })
      const points = killPoints(whole).filter((_, i) => i % stride === 0)
      const left = [...points]
      // Two at a time: the program waits for the disk most of the time.
      const worker = async () => {
        for (let at = left.shift(); at; at = left.shift()) {
          const killed = await killAndResume(whole, at)
          sum.points++
          if (killed.struck) sum.struck++
          sum.flaws.push(...killed.flaws.map((f) => `${job.symptom} ${job.fault} ${f}`))
        }
      }
      await Promise.all([worker(), worker()])
      sum.jobs++
      tell(
        `${job.symptom}, ${job.fault}: ${points.length} points, ${whole.said.length} answers, ${whole.end.outcome}`,
      )
    }
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
  return sum
}

if (process.argv[1] && import.meta.url === pathToFileURL(process.argv[1]).href) {
  const at = process.argv.indexOf('--stride')
  const { jobs, points, struck, flaws } = await kills({
    stride: at > 0 ? Number(process.argv[at + 1]) : 1,
    tell: console.log,
  })
  console.log(`${jobs} jobs, ${points} kill points, ${struck} struck a running job, ${flaws.length} flaws`)
  for (const flaw of flaws.slice(0, 20)) console.log(flaw)
  process.exitCode = flaws.length === 0 ? 0 : 1
}
