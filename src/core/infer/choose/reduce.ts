/**
 * A problem made small enough to plan on: suspects that nothing tells apart become one class, the unlikely tail
 * becomes one class of its own, and checks and repairs that cannot change the plan are left out.
 * Only planning works on this; the belief itself stays exact and is never taken from here.
 */
import type { Mode, Problem, Standing } from '../problem.ts'

/** Classes that are always kept, however unlikely the last of them is. */
const ALWAYS_KEPT = 16
/** Most classes ever planned with, the tail not counted. */
const MOST_CLASSES = 40
/** Share of the belief that the kept classes must reach, unless there are too many. */
const KEPT_SHARE = 0.995
/** Rows closer than this are the same row: no answer could tell. */
const SAME = 1e-9

/** Numbers only; `n` classes, row-major tables. Mode 0 is the one in which repairs are proven, 1 the other. */
export interface Reduced {
  readonly n: number
  /** By class, summing to 1. */
  readonly weight: Float64Array
  readonly mode: 0 | 1
  readonly checkOf: Int32Array
  readonly checkMinutes: Float64Array
  readonly checkMode: Uint8Array
  /** Check `c` has its outcome rows from `rowStart[c]` up to `rowStart[c + 1]`. */
  readonly rowStart: Int32Array
  /** `rows[row * n + class]` = P(outcome | class). */
  readonly rows: Float64Array
  /** Index of the repair in the problem; −1 for the stand-in that cures the tail. */
  readonly repairOf: Int32Array
  readonly repairMinutes: Float64Array
  readonly repairMode: Uint8Array
  /** Repair `r` cures the classes `fixed[fixedStart[r] … fixedStart[r + 1])`. */
  readonly fixedStart: Int32Array
  readonly fixed: Int32Array
  readonly switchMinutes: number
  readonly escalateMinutes: number
}

/** Plans on `standing` need only what this returns. Deterministic; at most 41 classes. */
export function reduce(problem: Problem, standing: Standing): Reduced {
  const modeOf = (mode: Mode): 0 | 1 => (mode === problem.verifyMode ? 0 : 1)
  const live = liveSuspects(standing.belief)
  const groups = mergeAlike(problem, standing, live)
  const { kept, tail } = keepLikeliest(groups, standing.belief)
  const classes = tail.length > 0 ? [...kept, tail] : kept
  const n = classes.length
  const weight = new Float64Array(n)
  for (let k = 0; k < n; k++) for (const s of classes[k]!) weight[k] = weight[k]! + standing.belief[s]!
  const total = weight.reduce((a, b) => a + b, 0)
  for (let k = 0; k < n; k++) weight[k] = weight[k]! / total

  const checks = usefulChecks(problem, standing, classes)
  const repairs = usefulRepairs(problem, standing, kept, modeOf)
  if (tail.length > 0) repairs.push(tailRepair(problem, standing, tail, kept.length, modeOf))

  const rowStart = new Int32Array(checks.length + 1)
  for (let c = 0; c < checks.length; c++) rowStart[c + 1] = rowStart[c]! + checks[c]!.rows.length / n
  const rows = new Float64Array(rowStart[checks.length]! * n)
  for (let c = 0; c < checks.length; c++) rows.set(checks[c]!.rows, rowStart[c]! * n)
  const fixedStart = new Int32Array(repairs.length + 1)
  for (let r = 0; r < repairs.length; r++) fixedStart[r + 1] = fixedStart[r]! + repairs[r]!.fixed.length

  return {
    n,
    weight,
    mode: modeOf(standing.mode),
    checkOf: Int32Array.from(checks, (c) => c.index),
    checkMinutes: Float64Array.from(checks, (c) => problem.checks[c.index]!.minutes),
    checkMode: Uint8Array.from(checks, (c) => modeOf(problem.checks[c.index]!.mode)),
    rowStart,
    rows,
    repairOf: Int32Array.from(repairs, (r) => r.index),
    repairMinutes: Float64Array.from(repairs, (r) => r.minutes),
    repairMode: Uint8Array.from(repairs, (r) => r.mode),
    fixedStart,
    fixed: Int32Array.from(repairs.flatMap((r) => r.fixed)),
    switchMinutes: problem.switchMinutes,
    escalateMinutes: problem.escalateMinutes,
  }
}

/** Suspects that are still believed at all, likeliest first, ties by index. */
function liveSuspects(belief: Float64Array): number[] {
  const live: number[] = []
  for (let s = 0; s < belief.length; s++) if (belief[s]! > 1e-12) live.push(s)
  return live.sort((a, b) => belief[b]! - belief[a]! || a - b)
}

/** Suspects with equal rows in every check left and the same repairs, each group led by its likeliest. */
function mergeAlike(problem: Problem, standing: Standing, live: readonly number[]): number[][] {
  const hash = new Int32Array(problem.suspects.length)
  for (const c of standing.checksLeft) {
    const check = problem.checks[c]!
    for (const s of live) {
      const row = check.table[s]!
      let h = hash[s]!
      for (let o = 0; o < row.length; o++) h = Math.imul(h ^ ((row[o]! * 1e6 + 0.5) | 0), 0x01000193)
      hash[s] = h
    }
  }
  for (const r of standing.repairsLeft) {
    const fixes = problem.repairs[r]!.fixes
    for (const s of live) hash[s] = Math.imul(hash[s]! ^ fixes[s]!, 0x01000193)
  }
  const groups: number[][] = []
  const byHash = new Map<number, number[][]>()
  for (const s of live) {
    const bucket = byHash.get(hash[s]!) ?? []
    const found = bucket.find((g) => alike(problem, standing, g[0]!, s))
    if (found) {
      found.push(s)
      continue
    }
    const group = [s]
    groups.push(group)
    bucket.push(group)
    byHash.set(hash[s]!, bucket)
  }
  return groups
}

function alike(problem: Problem, standing: Standing, a: number, b: number): boolean {
  for (const r of standing.repairsLeft) {
    const fixes = problem.repairs[r]!.fixes
    if (fixes[a] !== fixes[b]) return false
  }
  for (const c of standing.checksLeft) {
    const { table } = problem.checks[c]!
    const rowA = table[a]!
    const rowB = table[b]!
    for (let o = 0; o < rowA.length; o++) if (Math.abs(rowA[o]! - rowB[o]!) > SAME) return false
  }
  return true
}

/** The likeliest groups by themselves, all suspects of the rest as one. */
function keepLikeliest(
  groups: readonly number[][],
  belief: Float64Array,
): { kept: number[][]; tail: number[] } {
  const share = groups.map((g) => g.reduce((sum, s) => sum + belief[s]!, 0))
  const order = groups
    .map((_, g) => g)
    .sort((a, b) => share[b]! - share[a]! || groups[a]![0]! - groups[b]![0]!)
  const total = share.reduce((a, b) => a + b, 0)
  let reached = 0
  let count = 0
  while (count < order.length && count < MOST_CLASSES) {
    if (count >= ALWAYS_KEPT && reached >= KEPT_SHARE * total) break
    reached += share[order[count]!]!
    count++
  }
  return {
    kept: order.slice(0, count).map((g) => groups[g]!),
    tail: order.slice(count).flatMap((g) => groups[g]!),
  }
}

interface UsefulCheck {
  readonly index: number
  readonly rows: Float64Array
}

/** Checks that tell at least two classes apart; of those that tell just the same, a dearer perfect one is left out. */
function usefulChecks(
  problem: Problem,
  standing: Standing,
  classes: readonly (readonly number[])[],
): UsefulCheck[] {
  const n = classes.length
  const useful: UsefulCheck[] = []
  for (const index of standing.checksLeft) {
    const check = problem.checks[index]!
    const outcomes = check.outcomes.length
    const rows = new Float64Array(outcomes * n)
    for (let k = 0; k < n; k++) {
      const members = classes[k]!
      let mass = 0
      for (const s of members) mass += standing.belief[s]!
      for (let o = 0; o < outcomes; o++) {
        if (members.length === 1 || k < n - 1) rows[o * n + k] = check.table[members[0]!]![o]!
        else {
          let sum = 0
          for (const s of members) sum += standing.belief[s]! * check.table[s]![o]!
          rows[o * n + k] = sum / mass
        }
      }
    }
    if (tells(rows, n)) useful.push({ index, rows })
  }
  return useful
}

function tells(rows: Float64Array, n: number): boolean {
  for (let at = 0; at < rows.length; at += n)
    for (let k = 1; k < n; k++) if (Math.abs(rows[at + k]! - rows[at]!) > SAME) return true
  return false
}

interface UsefulRepair {
  readonly index: number
  readonly minutes: number
  readonly mode: 0 | 1
  readonly fixed: readonly number[]
}

/** Repairs that cure at least one class; of those that cure just the same in the same power state, the quickest. */
function usefulRepairs(
  problem: Problem,
  standing: Standing,
  kept: readonly (readonly number[])[],
  modeOf: (mode: Mode) => 0 | 1,
): UsefulRepair[] {
  const bySet = new Map<string, UsefulRepair>()
  for (const index of standing.repairsLeft) {
    const repair = problem.repairs[index]!
    const fixed: number[] = []
    for (let k = 0; k < kept.length; k++) if (repair.fixes[kept[k]![0]!] === 1) fixed.push(k)
    if (fixed.length === 0) continue
    const mode = modeOf(repair.mode)
    const key = `${mode}:${fixed.join()}`
    const other = bySet.get(key)
    if (other && other.minutes <= repair.minutes) continue
    bySet.set(key, { index, minutes: repair.minutes, mode, fixed })
  }
  return [...bySet.values()].sort((a, b) => a.index - b.index)
}

/**
 * What curing the tail would take, as one stand-in repair: the minutes of trying its repairs by probability over
 * cost, or of handing over where that is less. It is planned with but never proposed.
 */
function tailRepair(
  problem: Problem,
  standing: Standing,
  tail: readonly number[],
  tailClass: number,
  modeOf: (mode: Mode) => 0 | 1,
): UsefulRepair {
  let mass = 0
  for (const s of tail) mass += standing.belief[s]!
  const worth = standing.repairsLeft
    .map((r) => {
      const repair = problem.repairs[r]!
      let p = 0
      for (const s of tail) if (repair.fixes[s] === 1) p += standing.belief[s]!
      const cost = repair.minutes + (modeOf(repair.mode) === 0 ? 0 : 2 * problem.switchMinutes)
      return { r, p, cost }
    })
    .filter((w) => w.p > 0)
    .sort((a, b) => b.p * a.cost - a.p * b.cost || a.r - b.r)
  let left = mass
  let minutes = 0
  for (const w of worth) {
    if (left <= 1e-12) break
    minutes += Math.min(w.cost, problem.escalateMinutes) * left
    left -= Math.min(left, w.p)
  }
  minutes = (minutes + left * problem.escalateMinutes) / mass
  return { index: -1, minutes: Math.min(minutes, problem.escalateMinutes), mode: 0, fixed: [tailClass] }
}
