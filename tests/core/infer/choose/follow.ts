/**
 * The exact expected minutes of a way of choosing: every outcome is followed with its probability, no simulation.
 * The rules of the game: a check once; switching is paid before, and after a repair made in the other power state;
 * a repair is a perfect test, the symptom is looked at straight after it; handing over ends the job.
 */
import type { Choice, Mode, Problem, Standing } from '../../../../src/core/infer/problem.ts'

type Step = { readonly do: 'escalate' } | { readonly do: 'check' | 'repair'; readonly index: number }

export interface Followed {
  readonly minutes: number
  /** Standings at which a step was chosen. */
  readonly decided: number
}

/** Outcomes less likely than this altogether are not followed. */
const NEVER = 1e-13

export function follow(
  problem: Problem,
  startMode: Mode,
  choose: (problem: Problem, standing: Standing) => Step | Choice,
): Followed {
  const known = new Map<string, number>()
  let decided = 0
  const switching = (from: Mode, to: Mode): number => (from === to ? 0 : problem.switchMinutes)

  /** Minutes times the mass of the weights. */
  function from(weights: Float64Array, mode: Mode, answers: readonly string[]): number {
    const mass = weights.reduce((a, b) => a + b, 0)
    if (mass < NEVER) return 0
    const key = `${mode}|${[...answers].sort().join()}`
    const before = known.get(key)
    if (before !== undefined) return before * mass
    const done = new Set(answers.map((a) => a.slice(0, a.indexOf('='))))
    decided++
    const step = choose(problem, {
      belief: weights.map((w) => w / mass),
      mode,
      checksLeft: [...problem.checks.keys()].filter((i) => !done.has(`c${i}`)),
      repairsLeft: [...problem.repairs.keys()].filter((i) => !done.has(`r${i}`)),
    })
    const minutes = taking(step, weights, mass, mode, answers, done)
    known.set(key, minutes / mass)
    return minutes
  }

  function taking(
    step: Step | Choice,
    weights: Float64Array,
    mass: number,
    mode: Mode,
    answers: readonly string[],
    done: ReadonlySet<string>,
  ): number {
    if (step.do === 'escalate') return problem.escalateMinutes * mass
    const name = `${step.do === 'check' ? 'c' : 'r'}${step.index}`
    if (done.has(name)) throw new Error(`${name} was chosen twice`)
    if (step.do === 'check') {
      const check = problem.checks[step.index]!
      let minutes = (switching(mode, check.mode) + check.minutes) * mass
      for (let o = 0; o < check.outcomes.length; o++) {
        const after = weights.map((w, s) => w * check.table[s]![o]!)
        minutes += from(after, check.mode, [...answers, `${name}=${o}`])
      }
      return minutes
    }
    const repair = problem.repairs[step.index]!
    const own = switching(mode, repair.mode) + repair.minutes + switching(repair.mode, problem.verifyMode)
    const left = weights.map((w, s) => (repair.fixes[s] === 1 ? 0 : w))
    return own * mass + from(left, problem.verifyMode, [...answers, `${name}=stays`])
  }

  const minutes = from(
    Float64Array.from(problem.suspects, (s) => s.prior),
    startMode,
    [],
  )
  return { minutes, decided }
}
