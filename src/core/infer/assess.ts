/**
 * What is believed of a job: the posterior over its suspects, worked out anew from all answers each time, pairs of
 * likely singles where no single fits, and the answers that the best explanation leaves unexplained.
 */
import type { Finding } from '../audit/finding.ts'
import type { Build } from '../bench/build.ts'
import type { Observable } from '../bench/observable.ts'
import { likeliest, posterior } from './belief.ts'
import { columnsOf, type Odds } from './columns.ts'
import type { Dossier } from './dossier.ts'
import { type Evidence, flat, observedIn } from './evidence.ts'
import { HEALTHY, type Hypothesis, hypotheses } from './hypothesis.ts'
import { type Learned, NOTHING_LEARNT } from './learned.ts'
import { likelihood } from './likelihood.ts'
import { needsPairs, pairsOf } from './pairs.ts'
import { type InParts, whole } from './parts.ts'
import { wantedAfter } from './planned.ts'
import type { Decision, Problem, Standing } from './problem.ts'
import { nearTo, plugsBehind, type Region, regionOf, wholeBuild } from './region.ts'
import { saidBefore } from './repeated.ts'
import { type Sights, sightsOf } from './sights.ts'
import { unknownAfter } from './unknown-cause.ts'

export interface Assessment {
  readonly hypotheses: readonly Hypothesis[]
  /** By hypothesis, summing to 1. */
  readonly belief: Float64Array
  /** `columns[evidence][hypothesis]` = P(evidence | hypothesis), 1 where that can make no difference. */
  readonly columns: readonly Float64Array[]
  /** Numbers of the answers that the best explanation makes less likely than chance. */
  readonly atOdds: readonly number[]
  /** Every suspect explains the answers worse than chance does. */
  readonly conflict: boolean
}

export interface Knowledge {
  readonly build: Build
  readonly findings: readonly Finding[]
  /** What closed jobs taught; empty for none. */
  readonly learned: Learned
  readonly sights: Sights
  readonly singles: Map<string, readonly Hypothesis[]>
  readonly pairs: WeakMap<Hypothesis, Map<Hypothesis, Hypothesis | undefined>>
  /** P(evidence | hypothesis) as worked out for an answer before, and what had been said by then. */
  readonly odds: WeakMap<Evidence, OddsBefore>
  /** Decides in place of the engine's own choice: for measuring other ways of choosing on the same jobs. */
  readonly choose?: (problem: Problem, standing: Standing) => Decision
}

interface OddsBefore {
  readonly said: ReturnType<typeof saidBefore>[number]
  readonly by: Map<Hypothesis, number>
}

export const knowledgeOf = (
  build: Build,
  findings: readonly Finding[],
  learned: Learned = NOTHING_LEARNT,
): Knowledge => ({
  build,
  findings,
  learned,
  sights: sightsOf(build),
  singles: new Map(),
  pairs: new WeakMap(),
  odds: new WeakMap(),
})

/** Plugs behind whatever some answer showed not to be as wanted. */
function seeds(build: Build, evidence: readonly Evidence[]): readonly number[] {
  const found = new Set<number>()
  const add = (o: Observable): void => {
    for (const plug of plugsBehind(build, o)) found.add(plug)
  }
  for (const e of evidence) {
    if (e.kind === 'many') {
      for (const m of e.marks)
        if (e.chosen.includes(m.id) && m.value !== wantedAfter(build, m.observe, e.history)) add(m.observe)
    } else if (e.kind === 'one') {
      const means = e.answers.find((a) => a.id === e.chosen)?.means ?? []
      e.observe.forEach((o, i) => {
        if (means[i] !== null && means[i] !== wantedAfter(build, o, e.history)) add(o)
      })
    }
  }
  return [...found].sort((a, b) => a - b)
}

function singlesFor(known: Knowledge, region: Region): readonly Hypothesis[] {
  const sorted = (set: ReadonlySet<number>): string => [...set].sort((a, b) => a - b).join()
  const key = [region.parts, region.plugs, region.sockets].map(sorted).join('|')
  const before = known.singles.get(key)
  if (before) return before
  const made = hypotheses(known.build, nearTo(known.build, region), known.findings, known.learned)
  known.singles.set(key, made)
  return made
}

/** "None of these" above this: the net was cast too narrowly. */
const WIDEN_AT = 0.3
const MOST_PARTS_WHOLE = 150

export const assess = (known: Knowledge, dossier: Dossier): Assessment => whole(assessing(known, dossier))

export function* assessing(known: Knowledge, dossier: Dossier): InParts<Assessment> {
  const { build } = known
  const found = seeds(build, dossier.evidence)
  yield
  function* within(region: Region): InParts<Assessment> {
    const singles = singlesFor(known, region)
    yield
    return yield* weigh(known, dossier, singles)
  }
  if (found.length === 0) return yield* within(wholeBuild(build))
  const near = yield* within(regionOf(build, found))
  if (noneOf(near) < WIDEN_AT || build.parts.length > MOST_PARTS_WHOLE) return near
  const wide = yield* within(wholeBuild(build))
  return noneOf(wide) < noneOf(near) ? wide : near
}

const noneOf = ({ hypotheses: all, belief }: Assessment): number =>
  belief[all.findIndex((h) => h.kind === 'none')] ?? 0

function* weigh(known: Knowledge, dossier: Dossier, singles: readonly Hypothesis[]): InParts<Assessment> {
  const { evidence } = dossier
  const relevance = relevanceIn(known, dossier)
  const odds = oddsIn(known, evidence)
  const prior = yield* weightsOf(singles, relevance)
  const alone = yield* columnsOf(prior, evidence.length, odds(singles))
  const belief = posterior(prior, alone)
  if (!needsPairs(evidence, belief, alone)) return judged(evidence, singles, belief, alone)
  // What is out of the running alone may still explain one of two things.
  const exact = yield* columnsOf(prior, evidence.length, odds(singles), 0)
  const pairs = pairsOf(known, singles, evidence, exact)
  const all = [...singles, ...pairs]
  const priors = [...prior, ...(yield* weightsOf(pairs, relevance))]
  const columns = yield* columnsOf(priors, evidence.length, odds(all))
  return judged(evidence, all, posterior(priors, columns), columns)
}

/** Suspects are held against what was seen first, so many in one part. */
const RELATED_IN_A_PART = 80

function* weightsOf(
  hs: readonly Hypothesis[],
  relevance: (h: Hypothesis) => number,
): InParts<readonly number[]> {
  const weights: number[] = []
  for (const h of hs) {
    weights.push(h.prior * relevance(h))
    if (weights.length % RELATED_IN_A_PART === 0) yield
  }
  return weights
}

/** P(evidence | suspect), which is remembered. */
function oddsIn(known: Knowledge, evidence: readonly Evidence[]): (hs: readonly Hypothesis[]) => Odds {
  const said = saidBefore(evidence)
  const remembered = evidence.map((e, i) => oddsOf(known, e, said[i] ?? []))
  let worked = 0
  return (hs) => {
    const none = hs.find((h) => h.kind === 'none')
    const foreseen = none ? unknownAfter(evidence, none, known.sights).column : []
    return {
      of: (answer, suspect) => {
        const h = hs[suspect]!
        if (h === none) return foreseen[answer]!
        const by = remembered[answer]!
        const before = by.get(h)
        if (before !== undefined) return before
        const p = likelihood(evidence[answer]!, h, known.sights, said[answer])
        by.set(h, p)
        worked++
        return p
      },
      worked: () => worked,
    }
  }
}

/** P(evidence | suspect) as far as it was worked out while the same was said before. */
function oddsOf(known: Knowledge, e: Evidence, said: OddsBefore['said']): OddsBefore['by'] {
  const before = known.odds.get(e)
  const { by } = before?.said === said ? before : { by: new Map<Hypothesis, number>() }
  known.odds.set(e, { said, by })
  return by
}

/** A fault that shows nothing of what the person came with is hardly why they came. */
const UNRELATED = 0.02

/** By hypothesis: 1 where it shows something of what the person came with that the plan alone would not. */
function relevanceIn(known: Knowledge, dossier: Dossier): (h: Hypothesis) => number {
  const first = dossier.evidence.find((e) => e.kind === 'many' && e.chosen.length > 0)
  // Nothing at all was seen to be wrong: then hardly anything is.
  const unseen = dossier.evidence.some((e) => e.kind === 'many') ? UNRELATED : 1
  const observe = first?.kind === 'many' ? observedIn(first) : []
  const history = first?.history ?? []
  const without = known.sights.values(HEALTHY, history, observe)[0] ?? []
  const relevance = (h: Hypothesis): number => {
    if (h.kind === 'none' || h.kind === 'as-planned') return 1
    if (h.of) return relevance(h.of[0]) * relevance(h.of[1])
    if (!first) return unseen
    return known.sights.shows(h, history, observe, without) ? UNRELATED : 1
  }
  return relevance
}

function judged(
  evidence: readonly Evidence[],
  all: readonly Hypothesis[],
  belief: Float64Array,
  columns: readonly Float64Array[],
): Assessment {
  const b = likeliest(belief)
  const atOdds = evidence.flatMap((e, i) =>
    e.kind !== 'about' && (columns[i]?.[b] ?? 1) < 0.6 * flat(e) ? [e.seq] : [],
  )
  return { hypotheses: all, belief, columns, atOdds, conflict: all[b]?.kind === 'none' }
}
