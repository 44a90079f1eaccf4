// Reliability of the shares that are told: by tenths, how often the first suspect was right. `node tests/bench/calibration.mjs [jobs]`.
import { readFile } from 'node:fs/promises'
import { pathToFileURL } from 'node:url'
import { load } from './load.mjs'

export async function calibration(jobs) {
  const { saidInJobs } = await load('tests/bench/calibration.ts')
  const { readPlan } = await load('src/core/plan/read.ts')
  const bins = Array.from({ length: 10 }, () => ({ n: 0, p: 0, right: 0 }))
  for (const name of ['small-three-fans', 'archive-ten-fans']) {
    const file = `docs/examples/${name}.build.yaml`
    const read = readPlan(await readFile(file, 'utf8'), file)
    if (!read.ok) throw new Error(`${file} cannot be read`)
    for (const { p, right } of await saidInJobs(read.value, jobs / 2, 0.05, 11)) {
      const bin = bins[Math.min(9, Math.floor(p * 10))]
      bin.n++
      bin.p += p
      bin.right += right ? 1 : 0
    }
  }
  console.log(`calibration over ${jobs} jobs, 5 % of looks told wrong`)
  console.log('told        n   mean told   right')
  let gap = 0
  let all = 0
  for (const [i, { n, p, right }] of bins.entries()) {
    if (n === 0) continue
    gap += Math.abs(p - right)
    all += n
    const cells = [
      `${i * 10}–${i * 10 + 10} %`.padEnd(9),
      String(n).padStart(4),
      `${((100 * p) / n).toFixed(0)} %`.padStart(9),
      `${((100 * right) / n).toFixed(0)} %`.padStart(9),
    ]
    console.log(cells.join(' '))
  }
  console.log(`mean gap between told and right: ${((100 * gap) / all).toFixed(1)} points`)
}

if (import.meta.url === pathToFileURL(process.argv[1]).href) await calibration(Number(process.argv[2] ?? 200))
