/**
 * What is believed of a job: the posterior over its suspects, worked out anew from all answers each time, pairs of
 * likely singles where no single fits, and the answers that the best explanation leaves unexplained.
 */
import type { Finding } from '../audit/finding.ts'
import type { Build } from '../bench/build.ts'
import type { Observable } from '../bench/observable.ts'
import { posterior } from './belief.ts'
import type { Dossier } from './dossier.ts'
import { type Evidence, observedIn, thingsIn } from './evidence.ts'
import { HEALTHY, type Hypothesis, hypotheses, pairOf } from './hypothesis.ts'
import { type Learned, NOTHING_LEARNT } from './learned.ts'
import { likelihood } from './likelihood.ts'
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
  /** `columns[evidence][hypothesis]` = P(evidence | hypothesis). */
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
  readonly pairs: Map<string, Hypothesis>
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
  pairs: new Map(),
  odds: new WeakMap(),
})

/** Chance level of one piece of evidence. */
const flat = (e: Evidence): number => {
  if (e.kind === 'one') return 1 / e.answers.length
  if (e.kind === 'about') return 1
  return thingsIn(e).reduce((p, { marks }) => p / (marks.length + 1), 1)
}

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

/** So many likely singles are tried in pairs. */
const POOL = 26
/** "None of these" above this: the net was cast too narrowly. */
const WIDEN_AT = 0.3
const MOST_PARTS_WHOLE = 150

export function assess(known: Knowledge, dossier: Dossier): Assessment {
  const { build } = known
  const found = seeds(build, dossier.evidence)
  const within = (region: Region): Assessment => weigh(known, dossier, singlesFor(known, region))
  if (found.length === 0) return within(wholeBuild(build))
  const near = within(regionOf(build, found))
  if (noneOf(near) < WIDEN_AT || build.parts.length > MOST_PARTS_WHOLE) return near
  const wide = within(wholeBuild(build))
  return noneOf(wide) < noneOf(near) ? wide : near
}

const noneOf = ({ hypotheses: all, belief }: Assessment): number =>
  belief[all.findIndex((h) => h.kind === 'none')] ?? 0

function weigh(known: Knowledge, dossier: Dossier, singles: readonly Hypothesis[]): Assessment {
  const said = saidBefore(dossier.evidence)
  const none = singles.find((h) => h.kind === 'none')
  const foreseen = none ? unknownAfter(dossier.evidence, none, known.sights).column : []
  const columnsFor = (hs: readonly Hypothesis[]): Float64Array[] =>
    dossier.evidence.map((e, i) => {
      const odds = oddsIn(known, e, said[i] ?? [])
      const column = new Float64Array(hs.length)
      hs.forEach((h, k) => {
        column[k] = h === none ? foreseen[i]! : odds(h)
      })
      return column
    })
  const relevance = relevanceIn(known, dossier)
  const prior = (hs: readonly Hypothesis[]): number[] => hs.map((h) => h.prior * relevance(h))
  const alone = columnsFor(singles)
  const belief = posterior(prior(singles), alone)
  if (!needsPairs(dossier.evidence, belief, alone)) return judged(dossier.evidence, singles, belief, alone)
  const pairs = pairsOf(known, singles, dossier.evidence, alone)
  const all = [...singles, ...pairs]
  const extra = columnsFor(pairs)
  const columns = alone.map((column, e) => {
    const both = new Float64Array(all.length)
    both.set(column)
    both.set(extra[e]!, column.length)
    return both
  })
  return judged(dossier.evidence, all, posterior(prior(all), columns), columns)
}

/** P(evidence | suspect), worked out once as long as the same was said before. */
function oddsIn(known: Knowledge, e: Evidence, said: OddsBefore['said']): (h: Hypothesis) => number {
  const before = known.odds.get(e)
  const { by } = before?.said === said ? before : { by: new Map<Hypothesis, number>() }
  known.odds.set(e, { said, by })
  return (h) => {
    const odds = by.get(h) ?? likelihood(e, h, known.sights, said)
    by.set(h, odds)
    return odds
  }
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

const best = (belief: Float64Array): number => belief.reduce((b, p, i) => (p > (belief[b] ?? 0) ? i : b), 0)

/** Less likely than this share of a full match, something on a map is left unexplained. */
const MISFIT = 0.2

/** The likeliest single leaves some answer, or some thing on a map, unexplained. */
function needsPairs(
  evidence: readonly Evidence[],
  belief: Float64Array,
  columns: readonly Float64Array[],
): boolean {
  const b = best(belief)
  return evidence.some((e, i) => {
    const p = columns[i]?.[b] ?? 1
    if (e.kind === 'about') return false
    return e.kind === 'many' ? p < MISFIT * (1 - e.error) ** thingsIn(e).length : p < flat(e)
  })
}

/** Pairs of the singles that explain most, each forgiven what it can't explain. */
function pairsOf(
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
      const pair = known.pairs.get(`${first.id} + ${second.id}`) ?? pairOf(first, second)
      if (!pair) continue
      known.pairs.set(pair.id, pair)
      pairs.push(pair)
    }
  })
  return pairs
}

function judged(
  evidence: readonly Evidence[],
  all: readonly Hypothesis[],
  belief: Float64Array,
  columns: readonly Float64Array[],
): Assessment {
  const b = best(belief)
  const atOdds = evidence.flatMap((e, i) =>
    e.kind !== 'about' && (columns[i]?.[b] ?? 1) < 0.6 * flat(e) ? [e.seq] : [],
  )
  return { hypotheses: all, belief, columns, atOdds, conflict: all[b]?.kind === 'none' }
}
