/**
 * How likely each answer is under each suspect, as far as it matters. After the first map most suspects are out of the
 * running, and what they would have shown of all that came later is not looked at: it is held to be certain, which is the
 * most it can be. Those that are left like that share so little of the belief that no number that is told changes.
 */
import type { InParts } from './parts.ts'

/** All suspects that are not held against every answer have together no more of the belief than this. */
export const LEFT_OUT = 1e-9
/** Not held against the next answer at first: below this share of the likeliest suspect by then. */
const FAR_BEHIND = 1e-9
/** So many answers are held against suspects for the first time in one part. */
const NEW_IN_A_PART = 80

/** P(answer | suspect), by their numbers. */
export interface Odds {
  of(answer: number, suspect: number): number
  /** How many were worked out so far; the others were known. */
  worked(): number
}

/**
 * `columns[answer][suspect]` = P(answer | suspect), or 1 where the suspect is left out. Who is left out follows from the
 * numbers alone, whatever was known before.
 * @param prior by suspect, on any scale
 * @param leftOut share of the belief that may be left out; 0 for none
 */
export function* columnsOf(
  prior: readonly number[],
  answers: number,
  odds: Odds,
  leftOut = LEFT_OUT,
): InParts<Float64Array[]> {
  const columns = Array.from({ length: answers }, () => new Float64Array(prior.length).fill(1))
  // What each suspect's share can be at most, on a scale that changes from answer to answer.
  const most = Float64Array.from(prior)
  const heldAgainst = new Int32Array(prior.length)
  const least = leftOut > 0 ? FAR_BEHIND : 0
  let parts = 0
  const hold = (s: number): boolean => {
    const answer = heldAgainst[s]!++
    const p = odds.of(answer, s)
    columns[answer]![s] = p
    most[s] = most[s]! * p
    if (odds.worked() < (parts + 1) * NEW_IN_A_PART) return false
    parts = Math.floor(odds.worked() / NEW_IN_A_PART)
    return true
  }
  for (let answer = 0; answer < answers; answer++) {
    const largest = most.reduce((a, b) => Math.max(a, b), 0)
    if (largest > 0) for (let s = 0; s < most.length; s++) most[s] = most[s]! / largest
    for (let s = 0; s < most.length; s++) if (heldAgainst[s] === answer && most[s]! >= least && hold(s)) yield
  }
  let total = 0
  for (let s = 0; s < most.length; s++) if (heldAgainst[s] === answers) total += most[s]!
  const negligible = (leftOut * total) / most.length
  for (let s = 0; s < most.length; s++)
    while (heldAgainst[s]! < answers && most[s]! > negligible) if (hold(s)) yield
  return columns
}
