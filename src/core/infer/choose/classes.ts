/**
 * Suspects as classes to plan with: those that no step left tells apart are one class (equal rows in every check,
 * cured by the same repairs), the likeliest classes are kept, and all that is left over is one class, the tail.
 */
import type { Problem, Standing } from '../problem.ts'

/** Classes that are kept however unlikely the last of them is. */
export const ALWAYS_KEPT = 16
/** Most classes that are kept. */
export const MOST_KEPT = 40
/** Share of the belief after which no further class is kept, once `ALWAYS_KEPT` are. */
const ENOUGH = 0.995
/** Belief below this is rounding. */
const NOTHING = 1e-12
/** Rows closer than this are the same row: no answer could tell. */
export const SAME = 1e-9

export interface Classes {
  /** Suspects by class, likeliest class first; in a class, likeliest suspect first. */
  readonly kept: readonly (readonly number[])[]
  /** Suspects of the tail; empty where all classes are kept. */
  readonly tail: readonly number[]
}

export function classesOf(problem: Problem, standing: Standing): Classes {
  const { belief } = standing
  const live: number[] = []
  for (let s = 0; s < belief.length; s++) if (belief[s]! > NOTHING) live.push(s)
  live.sort((a, b) => belief[b]! - belief[a]! || a - b)
  const groups = alikeGroups(problem, standing, live).map((members) => ({
    members,
    share: members.reduce((sum, s) => sum + belief[s]!, 0),
  }))
  groups.sort((a, b) => b.share - a.share || a.members[0]! - b.members[0]!)
  let reached = 0
  let count = 0
  for (const { share } of groups) {
    if (count === MOST_KEPT || (count >= ALWAYS_KEPT && reached >= ENOUGH)) break
    reached += share
    count++
  }
  return {
    kept: groups.slice(0, count).map((g) => g.members),
    tail: groups.slice(count).flatMap((g) => g.members),
  }
}

/** The given suspects in groups of equal rows and equal repairs, in the order of each group's first member. */
export function alikeGroups(problem: Problem, standing: Standing, suspects: readonly number[]): number[][] {
  const groups: number[][] = []
  const byHash = new Map<number, number[][]>()
  const hash = hashes(problem, standing, suspects)
  for (const s of suspects) {
    const bucket = byHash.get(hash[s]!)
    const found = bucket?.find((g) => alike(problem, standing, g[0]!, s))
    if (found) {
      found.push(s)
      continue
    }
    const group = [s]
    groups.push(group)
    if (bucket) bucket.push(group)
    else byHash.set(hash[s]!, [group])
  }
  return groups
}

/** Equal for suspects that are alike (but for rounding at a millionth), seldom equal for others. */
function hashes(problem: Problem, standing: Standing, suspects: readonly number[]): Int32Array {
  const hash = new Int32Array(problem.suspects.length)
  for (const c of standing.checksLeft) {
    const { table } = problem.checks[c]!
    for (const s of suspects) {
      const row = table[s]!
      let h = hash[s]!
      // The last outcome follows from the others.
      for (let o = row.length - 2; o >= 0; o--) h = Math.imul(h ^ ((row[o]! * 1e6 + 0.5) | 0), 0x01000193)
      hash[s] = h
    }
  }
  for (const r of standing.repairsLeft) {
    const { fixes } = problem.repairs[r]!
    for (const s of suspects) hash[s] = Math.imul(hash[s]! ^ fixes[s]!, 0x01000193)
  }
  return hash
}

function alike(problem: Problem, standing: Standing, a: number, b: number): boolean {
  for (const r of standing.repairsLeft) {
    const { fixes } = problem.repairs[r]!
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
