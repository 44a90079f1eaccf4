// The exact expected minutes of a way of choosing: every outcome is followed with its probability, no simulation.
// The rules of the game: a check once; switching is paid before, and after a repair made in the other power state;
// a repair is a perfect test; handing over ends the job.

/** `choose(problem, standing)` → `{ do, index }`. Returns the expected minutes and how many standings were decided. */
export function follow(problem, startMode, choose) {
  const known = new Map()
  let decided = 0
  const checksLeft = problem.checks.map((_, i) => i)
  const repairsLeft = problem.repairs.map((_, i) => i)
  const prior = Float64Array.from(problem.suspects, (s) => s.prior)
  const switchTo = (from, to) => (from === to ? 0 : problem.switchMinutes)

  function from(weights, mode, answers) {
    const mass = weights.reduce((a, b) => a + b, 0)
    if (mass < 1e-13) return 0
    const key = `${mode}|${[...answers].sort().join()}`
    const before = known.get(key)
    if (before !== undefined) return before * mass
    const done = new Set(answers.map((a) => a.slice(0, a.indexOf('='))))
    decided++
    const step = choose(problem, {
      belief: weights.map((w) => w / mass),
      mode,
      checksLeft: checksLeft.filter((i) => !done.has(`c${i}`)),
      repairsLeft: repairsLeft.filter((i) => !done.has(`r${i}`)),
    })
    let minutes
    if (step.do === 'escalate') minutes = problem.escalateMinutes * mass
    else if (step.do === 'check') {
      const check = problem.checks[step.index]
      if (done.has(`c${step.index}`)) throw new Error(`${check.id} was chosen twice`)
      minutes = (switchTo(mode, check.mode) + check.minutes) * mass
      for (let o = 0; o < check.outcomes.length; o++)
        minutes += from(
          weights.map((w, s) => w * check.table[s][o]),
          check.mode,
          [...answers, `c${step.index}=${o}`],
        )
    } else {
      const repair = problem.repairs[step.index]
      if (done.has(`r${step.index}`)) throw new Error(`${repair.id} was chosen twice`)
      minutes =
        (switchTo(mode, repair.mode) + repair.minutes + switchTo(repair.mode, problem.verifyMode)) * mass
      minutes += from(
        weights.map((w, s) => (repair.fixes[s] === 1 ? 0 : w)),
        problem.verifyMode,
        [...answers, `r${step.index}=stays`],
      )
    }
    known.set(key, minutes / mass)
    return minutes
  }
  const minutes = from(prior, startMode, [])
  return { minutes, decided }
}
