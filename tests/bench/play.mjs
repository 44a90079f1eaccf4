// Plays jobs on a problem too large to follow every outcome: the true suspect and the answers are drawn from a seed
// that does not depend on who chooses, so two ways of choosing face the same build and the same people.

const mix = (...parts) => {
  let x = 0x9e3779b9
  for (const part of parts) {
    x = Math.imul(x ^ part, 0x85ebca6b)
    x ^= x >>> 15
    x = Math.imul(x, 0x2c1b3c6d)
    x ^= x >>> 13
  }
  x = Math.imul(x, 0x297a2d39)
  return ((x ^ (x >>> 15)) >>> 0) / 4294967296
}

/** Mean minutes of `jobs` jobs, of being told the fault for nothing, the steps a job, and the time of each decision. */
export function play(problem, startMode, choose, jobs, seed) {
  const switching = (from, to) => (from === to ? 0 : problem.switchMinutes)
  const times = []
  let minutes = 0
  let told = 0
  let steps = 0
  for (let job = 0; job < jobs; job++) {
    // Stratified over the priors: with many jobs every suspect has its share.
    const truth = draw(
      problem.suspects.map((s) => s.prior),
      (job + mix(seed, job)) / jobs,
    )
    let belief = Float64Array.from(problem.suspects, (s) => s.prior)
    let mode = startMode
    let checksLeft = problem.checks.map((_, i) => i)
    let repairsLeft = problem.repairs.map((_, i) => i)
    for (;;) {
      const began = performance.now()
      const step = choose(problem, { belief, mode, checksLeft, repairsLeft })
      times.push(performance.now() - began)
      steps++
      if (step.do === 'escalate') {
        minutes += problem.escalateMinutes
        break
      }
      if (step.do === 'check') {
        const check = problem.checks[step.index]
        minutes += switching(mode, check.mode) + check.minutes
        mode = check.mode
        checksLeft = checksLeft.filter((i) => i !== step.index)
        const o = draw(check.table[truth], mix(seed, job, step.index, 7))
        belief = belief.map((b, s) => b * check.table[s][o])
      } else {
        const repair = problem.repairs[step.index]
        minutes += switching(mode, repair.mode) + repair.minutes + switching(repair.mode, problem.verifyMode)
        mode = problem.verifyMode
        repairsLeft = repairsLeft.filter((i) => i !== step.index)
        if (repair.fixes[truth] === 1) break
        belief = belief.map((b, s) => (repair.fixes[s] === 1 ? 0 : b))
      }
      const mass = belief.reduce((a, b) => a + b, 0)
      belief = belief.map((b) => b / mass)
    }
    let least = problem.escalateMinutes
    for (const r of problem.repairs)
      if (r.fixes[truth] === 1)
        least = Math.min(
          least,
          switching(startMode, r.mode) + r.minutes + switching(r.mode, problem.verifyMode),
        )
    told += least
  }
  times.sort((a, b) => a - b)
  const at = (share) => times[Math.min(times.length - 1, Math.floor(times.length * share))]
  return { minutes: minutes / jobs, told: told / jobs, steps: steps / jobs, p50: at(0.5), p95: at(0.95) }
}

function draw(odds, u) {
  const sum = odds.reduce((a, b) => a + b, 0)
  let left = u * sum
  for (let i = 0; i < odds.length; i++) {
    left -= odds[i]
    if (left < 0) return i
  }
  return odds.length - 1
}
