/** The suspects that are still worth planning for: nearly all of the belief, and a bounded number of them. */
import type { Assessment } from './assess.ts'
import type { Hypothesis } from './hypothesis.ts'

export interface Alive {
  readonly h: Hypothesis
  readonly p: number
}

const MASS = 0.995
const MOST_ALIVE = 24
/** Who is so much less likely than the likeliest is planned for once an answer has brought them nearer. */
const HARDLY = 0.003

/** The likeliest suspects, up to nearly all of the belief; the rest is planned for as "none of these". */
export function aliveOf({ hypotheses, belief }: Assessment): readonly Alive[] {
  const ranked = hypotheses
    .map((h, i) => ({ h, p: belief[i] ?? 0 }))
    .sort((a, b) => b.p - a.p || (a.h.id < b.h.id ? -1 : 1))
  const kept: Alive[] = []
  let mass = 0
  for (const one of ranked) {
    if (one.h.kind === 'none') continue
    const least = HARDLY * (kept[0]?.p ?? 0)
    if (kept.length >= MOST_ALIVE || mass > MASS || one.p < least) break
    kept.push(one)
    mass += one.p
  }
  const none = hypotheses.find((h) => h.kind === 'none')
  return none ? [...kept, { h: none, p: Math.max(1 - mass, 1e-6) }] : kept
}
