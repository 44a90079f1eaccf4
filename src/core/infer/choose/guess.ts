/**
 * What a state will probably cost, between its two sure values: as if told the fault, but for the minutes that telling
 * the repairs apart takes at the going rate of minutes a bit. In a large problem nearly all saving comes from checks
 * still to be asked, far below what any search can reach, and the repairs-only value is far too dear there.
 */
import type { Reduced } from './reduce.ts'

/** How many of the best checks set the going rate. */
const RATED = 5
/** Gains below this many bits are rounding. */
const NO_GAIN = 1e-6

/** From the weights (any scale) and the sure values of a state to a value between them. */
export type Guess = (weights: Float64Array, least: number, most: number) => number

/** Believes the dearer value: right where the search will go to the end anyway. */
export const cautious: Guess = (_weights, _least, most) => most

/** Guesses at the rate of the best checks that are offered now; cautious where none tells anything. */
export function guessFor(t: Reduced): Guess {
  const bits = repairBits(t)
  const rate = minutesPerBit(t, bits)
  return rate === undefined
    ? cautious
    : (weights, least, most) => Math.min(most, least + rate * bits(weights))
}

/** Entropy, times the mass, over what would be repaired: classes with the same quickest repair count as one. */
export function repairBits(t: Reduced): (weights: Float64Array) => number {
  const count = t.repairOf.length
  const group = quickestCure(t)
  const inGroup = new Float64Array(count + 1)
  return (weights) => {
    inGroup.fill(0)
    let mass = 0
    for (let k = 0; k < t.n; k++) {
      inGroup[group[k]!] = inGroup[group[k]!]! + weights[k]!
      mass += weights[k]!
    }
    let sum = 0
    for (let g = 0; g <= count; g++) {
      const x = inGroup[g]!
      if (x > 0) sum -= x * Math.log2(x / mass)
    }
    return sum
  }
}

/** By class, the repair that cures it in the fewest minutes from where repairs are proven; past the last where none. */
function quickestCure(t: Reduced): Int32Array {
  const count = t.repairOf.length
  const cure = new Int32Array(t.n).fill(count)
  const minutes = new Float64Array(t.n).fill(Number.POSITIVE_INFINITY)
  for (let r = 0; r < count; r++) {
    const own = t.repairMinutes[r]! + 2 * t.repairMode[r]! * t.switchMinutes
    for (let f = t.fixedStart[r]!; f < t.fixedStart[r + 1]!; f++) {
      const k = t.fixed[f]!
      if (own >= minutes[k]!) continue
      minutes[k] = own
      cure[k] = r
    }
  }
  return cure
}

/** Mean minutes a bit of the best few checks; a check in the other power state bears half a switch, others share it. */
function minutesPerBit(t: Reduced, bits: (weights: Float64Array) => number): number | undefined {
  const before = bits(t.weight)
  const share = new Float64Array(t.n)
  const rates: number[] = []
  for (let c = 0; c < t.checkOf.length; c++) {
    let after = 0
    for (let row = t.rowStart[c]! * t.n; row < t.rowStart[c + 1]! * t.n; row += t.n) {
      for (let k = 0; k < t.n; k++) share[k] = t.weight[k]! * t.rows[row + k]!
      after += bits(share)
    }
    const gain = before - after
    if (gain > NO_GAIN) rates.push((t.checkMinutes[c]! + 0.5 * t.checkMode[c]! * t.switchMinutes) / gain)
  }
  const best = rates.sort((a, b) => a - b).slice(0, RATED)
  return best.length === 0 ? undefined : best.reduce((a, b) => a + b, 0) / best.length
}
