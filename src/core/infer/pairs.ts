/** Two faults at once: tried where the likeliest single leaves an answer unexplained, of those that explain most. */
import type { Knowledge } from './assess.ts'
import { likeliest } from './belief.ts'
import { type Evidence, flat, thingsIn } from './evidence.ts'
import { type Hypothesis, pairOf } from './hypothesis.ts'

/** Less likely than this share of a full match, something on a map is left unexplained. */
const MISFIT = 0.2

/** The likeliest single leaves some answer, or some thing on a map, unexplained. */
export function needsPairs(
  evidence: readonly Evidence[],
  belief: Float64Array,
  columns: readonly Float64Array[],
): boolean {
  const b = likeliest(belief)
  return evidence.some((e, i) => {
    const p = columns[i]?.[b] ?? 1
    if (e.kind === 'about') return false
    return e.kind === 'many' ? p < MISFIT * (1 - e.error) ** thingsIn(e).length : p < flat(e)
  })
}

/** So many likely singles are tried in pairs. */
const POOL = 26

/** Pairs of the singles that explain most, each forgiven what it can't explain. */
export function pairsOf(
  known: Knowledge,
  singles: readonly Hypothesis[],
  evidence: readonly Evidence[],
  columns: readonly Float64Array[],
): readonly Hypothesis[] {
  const score = (h: Hypothesis, i: number): number =>
    evidence.reduce(
      (sum, e, k) => sum + Math.log(Math.max(columns[k]?.[i] ?? 0, 0.2 * flat(e))),
      Math.log(h.prior),
    )
  const pool = singles
    .flatMap((h, i) => (h.kind === 'single' ? [{ h, s: score(h, i) }] : []))
    .sort((a, b) => b.s - a.s || (a.h.id < b.h.id ? -1 : 1))
    .slice(0, POOL)
    .map(({ h }) => h)
  const pairs: Hypothesis[] = []
  pool.forEach((a, i) => {
    for (const b of pool.slice(i + 1)) {
      const [first, second] = a.id < b.id ? [a, b] : [b, a]
      const pair = pairIn(known, first, second)
      if (pair) pairs.push(pair)
    }
  })
  return pairs
}

/** Each pair once: odds are remembered by suspect. By the two themselves, whose priors depend on who else is suspected. */
function pairIn({ pairs }: Knowledge, a: Hypothesis, b: Hypothesis): Hypothesis | undefined {
  const others = pairs.get(a) ?? new Map<Hypothesis, Hypothesis | undefined>()
  pairs.set(a, others)
  if (!others.has(b)) others.set(b, pairOf(a, b))
  return others.get(b)
}
