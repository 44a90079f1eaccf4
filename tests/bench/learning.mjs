// What closed jobs are worth, on simulated benches: minutes to a verified fix with and without learning after 200 jobs, by
// how much of all work comes from three causes, and with the true odds known. Standard errors are over benches, each of which
// works the same jobs both ways.
//   node tests/bench/learning.mjs [PLAN…] [--seeds N] [--tests N] [--jobs N] [--stride N] [--narrow] [--share S]…
import { readFile } from 'node:fs/promises'
import { parseArgs } from 'node:util'
import { load } from './load.mjs'

const { values, positionals } = parseArgs({
  allowPositionals: true,
  options: {
    seeds: { type: 'string', default: '4' },
    tests: { type: 'string', default: '40' },
    jobs: { type: 'string', default: '200' },
    stride: { type: 'string' },
    narrow: { type: 'boolean', default: false },
    share: { type: 'string', multiple: true },
  },
})
const [seeds, tests, jobs] = [Number(values.seeds), Number(values.tests), Number(values.jobs)]
/** Of a larger build's faults fewer are taken: its jobs are more, and longer. */
const STRIDES = { 'small-three-fans': 3, 'archive-ten-fans': 24 }
/** Up to four fifths: what is said of the vital few (common practice, no source). */
const SHARES = [0, 1 / 3, 1 / 2, 2 / 3, 4 / 5]

const { benchFor, NOTHING_LEARNT } = await load('tests/bench/learning.ts')
const { readPlan } = await load('src/core/plan/read.ts')

/** Mean and its standard error. */
function told(list) {
  const mean = list.reduce((a, b) => a + b, 0) / list.length
  const square = list.reduce((sum, x) => sum + (x - mean) ** 2, 0) / Math.max(1, list.length - 1)
  return `${mean.toFixed(1)} ± ${Math.sqrt(square / list.length).toFixed(1)}`
}

for (const name of positionals.length > 0 ? positionals : Object.keys(STRIDES)) {
  const file = `docs/examples/${name}.build.yaml`
  const read = readPlan(await readFile(file, 'utf8'), file)
  if (!read.ok) throw new Error(`${file} cannot be read`)
  const stride = Number(values.stride ?? STRIDES[name] ?? 1)
  const bench = benchFor(read.value, stride)
  console.log(
    `${name}: ${bench.cases} faults under their symptoms (each ${stride}th), ${seeds} benches, ${jobs} jobs each, then ${tests}`,
  )
  console.log('from three causes   minutes without   fewer with, %   fewer with the true odds, %')
  for (const share of values.share?.map(Number) ?? SHARES) {
    const minutes = []
    const fewer = []
    const most = []
    for (let seed = 1; seed <= seeds; seed++) {
      const odds = bench.truth(seed, share, values.narrow)
      const before = await bench.minutes(odds, NOTHING_LEARNT, tests, seed)
      const after = await bench.minutes(odds, await bench.taught(odds, jobs, seed), tests, seed)
      const best = await bench.minutes(odds, bench.exact(odds), tests, seed)
      minutes.push(before)
      fewer.push((100 * (before - after)) / before)
      most.push((100 * (before - best)) / before)
    }
    const each = fewer.map((f, i) => `${f.toFixed(0)}/${most[i].toFixed(0)}`).join(' ')
    console.log(
      `${share === 0 ? 'as the catalogue' : `${Math.round(100 * share)} %`.padEnd(16)}    ${told(minutes).padEnd(15)}   ${told(fewer).padEnd(13)}   ${told(most).padEnd(11)}   (${each})`,
    )
  }
}
