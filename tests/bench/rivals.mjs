// Simple ways of choosing to compare with: repairs only by probability over cost, the one-step rule over that order
// (Heckerman, Breese & Rommelse 1995), and the largest fall in entropy a minute with repairs as tests. Written for
// clearness; nothing is shared with the program.

const NOTHING = 1e-9

const switching = (p, from, to) => (from === to ? 0 : p.switchMinutes)
const repairMinutes = (p, r, mode) =>
  p.repairs[r].minutes + switching(p, mode, p.repairs[r].mode) + switching(p, p.repairs[r].mode, p.verifyMode)
const cureMass = (p, r, w) => {
  let x = 0
  const { fixes } = p.repairs[r]
  for (let s = 0; s < w.length; s++) if (fixes[s] === 1) x += w[s]
  return x
}
const total = (w) => w.reduce((a, b) => a + b, 0)

/** Minutes times mass of the repairs in order of probability over cost, handing over where that is less. */
function repairsInOrder(p, weights, mode, repairsLeft) {
  const w = Float64Array.from(weights)
  const all = total(w)
  let mass = all
  const cured = new Map(repairsLeft.map((r) => [r, cureMass(p, r, w)]))
  const done = []
  while (mass > NOTHING * all) {
    let best = -1
    let bestRate = 0
    for (const [r, x] of cured) {
      const rate = x / (repairMinutes(p, r, p.verifyMode) + 1e-9)
      if (x > NOTHING * all && rate > bestRate) {
        best = r
        bestRate = rate
      }
    }
    if (best < 0) break
    done.push({ r: best, minutes: repairMinutes(p, best, done.length === 0 ? mode : p.verifyMode), mass })
    cured.delete(best)
    for (let s = 0; s < w.length; s++) {
      if (p.repairs[best].fixes[s] !== 1 || w[s] === 0) continue
      for (const r of cured.keys()) if (p.repairs[r].fixes[s] === 1) cured.set(r, cured.get(r) - w[s])
      mass -= w[s]
      w[s] = 0
    }
  }
  let value = p.escalateMinutes * Math.max(0, mass)
  let first = -1
  for (let i = done.length - 1; i >= 0; i--) {
    const on = done[i].minutes * done[i].mass + value
    const over = p.escalateMinutes * done[i].mass
    first = on < over ? done[i].r : -1
    value = Math.min(on, over)
  }
  return { value, first }
}

const asStep = (first) => (first < 0 ? { do: 'escalate' } : { do: 'repair', index: first })

export function repairsOnly(p, st) {
  return asStep(repairsInOrder(p, st.belief, st.mode, st.repairsLeft).first)
}

export function oneStepRepairCost(p, st) {
  const now = repairsInOrder(p, st.belief, st.mode, st.repairsLeft)
  let least = now.value
  let step = asStep(now.first)
  for (const c of st.checksLeft) {
    const check = p.checks[c]
    let value = check.minutes + switching(p, st.mode, check.mode)
    for (let o = 0; o < check.outcomes.length && value < least; o++) {
      const w = st.belief.map((b, s) => b * check.table[s][o])
      if (total(w) > 1e-14) value += repairsInOrder(p, w, check.mode, st.repairsLeft).value
    }
    if (value < least - 1e-12) {
      least = value
      step = { do: 'check', index: c }
    }
  }
  return step
}

const entropy = (w) => {
  const mass = total(w)
  let h = 0
  for (const x of w) if (x > 0) h -= x * Math.log2(x / mass)
  return h
}

export function gainPerMinute(p, st) {
  const before = entropy(st.belief)
  let best = 1e-6
  let step = asStep(repairsInOrder(p, st.belief, st.mode, st.repairsLeft).first)
  const offer = (gain, minutes, candidate) => {
    const rate = gain / (minutes + 1e-9)
    if (gain > 1e-9 && rate > best) {
      best = rate
      step = candidate
    }
  }
  for (const c of st.checksLeft) {
    const check = p.checks[c]
    let after = 0
    for (let o = 0; o < check.outcomes.length; o++)
      after += entropy(st.belief.map((b, s) => b * check.table[s][o]))
    offer(before - after, check.minutes + switching(p, st.mode, check.mode), { do: 'check', index: c })
  }
  for (const r of st.repairsLeft) {
    const { fixes } = p.repairs[r]
    const after = entropy(st.belief.map((b, s) => (fixes[s] === 1 ? 0 : b)))
    if (cureMass(p, r, st.belief) > NOTHING)
      offer(before - after, repairMinutes(p, r, st.mode), { do: 'repair', index: r })
  }
  return step
}
