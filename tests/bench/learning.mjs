// What closed jobs are worth, on simulated benches: expected minutes with and without learning, after 200 jobs.
//   node tests/bench/learning.mjs [--plan NAME] [--seeds N] [--few N] [--share S] [--prior A] [--stride N] [--classes]
// With --classes only how well the true class of fault comes out, over more benches: that takes one round of jobs instead of many.
import { readFile } from 'node:fs/promises'
import { load } from './load.mjs'

const argv = process.argv.slice(2)
const option = (name, usual) => (argv.includes(name) ? argv[argv.indexOf(name) + 1] : usual)
const seeds = Number(option('--seeds', '3'))
const few = Number(option('--few', '3'))
const share = Number(option('--share', '0.7'))
const prior = argv.includes('--prior') ? Number(option('--prior')) : undefined
const name = option('--plan', 'small-three-fans')
const { benchFor, NOTHING_LEARNT } = await load('tests/bench/learning.ts')
const { readPlan } = await load('src/core/plan/read.ts')

const file = `docs/examples/${name}.build.yaml`
const read = readPlan(await readFile(file, 'utf8'), file)
if (!read.ok) throw new Error(`${file} cannot be read`)
const bench = benchFor(read.value, Number(option('--stride', '1')))
const began = Date.now()
const without = await bench.playAll(NOTHING_LEARNT)
const broke = without.filter((p) => p.outcome !== 'fixed').length
console.log(
  `${name}: ${bench.cases.length} cases, ${broke} not fixed, ${((Date.now() - began) / 1000).toFixed(0)} s a round`,
)

if (argv.includes('--classes')) {
  for (const [often, part] of [
    [3, 0.7],
    [1, 0.5],
    [5, 0.6],
    [0, 0],
  ]) {
    let sum = 0
    const benches = 12
    for (let seed = 1; seed <= benches; seed++) {
      const odds = bench.truth(seed, often, part)
      sum += bench.toldOf(odds, bench.taught(odds, without, 200, seed, prior)) / benches
    }
    const skew = often === 0 ? 'unskewed' : `${Math.round(100 * part)} % of jobs in ${often} classes`
    console.log(`${skew}: ${sum.toFixed(2)} decibans for the true class`)
  }
  process.exit(0)
}

let worst = 0
for (const [kind, n] of [
  ['skewed', few],
  ['unskewed', 0],
]) {
  const gains = []
  for (let seed = 1; seed <= (n === 0 ? Math.min(2, seeds) : seeds); seed++) {
    const odds = bench.truth(seed, n, share)
    const learned = bench.taught(odds, without, 200, seed, prior)
    const after = await bench.playAll(learned)
    const [a, b] = [bench.expected(odds, without), bench.expected(odds, after)]
    gains.push((100 * (a - b)) / a)
    console.log(
      `  ${kind}, seed ${seed}: ${a.toFixed(2)} min without, ${b.toFixed(2)} min with: ${(-(100 * (b - a)) / a).toFixed(1)} % fewer`,
    )
  }
  const mean = gains.reduce((x, y) => x + y, 0) / gains.length
  worst = Math.min(worst, ...gains)
  console.log(
    `${kind}: ${mean.toFixed(1)} % fewer on average, from ${Math.min(...gains).toFixed(1)} to ${Math.max(...gains).toFixed(1)} %`,
  )
}
