/**
 * Suspects that nothing left to do can tell apart: equal rows in every check left and cured by the same repairs left.
 * Computed from the numbers, never declared. A group is one verdict with one plan of repair.
 */
import type { Problem, Standing } from './problem.ts'

/** Rows closer than this are the same row: no answer could tell. */
export const SAME_ROW = 1e-9

type Left = Pick<Standing, 'checksLeft' | 'repairsLeft'>

/**
 * The given suspects (indices) in groups, in the order of each group's first member; a suspect that stands alone is
 * a group of one.
 */
export function groupsOf(problem: Problem, left: Left, suspects: readonly number[]): number[][] {
  const groups: number[][] = []
  const byHash = new Map<number, number[][]>()
  const hash = hashes(problem, left, suspects)
  for (const s of suspects) {
    const bucket = byHash.get(hash[s]!)
    const found = bucket?.find((g) => alike(problem, left, g[0]!, s))
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
function hashes(problem: Problem, left: Left, suspects: readonly number[]): Int32Array {
  const hash = new Int32Array(problem.suspects.length)
  for (const c of left.checksLeft) {
    const { table } = problem.checks[c]!
    for (const s of suspects) {
      const row = table[s]!
      let h = hash[s]!
      // The last outcome follows from the others.
      for (let o = row.length - 2; o >= 0; o--) h = Math.imul(h ^ ((row[o]! * 1e6 + 0.5) | 0), 0x01000193)
      hash[s] = h
    }
  }
  for (const r of left.repairsLeft) {
    const { fixes } = problem.repairs[r]!
    for (const s of suspects) hash[s] = Math.imul(hash[s]! ^ fixes[s]!, 0x01000193)
  }
  return hash
}

function alike(problem: Problem, left: Left, a: number, b: number): boolean {
  for (const r of left.repairsLeft) {
    const { fixes } = problem.repairs[r]!
    if (fixes[a] !== fixes[b]) return false
  }
  for (const c of left.checksLeft) {
    const { table } = problem.checks[c]!
    const rowA = table[a]!
    const rowB = table[b]!
    for (let o = 0; o < rowA.length; o++) if (Math.abs(rowA[o]! - rowB[o]!) > SAME_ROW) return false
  }
  return true
}
