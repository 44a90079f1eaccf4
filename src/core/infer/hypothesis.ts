/**
 * The suspects of a job: every single fault near the symptom, "as planned" (nothing is wrong, or the plan itself
 * is), and "none of these". Priors are the catalogue's weights, raised where the audit found a limit broken, and by what
 * the closed jobs of this bench taught.
 */
import type { Finding } from '../audit/finding.ts'
import type { Build } from '../bench/build.ts'
import type { Plant } from '../bench/run.ts'
import { faultsOf, type KnownFault } from '../faults/catalogue.ts'
import { type Family, type Fault, faultText, NONE_OF_THESE, NOTHING_WRONG } from '../faults/fault.ts'
import { factorOf, type Learned, NOTHING_LEARNT } from './learned.ts'
import { plannedTroubles } from './planned.ts'

export interface Hypothesis {
  readonly id: string
  readonly kind: 'single' | 'pair' | 'as-planned' | 'none'
  readonly faults: readonly Fault[]
  readonly families: readonly Family[]
  readonly plants: readonly Plant[]
  readonly intermittent: boolean
  readonly prior: number
  /** The two singles of a pair. */
  readonly of?: readonly [Hypothesis, Hypothesis]
}

/** Shares of the prior that are not single faults (judgement). */
export const AS_PLANNED_SHARE = 0.04
export const NONE_SHARE = 0.02
/**
 * On the product of two priors: all pairs together weigh half of this, so about one job in five has two faults
 * (judgement; builds are wired in one sitting).
 */
export const PAIR_FACTOR = 0.5

/** An audit finding at severity `may-not-work` or worse raises the suspicion of what it names. */
const RAISED_BY: Readonly<Record<Finding['severity'], number>> = {
  'will-damage': 4,
  'will-not-work': 5,
  'may-not-work': 2.5,
  untidy: 1,
  unknown: 1,
}

export function hypotheses(
  build: Build,
  near: (fault: Fault) => boolean,
  findings: readonly Finding[],
  learned: Learned = NOTHING_LEARNT,
): readonly Hypothesis[] {
  const raised = new Map<string, number>()
  for (const { refs, severity } of findings)
    for (const ref of refs) raised.set(ref, Math.max(raised.get(ref) ?? 1, RAISED_BY[severity]))
  const singles = faultsOf(build).filter(({ fault }) => near(fault))
  const weight = (k: KnownFault): number =>
    k.weight * factorOf(learned, build, k.fault) * (raised.get(k.fault.at) ?? 1)
  const total = singles.reduce((sum, k) => sum + weight(k), 0)
  const share = 1 - AS_PLANNED_SHARE - NONE_SHARE
  const troubles = plannedTroubles(build)
  return [
    ...singles.map(
      (k): Hypothesis => ({
        id: faultText(k.fault),
        kind: 'single',
        faults: [k.fault],
        families: [k.family],
        plants: [k.plant],
        intermittent: k.intermittent,
        prior: (share * weight(k)) / total,
      }),
    ),
    {
      id: 'as-planned',
      kind: 'as-planned',
      faults: troubles.length > 0 ? troubles : [NOTHING_WRONG],
      families: [troubles.length > 0 ? 'load' : 'none'],
      plants: [],
      intermittent: false,
      // A plan that cannot work as it stands is the likeliest reason that it does not.
      prior: troubles.length > 0 ? 1 : AS_PLANNED_SHARE,
    },
    {
      id: 'none-of-these',
      kind: 'none',
      faults: [NONE_OF_THESE],
      families: ['none'],
      plants: [],
      intermittent: false,
      prior: NONE_SHARE,
    },
  ]
}

/** The build just as it is planned, also where the plan itself cannot work. */
export const HEALTHY: Hypothesis = {
  id: 'as-planned',
  kind: 'as-planned',
  faults: [],
  families: [],
  plants: [],
  intermittent: false,
  prior: 0,
}

/** Two singles at once; undefined where they are of one kind on the same thing, such as two ways of being badly seated. */
export function pairOf(a: Hypothesis, b: Hypothesis): Hypothesis | undefined {
  if (a.faults[0]?.at === b.faults[0]?.at && a.families[0] === b.families[0]) return undefined
  return {
    id: `${a.id} + ${b.id}`,
    kind: 'pair',
    faults: [...a.faults, ...b.faults],
    families: [...a.families, ...b.families],
    plants: [...a.plants, ...b.plants],
    intermittent: a.intermittent || b.intermittent,
    prior: PAIR_FACTOR * a.prior * b.prior,
    of: [a, b],
  }
}
