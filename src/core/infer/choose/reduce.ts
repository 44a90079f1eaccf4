/**
 * A problem made small enough to plan on: classes instead of suspects, and without the checks and repairs that cannot
 * change the plan. Only planning works on this; the belief itself stays exact and is never taken from here.
 */
import { SAME_ROW } from '../groups.ts'
import type { Mode, Problem, Standing } from '../problem.ts'
import { orderMinutes, repairOrder } from '../repair-order.ts'
import { type Classes, classesOf } from './classes.ts'

/** Numbers only; `n` classes, row-major tables. Mode 0 is the one in which repairs are proven, 1 the other. */
export interface Reduced {
  readonly n: number
  /** By class, summing to 1. The tail, where there is one, is the last class. */
  readonly weight: Float64Array
  readonly mode: 0 | 1
  /** Index of the check in the problem. */
  readonly checkOf: Int32Array
  readonly checkMinutes: Float64Array
  readonly checkMode: Uint8Array
  /** Check `c` has the outcome rows `rowStart[c]` up to, not including, `rowStart[c + 1]`. */
  readonly rowStart: Int32Array
  /** `rows[row * n + class]` = P(outcome | class). */
  readonly rows: Float64Array
  /** Index of the repair in the problem; −1 for the stand-in that cures the tail. */
  readonly repairOf: Int32Array
  readonly repairMinutes: Float64Array
  readonly repairMode: Uint8Array
  /** Repair `r` cures the classes `fixed[fixedStart[r]]` up to, not including, `fixed[fixedStart[r + 1]]`. */
  readonly fixedStart: Int32Array
  readonly fixed: Int32Array
  readonly switchMinutes: number
  readonly escalateMinutes: number
}

interface KeptCheck {
  readonly index: number
  readonly rows: Float64Array
}

interface KeptRepair {
  readonly index: number
  readonly minutes: number
  readonly mode: 0 | 1
  readonly fixed: readonly number[]
}

/** What planning at `standing` needs. Deterministic; at most 41 classes; none where nothing is believed. */
export function reduce(problem: Problem, standing: Standing): Reduced {
  const modeOf = (mode: Mode): 0 | 1 => (mode === problem.verifyMode ? 0 : 1)
  const classes = classesOf(problem, standing)
  const members = classes.tail.length > 0 ? [...classes.kept, classes.tail] : classes.kept
  const n = members.length
  const mass = members.map((list) => massOf(list, standing))
  const total = mass.reduce((a, b) => a + b, 0)
  const checks = keptChecks(problem, standing, classes, n)
  const repairs = keptRepairs(problem, standing, classes, modeOf)
  const rowStart = starts(checks.map((c) => c.rows.length / n))
  const rows = new Float64Array(rowStart[checks.length]! * n)
  checks.forEach((c, i) => {
    rows.set(c.rows, rowStart[i]! * n)
  })
  return {
    n,
    weight: Float64Array.from(mass, (x) => x / total),
    mode: modeOf(standing.mode),
    checkOf: Int32Array.from(checks, (c) => c.index),
    checkMinutes: Float64Array.from(checks, (c) => problem.checks[c.index]!.minutes),
    checkMode: Uint8Array.from(checks, (c) => modeOf(problem.checks[c.index]!.mode)),
    rowStart,
    rows,
    repairOf: Int32Array.from(repairs, (r) => r.index),
    repairMinutes: Float64Array.from(repairs, (r) => r.minutes),
    repairMode: Uint8Array.from(repairs, (r) => r.mode),
    fixedStart: starts(repairs.map((r) => r.fixed.length)),
    fixed: Int32Array.from(repairs.flatMap((r) => r.fixed)),
    switchMinutes: problem.switchMinutes,
    escalateMinutes: problem.escalateMinutes,
  }
}

/** Where each of some runs begins when they are laid end to end, and where the last one ends. */
function starts(lengths: readonly number[]): Int32Array {
  const start = new Int32Array(lengths.length + 1)
  lengths.forEach((length, i) => {
    start[i + 1] = start[i]! + length
  })
  return start
}

/** Checks that tell at least two classes apart, with their rows by class. */
function keptChecks(problem: Problem, standing: Standing, { kept, tail }: Classes, n: number): KeptCheck[] {
  const tailMass = massOf(tail, standing)
  const useful: KeptCheck[] = []
  for (const index of standing.checksLeft) {
    const { table, outcomes } = problem.checks[index]!
    const rows = new Float64Array(outcomes.length * n)
    for (let k = 0; k < kept.length; k++) {
      const row = table[kept[k]![0]!]!
      for (let o = 0; o < outcomes.length; o++) rows[o * n + k] = row[o]!
    }
    for (const s of tail) {
      const row = table[s]!
      const share = standing.belief[s]! / tailMass
      for (let at = n - 1, o = 0; o < outcomes.length; o++, at += n) rows[at] = rows[at]! + share * row[o]!
    }
    if (tells(rows, n)) useful.push({ index, rows })
  }
  return useful
}

function tells(rows: Float64Array, n: number): boolean {
  for (let at = 0; at < rows.length; at += n)
    for (let k = 1; k < n; k++) if (Math.abs(rows[at + k]! - rows[at]!) > SAME_ROW) return true
  return false
}

/** Repairs that cure a class; of those that cure just the same in the same power state, the quickest. */
function keptRepairs(
  problem: Problem,
  standing: Standing,
  { kept, tail }: Classes,
  modeOf: (mode: Mode) => 0 | 1,
): KeptRepair[] {
  const byCure = new Map<string, KeptRepair>()
  for (const index of standing.repairsLeft) {
    const { fixes, minutes, mode } = problem.repairs[index]!
    const fixed: number[] = []
    for (let k = 0; k < kept.length; k++) if (fixes[kept[k]![0]!] === 1) fixed.push(k)
    if (fixed.length === 0) continue
    const key = `${mode} ${fixed.join()}`
    const other = byCure.get(key)
    if (!other || minutes < other.minutes) byCure.set(key, { index, minutes, mode: modeOf(mode), fixed })
  }
  const repairs = [...byCure.values()].sort((a, b) => a.index - b.index)
  if (tail.length > 0) repairs.push(tailRepair(problem, standing, tail, kept.length))
  return repairs
}

/**
 * What curing the tail would take, as one stand-in repair: the minutes of trying its repairs by probability over
 * cost, as if none overlapped, or of handing over where that is less. Planned with, never proposed.
 */
function tailRepair(
  problem: Problem,
  standing: Standing,
  tail: readonly number[],
  tailClass: number,
): KeptRepair {
  const mass = massOf(tail, standing)
  const tries = standing.repairsLeft.flatMap((r) => {
    const { fixes, minutes, mode } = problem.repairs[r]!
    const cures = massOf(
      tail.filter((s) => fixes[s] === 1),
      standing,
    )
    const switching = mode === problem.verifyMode ? 0 : 2 * problem.switchMinutes
    return cures > 0 ? [{ cures: cures / mass, minutes: minutes + switching }] : []
  })
  const minutes = orderMinutes(tries, repairOrder(tries), problem.escalateMinutes)
  return { index: -1, minutes: Math.min(minutes, problem.escalateMinutes), mode: 0, fixed: [tailClass] }
}

const massOf = (suspects: readonly number[], { belief }: Standing): number =>
  suspects.reduce((sum, s) => sum + belief[s]!, 0)
