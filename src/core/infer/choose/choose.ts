/**
 * The next step: the one with the fewest expected minutes to a verified fix or to handing over, where repairs count
 * as checks and every change of power is paid. Exact where the search closes the gap, otherwise the best found.
 */
import type { Choice, Decision, Problem, Standing } from '../problem.ts'
import { reduce } from './reduce.ts'
import { type Step, search } from './search.ts'

/** How many other steps are reported beside the best. */
const OTHERS = 5
const WHOLE = { checks: Number.POSITIVE_INFINITY, repairs: Number.POSITIVE_INFINITY }
const NARROW = { checks: 12, repairs: 8 }

export interface ChooseOptions {
  /** Leaf values worked out at most; more is slower and closer to the optimum. */
  readonly nodes?: number
  readonly hope?: number
  readonly pick?: number
  readonly rate?: number
  readonly mostly?: number
  readonly wc?: number
  readonly wr?: number
}

/**
 * The best step at this standing, with the next best and the expected minutes of each.
 * Deterministic: no clock, no chance; ties (to 1e-9 minutes) go to handing over last, then by id.
 */
export function chooseStep(problem: Problem, standing: Standing, options: ChooseOptions = {}): Decision {
  const reduced = reduce(problem, standing)
  const found = search(reduced, {
    nodes: options.nodes ?? 20_000,
    hope: options.hope ?? 0.7,
    rate: options.rate ?? 1.5,
    mostly: options.mostly ?? 0,
    width: reduced.n <= 17 && reduced.checkOf.length <= 16 ? WHOLE : {checks: options.wc ?? 12, repairs: options.wr ?? 8},
  })
  const ranked = found.steps
    .filter((s) => s.kind !== 'repair' || reduced.repairOf[s.index]! >= 0)
    .map((s) => ({ choice: choiceOf(s), id: idOf(s), value: Math.round(((options.pick ?? 0) * s.least + (1 - (options.pick ?? 0)) * ((options.mostly ?? 0) * s.most + (1 - (options.mostly ?? 0)) * s.guess)) * 1e9) / 1e9 }))
    .sort((a, b) => a.value - b.value || (a.id < b.id ? -1 : 1))
  const [best, ...rest] = ranked
  return { best: best!.choice, others: rest.slice(0, OTHERS).map((r) => r.choice) }

  function choiceOf(s: Step): Choice {
    if (s.kind === 'escalate') return { do: 'escalate', minutes: s.most }
    const index = s.kind === 'check' ? reduced.checkOf[s.index]! : reduced.repairOf[s.index]!
    return { do: s.kind, index, minutes: s.most }
  }

  function idOf(s: Step): string {
    const choice = choiceOf(s)
    if (choice.do === 'escalate') return '￿'
    return choice.do === 'check' ? problem.checks[choice.index]!.id : problem.repairs[choice.index]!.id
  }
}
