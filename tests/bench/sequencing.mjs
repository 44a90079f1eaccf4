// How close the chooser of steps comes to the exact optimum, in minutes over minutes:
//   node tests/bench/sequencing.mjs            the published problems and the held-out ones, every outcome followed
//   node tests/bench/sequencing.mjs --large    and builds too large to solve, played against simpler ways of choosing
//   node tests/bench/sequencing.mjs --solve    and the held-out optima worked out again (about a minute)
import { readFileSync } from 'node:fs'
import { pathToFileURL } from 'node:url'
import { load } from './load.mjs'
import { play } from './play.mjs'
import { gainPerMinute, oneStepRepairCost, repairsOnly } from './rivals.mjs'

const { chooseStep } = await load('src/core/infer/choose/choose.ts')
const { readProblem } = await load('src/cli/commands/engine-problem.ts')
const { follow } = await load('tests/core/infer/choose/follow.ts')
const { drawBuild, drawProblem } = await load('tests/core/infer/choose/draw-problem.ts')
const { optimum, optimumWithoutNoise } = await load('tests/core/infer/choose/optimum.ts')
const fixture = (name) =>
  JSON.parse(readFileSync(new URL(`../fixtures/inference/${name}.json`, import.meta.url), 'utf8'))

const mean = (list) => list.reduce((a, b) => a + b, 0) / list.length
const percent = (x) => `${(100 * x).toFixed(1)} %`

/** One line a problem: its ratio to the optimum, and the work of its decisions. */
function measure({ id, problem, startMode, least, noiseFree, manual, fixed }) {
  const nodes = []
  const { minutes, decided } = follow(problem, startMode, (p, standing) => {
    const chosen = chooseStep(p, standing)
    nodes.push(chosen.nodes)
    return chosen.best
  })
  return {
    id,
    noiseFree,
    ratio: minutes / least,
    decided,
    nodes,
    manual: minutes / manual,
    fixed: minutes / fixed,
  }
}

function summary(set, rows) {
  const nodes = rows.flatMap((r) => r.nodes).sort((a, b) => a - b)
  return {
    set,
    problems: rows.length,
    mean: mean(rows.map((r) => r.ratio)).toFixed(5),
    worst: Math.max(...rows.map((r) => r.ratio)).toFixed(5),
    optimal: percent(rows.filter((r) => r.ratio < 1 + 1e-6).length / rows.length),
    'under manual list': Number.isNaN(rows[0].manual) ? '' : percent(1 - mean(rows.map((r) => r.manual))),
    'under best fixed list': Number.isNaN(rows[0].fixed) ? '' : percent(1 - mean(rows.map((r) => r.fixed))),
    decisions: rows.reduce((sum, r) => sum + r.decided, 0),
    'nodes median': nodes[nodes.length >> 1],
    'nodes most': nodes.at(-1),
  }
}

/** The figures on both sets, and the worst three problems of each. */
export function sequencing() {
  const published = fixture('sequencing').problems.map((p) =>
    measure({
      ...readProblem(p),
      id: p.id,
      least: p.optimum.verified_fix,
      noiseFree: p.noise_free,
      manual: p.baselines.manual_checklist,
      fixed: p.baselines.static_checklist.cost,
    }),
  )
  const held = fixture('held-out').map((h) =>
    measure({
      id: h.id,
      problem: drawProblem(h.seed, h.shape, h.noise_free).problem,
      startMode: 'on',
      least: h.optimum,
      noiseFree: h.noise_free,
      manual: Number.NaN,
      fixed: Number.NaN,
    }),
  )
  const sets = { 'published, noise-free': [published, true], 'published, noisy': [published, false] }
  Object.assign(sets, { 'held out, noise-free': [held, true], 'held out, noisy': [held, false] })
  return {
    table: Object.entries(sets).map(([name, [rows, noiseFree]]) =>
      summary(
        name,
        rows.filter((r) => r.noiseFree === noiseFree),
      ),
    ),
    worst: [published, held].flatMap((rows) =>
      [...rows]
        .sort((a, b) => b.ratio - a.ratio)
        .slice(0, 3)
        .map((r) => ({ problem: r.id, ratio: r.ratio.toFixed(5) })),
    ),
  }
}

/** Mean minutes of jobs on builds too large to solve: the chooser, simpler ways, and being told for nothing. */
export function large(places, faultsEach, jobs) {
  const ways = {
    chooser: (p, standing) => chooseStep(p, standing).best,
    'one-step repair cost': oneStepRepairCost,
    'gain a minute': gainPerMinute,
    'repairs only': repairsOnly,
  }
  return Object.entries(ways).map(([way, choose]) => {
    const played = [1, 2].map((seed) => play(drawBuild(seed, places, faultsEach), 'on', choose, jobs, seed))
    return {
      way,
      suspects: places * faultsEach + 1,
      minutes: mean(played.map((r) => r.minutes)).toFixed(2),
      'told for nothing': mean(played.map((r) => r.told)).toFixed(2),
      steps: mean(played.map((r) => r.steps)).toFixed(1),
      'ms median': mean(played.map((r) => r.p50)).toFixed(1),
      'ms p95': mean(played.map((r) => r.p95)).toFixed(1),
    }
  })
}

/** The largest difference between the kept optima of the held-out problems and the same worked out again. */
export function solveAgain() {
  return Math.max(
    ...fixture('held-out').map((h) => {
      const { problem } = drawProblem(h.seed, h.shape, h.noise_free)
      const again = h.noise_free ? optimumWithoutNoise(problem, 'on') : optimum(problem, 'on')
      return Math.abs(again - h.optimum)
    }),
  )
}

if (import.meta.url === pathToFileURL(process.argv[1]).href) {
  const { table, worst } = sequencing()
  console.table(table)
  console.table(worst)
  if (process.argv.includes('--large'))
    for (const size of [5, 16, 48]) console.table(large(size, size > 10 ? 8 : 4, 60))
  if (process.argv.includes('--solve')) console.log('largest difference of held-out optima:', solveAgain())
}
