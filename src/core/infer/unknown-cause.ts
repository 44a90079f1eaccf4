/**
 * What "none of these" foresees of each answer in turn. How much of the build an unknown cause leaves as usual is not
 * known: each answer is foreseen by all shares, weighted by how well they foresaw the answers before it, so that the product
 * over all answers is the mean of the products (the chain rule of probability).
 */
import type { Evidence } from './evidence.ts'
import type { Hypothesis } from './hypothesis.ts'
import { LEFT_AS_USUAL, likelihood } from './likelihood.ts'
import type { Said } from './repeated.ts'
import type { Sights } from './sights.ts'

export function unknownColumn(
  evidence: readonly Evidence[],
  none: Hypothesis,
  sights: Sights,
  said: readonly (readonly (Said | undefined)[] | undefined)[],
): number[] {
  let weights = LEFT_AS_USUAL.map(() => 1 / LEFT_AS_USUAL.length)
  return evidence.map((e, i) => {
    const joint = LEFT_AS_USUAL.map(
      (share, k) => (weights[k] ?? 0) * likelihood(e, none, sights, said[i], share),
    )
    const foreseen = joint.reduce((sum, p) => sum + p, 0)
    if (foreseen > 0) weights = joint.map((p) => p / foreseen)
    return foreseen
  })
}
