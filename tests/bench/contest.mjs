// Ways of choosing the next step on the same whole jobs: the engine, simpler ways, and being told the fault for nothing.
import { checklist } from './checklist.mjs'
import { load } from './load.mjs'
import { gainPerMinute, oneStepRepairCost } from './rivals.mjs'

/** The share of belief at which the fixed order repairs: of 0.5, 0.8 and 0.95 the one that serves it best. */
const SURE = 0.5

const WAYS = {
  'told the fault for nothing': 'told',
  engine: 'engine',
  'one-step repair cost': () => oneStepRepairCost,
  'information gain a minute': () => gainPerMinute,
  'fixed order of an expert': checklist(SURE),
}

const mean = (list) => list.reduce((a, b) => a + b, 0) / list.length

/** Prints mean minutes to a proven fix, and what each way takes more than the engine, with its standard error. */
export async function contest(plan, jobs, seed, wrong) {
  const { drawnJobs, playWay } = await load('tests/bench/contest.ts')
  const cases = drawnJobs(plan, jobs, seed)
  const played = {}
  for (const [way, who] of Object.entries(WAYS)) played[way] = await playWay(plan, who, cases, wrong)
  console.log(`${jobs} jobs, ${100 * wrong} % of looks told wrong`)
  console.table(
    Object.entries(played).map(([way, list]) => {
      const more = list.map((p, i) => p.minutes - played.engine[i].minutes)
      const off = Math.sqrt(mean(more.map((x) => (x - mean(more)) ** 2)) / (more.length - 1))
      return {
        way,
        minutes: mean(list.map((p) => p.minutes)).toFixed(2),
        'to the engine': (
          mean(list.map((p) => p.minutes)) / mean(played.engine.map((p) => p.minutes))
        ).toFixed(3),
        'minutes more': `${mean(more).toFixed(2)} ± ${off.toFixed(2)}`,
        fixed: list.filter((p) => p.fixed).length,
        steps: mean(list.map((p) => p.steps)).toFixed(1),
      }
    }),
  )
}
