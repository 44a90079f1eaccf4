/**
 * Two quick values of a state of the plan, in minutes times probability mass: at most this much (only repairs, in
 * the order of probability over cost, stopping to hand over where that is less) and at least this much (told the
 * fault for nothing). Everything between is what checks can still save.
 * Order: Kadane & Simon 1977; recomputed after each repair because repairs may overlap.
 */
import type { Reduced } from './reduce.ts'

/** Mass below this share is rounding, not a suspect. */
const NOTHING = 1e-12

export interface Bounds {
  /** Repairs only, from these weights (any scale) in the given mode. */
  most(weights: Float64Array, mode: number): number
  /** The fault told for nothing, same arguments. */
  least(weights: Float64Array, mode: number): number
}

/** Minutes of repair `r` from `mode`, with the switching before it and the switch for its proof after it. */
export function repairMinutesFrom(t: Reduced, r: number, mode: number): number {
  const own = t.repairMode[r]!
  return t.repairMinutes[r]! + ((own === mode ? 0 : 1) + own) * t.switchMinutes
}

/** Both values for one reduced problem. They share scratch arrays, so nothing is allocated per state. */
export function boundsFor(t: Reduced): Bounds {
  const { n, fixedStart, fixed } = t
  const count = t.repairOf.length
  const first = [new Float64Array(count), new Float64Array(count)] as const
  for (let r = 0; r < count; r++) {
    first[0][r] = repairMinutesFrom(t, r, 0)
    first[1][r] = repairMinutesFrom(t, r, 1)
  }
  const steady = first[0]
  const told = cheapestCure(t, first)
  const curing = curersOf(t)
  const p = new Float64Array(count)
  const alive = new Float64Array(n)
  const order = new Int32Array(count)
  const before = new Float64Array(count + 1)

  /** Fills `order`, `before` (mass left before each); `lead` ≥ 0 goes first. Returns how many repairs help. */
  function arrange(weights: Float64Array, total: number, lead: number): number {
    for (let k = 0; k < n; k++) alive[k] = weights[k]!
    for (let r = 0; r < count; r++) {
      let sum = 0
      for (let f = fixedStart[r]!; f < fixedStart[r + 1]!; f++) sum += alive[fixed[f]!]!
      p[r] = sum
    }
    const floor = total * NOTHING
    let left = total
    let used = 0
    let next = lead
    for (;;) {
      if (next < 0) {
        let bestP = 0
        let bestC = 1
        for (let r = 0; r < count; r++) {
          const pr = p[r]!
          if (pr > floor && pr * bestC > bestP * steady[r]!) {
            next = r
            bestP = pr
            bestC = steady[r]!
          }
        }
        if (next < 0) break
      }
      order[used] = next
      before[used++] = left
      left -= p[next]!
      for (let f = fixedStart[next]!; f < fixedStart[next + 1]!; f++) {
        const k = fixed[f]!
        const x = alive[k]!
        if (x === 0) continue
        alive[k] = 0
        const list = curing[k]!
        for (let i = 0; i < list.length; i++) {
          const q = list[i]!
          p[q] = p[q]! - x
        }
      }
      p[next] = 0
      next = -1
    }
    before[used] = left > floor ? left : 0
    return used
  }

  /** Minutes of the arranged order, the first repair from `mode`, handing over wherever that is less. */
  function follow(used: number, mode: number): number {
    let value = t.escalateMinutes * before[used]!
    for (let i = used - 1; i >= 0; i--) {
      const minutes = i === 0 ? first[mode as 0 | 1][order[0]!]! : steady[order[i]!]!
      value = Math.min(t.escalateMinutes * before[i]!, minutes * before[i]! + value)
    }
    return value
  }

  return {
    most(weights, mode) {
      let total = 0
      for (let k = 0; k < n; k++) total += weights[k]!
      const used = arrange(weights, total, -1)
      let value = follow(used, mode)
      if (mode === 0) return value
      // From the other power state a repair done there saves a switch: see whether leading with one is better.
      let lead = -1
      let bestP = 0
      for (let r = 0; r < count; r++) {
        if (t.repairMode[r] === 0) continue
        let sum = 0
        for (let f = fixedStart[r]!; f < fixedStart[r + 1]!; f++) sum += weights[fixed[f]!]!
        if (lead < 0 || sum * first[1][lead]! > bestP * first[1][r]!) {
          lead = r
          bestP = sum
        }
      }
      if (lead !== order[0]) value = Math.min(value, follow(arrange(weights, total, lead), mode))
      return value
    },
    least(weights, mode) {
      const from = mode * n
      let sum = 0
      for (let k = 0; k < n; k++) sum += weights[k]! * told[from + k]!
      return sum
    },
  }
}

/** `told[mode * n + class]`: the cheapest cure of the class from that mode, or handing over. */
function cheapestCure(t: Reduced, first: readonly [Float64Array, Float64Array]): Float64Array {
  const told = new Float64Array(2 * t.n).fill(t.escalateMinutes)
  for (let r = 0; r < t.repairOf.length; r++)
    for (let f = t.fixedStart[r]!; f < t.fixedStart[r + 1]!; f++)
      for (const mode of [0, 1] as const) {
        const at = mode * t.n + t.fixed[f]!
        told[at] = Math.min(told[at]!, first[mode][r]!)
      }
  return told
}

/** The repairs that cure each class. */
function curersOf(t: Reduced): Int32Array[] {
  const lists: number[][] = Array.from({ length: t.n }, () => [])
  for (let r = 0; r < t.repairOf.length; r++)
    for (let f = t.fixedStart[r]!; f < t.fixedStart[r + 1]!; f++) lists[t.fixed[f]!]!.push(r)
  return lists.map((list) => Int32Array.from(list))
}
