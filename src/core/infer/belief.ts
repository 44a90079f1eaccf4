/**
 * What is believed after some answers: Bayes' rule over suspects of which exactly one is true, its entropy, and what
 * a check would tell. Always recomputed from the prior and all answers, so undoing one is leaving it out.
 */

/** A likelihood column: P(this answer | suspect), by suspect. */
export type Column = ArrayLike<number>

/**
 * Posterior by suspect, summing to 1, from a prior (any positive scale) and one likelihood column an answer.
 * Rescaled after each answer, so a long history of small likelihoods cannot vanish; a suspect far below the rest keeps
 * a share as long as a double holds it. All zeros, where the answers rule out every suspect.
 */
export function posterior(prior: ArrayLike<number>, columns: Iterable<Column>): Float64Array<ArrayBuffer> {
  const belief = Float64Array.from(prior)
  if (!rescale(belief)) return belief
  for (const column of columns) {
    for (let s = 0; s < belief.length; s++) belief[s] = belief[s]! * column[s]!
    if (!rescale(belief)) return belief
  }
  return belief
}

/** The place of the greatest share, the first of several. */
export const likeliest = (belief: Float64Array): number =>
  belief.reduce((b, p, i) => (p > (belief[b] ?? 0) ? i : b), 0)

/** Divides by the sum; false where the sum is 0 and nothing is left to believe. */
function rescale(belief: Float64Array): boolean {
  let largest = 0
  for (let s = 0; s < belief.length; s++) largest = Math.max(largest, belief[s]!)
  if (!(largest > 0)) return false
  // Dividing by the largest first keeps the sum exact enough when all are far below 1.
  let total = 0
  for (let s = 0; s < belief.length; s++) {
    belief[s] = belief[s]! / largest
    total += belief[s]!
  }
  for (let s = 0; s < belief.length; s++) belief[s] = belief[s]! / total
  return true
}

/**
 * Entropy of a distribution in bits, ≥ 0; zero terms count nothing.
 * @source Cover & Thomas, Elements of Information Theory, chapter 2
 */
export function entropyBits(distribution: ArrayLike<number>): number {
  let bits = 0
  for (let i = 0; i < distribution.length; i++) {
    const p = distribution[i]!
    if (p > 0) bits -= p * Math.log2(p)
  }
  return bits === 0 ? 0 : bits
}

/** Probability of each outcome of a check under a belief that sums to 1; `table[suspect][outcome]`. */
export function outcomeOdds(
  belief: ArrayLike<number>,
  table: readonly Column[],
  outcomes: number,
): Float64Array {
  const odds = new Float64Array(outcomes)
  for (let s = 0; s < belief.length; s++)
    for (let o = 0; o < outcomes; o++) odds[o] = odds[o]! + belief[s]! * table[s]![o]!
  return odds
}

/**
 * Expected fall in entropy from asking, in bits, ≥ 0 but for rounding.
 * Mutual information as Σ p(s) Σ p(o|s) log2(p(o|s) / p(o)): no difference of two large numbers.
 */
export function informationGainBits(
  belief: ArrayLike<number>,
  table: readonly Column[],
  outcomes: number,
): number {
  const odds = outcomeOdds(belief, table, outcomes)
  let bits = 0
  for (let s = 0; s < belief.length; s++) {
    const p = belief[s]!
    if (!(p > 0)) continue
    for (let o = 0; o < outcomes; o++) {
      const q = table[s]![o]!
      if (q > 0) bits += p * q * Math.log2(q / odds[o]!)
    }
  }
  return bits
}
