// All measures, as `npm run bench` prints them. Ratios and counts are what to look at; milliseconds are of this machine.
//   node tests/bench/run.mjs [start|steps|accuracy|wrong|pairs|comes|outside|contest|calibration|sequencing|kills|damaged]… [--full] [--stride N] [--seed N] [--stuck N]
// Without names: all, on a sample of the jobs (about a quarter of an hour on a quiet machine). With --full every job, for
// hours; with --stride each Nth, whatever the measure's own sample is. --seed is for `comes` and `outside`, --stuck (things wrong at once) for `outside`.
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { cpus, tmpdir, totalmem } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { setFlagsFromString } from 'node:v8'
import { setUpEngine } from '../../scripts/packed/engine-flags.mjs'
import { damage } from './damaged.mjs'
import { kills } from './kills.mjs'
import { load } from './load.mjs'
import { quantile } from './quantile.mjs'
import { start } from './start.mjs'

// As the program runs.
setUpEngine(setFlagsFromString, ['check'], false)

const argv = process.argv.slice(2)
const option = (name) => (argv.includes(name) ? Number(argv[argv.indexOf(name) + 1]) : undefined)
const full = argv.includes('--full')
const given = option('--stride')
/** Of each measure's jobs this Nth is taken. */
const strideOf = (usual) => given ?? (full ? 1 : usual)
const wanted = argv.filter(
  (a, i) => !a.startsWith('--') && !/^--(?:stride|seed|stuck)$/.test(argv[i - 1] ?? ''),
)
const runs = (name) => wanted.length === 0 || wanted.includes(name)

const { singles, pairs, score, caseName } = await load('tests/bench/accuracy.ts')
const { readPlanFile } = await load('src/io/read-plan.ts')
const { widePlan } = await load('tests/support/wide-plan.ts')

const EXAMPLES = ['small-three-fans', 'plain-no-lights', 'archive-ten-fans']
/** Larger builds have more jobs, which take longer. */
const STRIDES = { 'small-three-fans': 24, 'plain-no-lights': 24, 'archive-ten-fans': 72 }
const planAt = (path) => {
  const read = readPlanFile(path)
  if (!read.ok) throw new Error(`${path} cannot be read`)
  return read.value
}
const example = (name) =>
  planAt(fileURLToPath(new URL(`../../docs/examples/${name}.build.yaml`, import.meta.url)))

const ms = (x) => `${x < 10 ? x.toFixed(1) : Math.round(x)} ms`
const percent = (n, of) => `${((100 * n) / of).toFixed(1)} %`
const mean = (list) => list.reduce((a, b) => a + b, 0) / list.length
const waitsOf = (waits) =>
  `median ${ms(quantile(waits, 0.5))}, 95th percentile ${ms(quantile(waits, 0.95))}, longest ${ms(quantile(waits, 1))}`

/** Plays the cases and says how they ended. */
async function told(name, plan, cases, stride, wrong = 0) {
  const chosen = cases.filter((_, i) => i % stride === 0)
  const scores = []
  for (const [i, one] of chosen.entries()) scores.push(await score(plan, one, wrong, i + 1))
  const named = scores.filter((s) => s.named)
  const outcomes = new Map()
  for (const s of scores) outcomes.set(s.outcome, (outcomes.get(s.outcome) ?? 0) + 1)
  console.log(
    `${name}, each ${stride}th: ${named.length} of ${scores.length} named (${percent(named.length, scores.length)}); ` +
      `${[...outcomes].map(([o, n]) => `${o} ${n}`).join(', ')}; declined ${percent(outcomes.get('declined') ?? 0, scores.length)}; ` +
      `${mean(scores.map((s) => s.asked)).toFixed(1)} questions and steps, ${mean(scores.map((s) => s.minutes)).toFixed(1)} minutes a job`,
  )
  for (const s of scores.filter((s) => !s.named).slice(0, 15))
    console.log(`    not named: ${caseName(s.case)}: ${s.outcome}, ${s.instead}`)
  return scores
}

console.log(
  `${cpus().length} cores (${cpus()[0]?.model ?? 'unknown'}), ${Math.round(totalmem() / 2 ** 30)} GiB, ${process.platform}, Node ${process.version}`,
)

if (runs('start')) {
  const s = await start()
  console.log(`\nStart, median of 15, Node ${s.node}`)
  console.log(`node -e 0:      ${ms(s.empty)}`)
  console.log(`--version:      ${ms(s.version)}, ${s.versionRatio.toFixed(2)} of node -e 0`)
  console.log(
    `check, ten fans: ${ms(s.check)}, ${s.checkRatio.toFixed(2)} of --version; the first time ${ms(s.checkFirst)}, ${s.checkFirstRatio.toFixed(2)}`,
  )
  console.log(`first frame:    ${ms(s.frame)}, ${s.frameRatio.toFixed(2)} of node -e 0`)
  console.log(
    `memory then:    ${s.memory === undefined ? 'not told by this system' : `${Math.round(s.memory)} MB resident`}`,
  )
  console.log(`program:        ${Math.round(s.bytes / 1000)} kB in one file`)
}

if (runs('steps')) {
  console.log('\nFrom an answer to the next question, log in memory')
  const folder = mkdtempSync(join(tmpdir(), 'whichlead-bench-'))
  try {
    for (const fans of [10, 100, 1000]) {
      const path = join(folder, `${fans}.build.yaml`)
      writeFileSync(path, widePlan(fans))
      const plan = planAt(path)
      const { cases } = singles(plan, fans > 100 ? 997 : 1)
      const few = cases.filter((_, i) => i % Math.ceil(cases.length / (fans > 100 ? 4 : 12)) === 0)
      const jobs = []
      for (const one of few) jobs.push((await score(plan, one)).waits)
      const waits = jobs.flat()
      console.log(`${fans} fans on hubs: ${few.length} jobs, ${waits.length} replies: ${waitsOf(waits)}`)
      // With code that runs for the first time; who comes to a bench often starts a process of their own.
      if (fans === 10)
        console.log(
          `    the first job of the process: ${waitsOf(jobs[0])}; those after it: ${waitsOf(jobs.slice(1).flat())}`,
        )
    }
  } finally {
    rmSync(folder, { recursive: true, force: true })
  }
}

if (runs('accuracy')) {
  console.log('\nEvery single fault, under every symptom it shows, true answers')
  for (const name of EXAMPLES) {
    const plan = example(name)
    const { cases, unseen, all } = singles(plan)
    const scores = await told(name, plan, cases, strideOf(STRIDES[name]))
    console.log(
      `    ${all} faults, ${unseen} of them show under none of the symptoms; ${waitsOf(scores.flatMap((s) => s.waits))}`,
    )
  }
}

if (runs('wrong'))
  for (const wrong of [0.05, 0.1]) {
    console.log(`\nThe same with ${100 * wrong} % of the looks told wrong`)
    for (const name of EXAMPLES) {
      const plan = example(name)
      await told(name, plan, singles(plan).cases, strideOf(STRIDES[name]), wrong)
    }
  }

if (runs('pairs')) {
  console.log(
    '\nPairs of the 30 likeliest faults that can be seen to be two, under the first symptom both show, true answers',
  )
  for (const name of EXAMPLES) {
    const plan = example(name)
    await told(name, plan, pairs(plan, 30), strideOf(4))
  }
}

if (runs('comes')) {
  console.log(
    '\nFaults that come and go, their contact drawn anew after each change to the build; true answers',
  )
  const { closed, unsteadyCases } = await load('tests/bench/come-and-go.ts')
  for (const name of EXAMPLES) {
    const plan = example(name)
    const cases = unsteadyCases(plan).filter((_, i) => i % strideOf(STRIDES[name] / 6) === 0)
    const ends = []
    for (const [i, one] of cases.entries()) ends.push(await closed(plan, one, i + (option('--seed') ?? 1)))
    const lost = ends.filter((e) => e.alive && e.outcome === 'fixed')
    const weight = (list) => list.reduce((sum, e) => sum + e.weight, 0)
    console.log(
      `${name}: ${lost.length} of ${ends.length} closed as fixed with the fault alive, ${percent(weight(lost), weight(ends))} by prior; ` +
        `${ends.filter((e) => e.named).length} named, ${ends.filter((e) => e.outcome === 'handed-over').length} handed over; ` +
        `${mean(ends.map((e) => e.minutes)).toFixed(1)} minutes a job, ${mean(ends.map((e) => e.cost)).toFixed(1)} with those of one not fixed`,
    )
  }
}

if (runs('outside')) {
  const [seed, stuck] = [option('--seed') ?? 8, option('--stuck') ?? 3]
  console.log(`\nCauses outside the catalogue: ${stuck} wrong on one map, whatever is done; seed ${seed}`)
  const { outsiders, endOf } = await load('tests/bench/outsiders.ts')
  for (const name of EXAMPLES) {
    const plan = example(name)
    const ends = []
    for (const one of outsiders(plan, full ? 10 : 1, seed, stuck)) ends.push(await endOf(plan, one))
    const declined = ends.filter((e) => e.outcome === 'declined')
    console.log(
      `${name}: ${declined.length} of ${ends.length} declined (${percent(declined.length, ends.length)}); ` +
        `${mean(ends.map((e) => e.minutes)).toFixed(1)} minutes a job, ${Math.max(...ends.map((e) => e.minutes))} at most`,
    )
    for (const e of ends.filter((e) => e.outcome !== 'declined'))
      console.log(`    ${e.of.symptom} ${[...e.of.stuck].join(' ')}: ${e.outcome}, ${e.first}`)
  }
}

if (runs('contest')) {
  console.log('\nWays of choosing the next step, on the same jobs of the ten-fan example, drawn by prior')
  const { contest } = await import('./contest.mjs')
  for (const wrong of [0, 0.05]) await contest(example('archive-ten-fans'), full ? 200 : 40, 7, wrong)
}

if (runs('calibration')) {
  console.log('\nWhether 80 % means 80 %')
  const { calibration } = await import('./calibration.mjs')
  await calibration(full ? 200 : 40)
}

if (runs('sequencing')) {
  console.log('\nMinutes over the optimum')
  const { sequencing } = await import('./sequencing.mjs')
  const { table, worst } = sequencing()
  console.table(table)
  console.table(worst)
}

if (runs('kills')) {
  console.log('\nKilled without warning and taken up again')
  const { jobs, points, struck, flaws } = await kills({
    stride: strideOf(1),
    tell: (text) => console.log(`    ${text}`),
  })
  console.log(`${jobs} jobs, ${points} kill points, ${struck} struck a running job, ${flaws.length} flaws`)
  for (const flaw of flaws.slice(0, 20)) console.log(flaw)
}

if (runs('damaged')) {
  console.log('\nLogs damaged by chance')
  const { variants, taken, refused, flaws } = await damage({ variants: Math.ceil(10_000 / strideOf(10)) })
  console.log(
    `${variants} damaged logs: ${taken} taken up, ${refused} refused with the place named, ${flaws.length} flaws`,
  )
  for (const flaw of flaws.slice(0, 20)) console.log(flaw)
}
