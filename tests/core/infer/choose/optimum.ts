/**
 * The exact least expected minutes of a small problem, the slow and plain way: every state there is (which answer each
 * check gave, which repairs were tried, the power state) is worked out once, with no bound and no shortcut.
 * Shares nothing with the program but the form of a problem.
 */
import type { Mode, Problem } from '../../../../src/core/infer/problem.ts'

/** How many states the problem has: the size of the table that `optimum` fills. */
export function stateCount(problem: Problem): number {
  return problem.checks.reduce((n, c) => n * (c.outcomes.length + 1), 2 ** problem.repairs.length * 2)
}

/** Least expected minutes to a verified fix or to handing over, over all policies. */
export function optimum(problem: Problem, startMode: Mode): number {
  const n = problem.suspects.length
  const checks = problem.checks
  const repairs = problem.repairs
  const value = new Float64Array(stateCount(problem)).fill(Number.NaN)
  const place: number[] = []
  let size = 2
  for (const c of checks) {
    place.push(size)
    size *= c.outcomes.length + 1
  }
  const repairPlace = repairs.map((_, r) => size * 2 ** r)
  const answered = checks.map(() => false)
  const tried = repairs.map(() => false)
  const switching = (from: Mode, to: Mode): number => (from === to ? 0 : problem.switchMinutes)

  /** Minutes times the mass of `w`, not normalised. `at` is the place in the table but for the power state. */
  function solve(w: Float64Array, mode: Mode, at: number): number {
    let mass = 0
    for (let s = 0; s < n; s++) mass += w[s]!
    if (mass < 1e-14) return 0
    const slot = at + (mode === 'on' ? 0 : 1)
    const known = value[slot]!
    if (!Number.isNaN(known)) return known
    let best = problem.escalateMinutes * mass
    const next = new Float64Array(n)
    for (let c = 0; c < checks.length; c++) {
      if (answered[c]) continue
      const check = checks[c]!
      answered[c] = true
      let minutes = mass * (check.minutes + switching(mode, check.mode))
      for (let o = 0; o < check.outcomes.length; o++) {
        for (let s = 0; s < n; s++) next[s] = w[s]! * check.table[s]![o]!
        minutes += solve(next.slice(), check.mode, at + place[c]! * (o + 1))
      }
      answered[c] = false
      if (minutes < best) best = minutes
    }
    for (let r = 0; r < repairs.length; r++) {
      if (tried[r]) continue
      const repair = repairs[r]!
      let cured = 0
      for (let s = 0; s < n; s++) {
        next[s] = repair.fixes[s] === 1 ? 0 : w[s]!
        cured += w[s]! - next[s]!
      }
      if (cured === 0) continue
      tried[r] = true
      const minutes =
        mass * (repair.minutes + switching(mode, repair.mode) + switching(repair.mode, problem.verifyMode)) +
        solve(next.slice(), problem.verifyMode, at + repairPlace[r]!)
      tried[r] = false
      if (minutes < best) best = minutes
    }
    value[slot] = best
    return best
  }
  return solve(
    Float64Array.from(problem.suspects, (s) => s.prior),
    startMode,
    0,
  )
}

/**
 * The same for a problem without wrong answers, larger than `optimum` can hold: what is known is which suspects are
 * still possible, so a state is that set and the power state. No bound either.
 */
export function optimumWithoutNoise(problem: Problem, startMode: Mode): number {
  const n = problem.suspects.length
  const prior = problem.suspects.map((s) => s.prior)
  const known = new Map<number, number>()
  const switching = (from: Mode, to: Mode): number => (from === to ? 0 : problem.switchMinutes)
  const setOf = (holds: (s: number) => boolean): number =>
    prior.reduce((set, _, s) => (holds(s) ? set | (1 << s) : set), 0)
  const outcomeSets = problem.checks.map((c) => c.outcomes.map((_, o) => setOf((s) => c.table[s]![o]! === 1)))
  const cured = problem.repairs.map((r) => setOf((s) => r.fixes[s] === 1))

  function solve(set: number, mode: Mode): number {
    if (set === 0) return 0
    const key = set * 2 + (mode === 'on' ? 0 : 1)
    const before = known.get(key)
    if (before !== undefined) return before
    let mass = 0
    for (let s = 0; s < n; s++) if ((set >> s) & 1) mass += prior[s]!
    let best = problem.escalateMinutes * mass
    problem.checks.forEach((check, c) => {
      const parts = outcomeSets[c]!.map((o) => o & set)
      if (parts.includes(set)) return
      const own = mass * (check.minutes + switching(mode, check.mode))
      best = Math.min(
        best,
        parts.reduce((sum, part) => sum + solve(part, check.mode), own),
      )
    })
    problem.repairs.forEach((repair, r) => {
      const left = set & ~cured[r]!
      if (left === set) return
      const own = repair.minutes + switching(mode, repair.mode) + switching(repair.mode, problem.verifyMode)
      best = Math.min(best, mass * own + solve(left, problem.verifyMode))
    })
    known.set(key, best)
    return best
  }
  return solve(
    setOf(() => true),
    startMode,
  )
}
