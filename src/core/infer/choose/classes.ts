/**
 * Suspects as classes to plan with: those that no step left tells apart are one class (equal rows in every check,
 * cured by the same repairs), the likeliest classes are kept, and all that is left over is one class, the tail.
 */
import { groupsOf } from '../groups.ts'
import type { Problem, Standing } from '../problem.ts'

/** Classes that are kept however unlikely the last of them is. */
export const ALWAYS_KEPT = 16
/** Most classes that are kept. */
export const MOST_KEPT = 40
/** Share of the belief after which no further class is kept, once `ALWAYS_KEPT` are. */
const ENOUGH = 0.995
/** Belief below this is rounding. */
const NOTHING = 1e-12

export interface Classes {
  /** Suspects by class, likeliest class first; in a class, likeliest suspect first. */
  readonly kept: readonly (readonly number[])[]
  /** Suspects of the tail; empty where all classes are kept. */
  readonly tail: readonly number[]
}

export function classesOf(problem: Problem, standing: Standing): Classes {
  const { belief } = standing
  const live = [...belief.keys()].filter((s) => belief[s]! > NOTHING).sort((a, b) => belief[b]! - belief[a]!)
  const groups = groupsOf(problem, standing, live).map((members) => ({
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
