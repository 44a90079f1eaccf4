/**
 * The reasoning on a job as it stands: which answers bear on it, what it is about, who is suspected and what would be
 * the best thing to do.
 */
import { powerAfter } from '../../core/bench/edit.ts'
import type { Observable } from '../../core/bench/observable.ts'
import { MAP_KINDS, type MapKind, mappedAll } from '../../core/checks/maps.ts'
import type { Suspect } from '../../core/checks/prompt.ts'
import { hasHostWork } from '../../core/faults/governed.ts'
import { type Assessment, assessing, type Knowledge } from '../../core/infer/assess.ts'
import { chosenFrom, type Outlook, optionsFor } from '../../core/infer/decide.ts'
import type { Dossier } from '../../core/infer/dossier.ts'
import type { Evidence } from '../../core/infer/evidence.ts'
import { type InParts, whole } from '../../core/infer/parts.ts'
import { hostAfter, wantedAfter } from '../../core/infer/planned.ts'
import { suspectsOf } from '../../core/infer/suspects.ts'
import { bearing } from './excursion.ts'
import { evidenceNow, type Job, powerOf } from './job.ts'

/** The kinds of map that the symptom is about: those of the scoping that showed something, else the first. */
export function scopeKinds(job: Job): readonly MapKind[] {
  const maps = job.ground.flow.scoping.flatMap((t) => ('map' in t ? [t.map] : []))
  const marked = new Set([...deviations(job), ...foundOnTheWay(job)].map((o) => o.what))
  const shown = maps.filter((kind) => marked.has(kind))
  const others = MAP_KINDS.filter((kind) => marked.has(kind) && !maps.includes(kind))
  return shown.length + others.length > 0 ? [...shown, ...others] : maps.slice(0, 1)
}

/** What single looks showed not to be as wanted, with every plug in its place: it is taken in, not lost. */
const foundOnTheWay = (job: Job): readonly Observable[] =>
  evidenceOf(job).flatMap((e) => {
    if (e.kind !== 'one' || e.history.some((edit) => edit.do === 'swap' || edit.do === 'plug')) return []
    if (powerAfter(e.history) === 'off') return []
    const means = e.answers.find((a) => a.id === e.chosen)?.means ?? []
    return e.observe.filter(
      (o, i) => means[i] != null && means[i] !== wantedAfter(job.ground.build, o, e.history),
    )
  })

/** What some map showed not to be as wanted. */
export function deviations(job: Job) {
  const { build } = job.ground
  return evidenceOf(job).flatMap((e) =>
    e.kind === 'many'
      ? e.marks
          .filter((m) => e.chosen.includes(m.id) && m.value !== wantedAfter(build, m.observe, e.history))
          .map((m) => m.observe)
      : [],
  )
}

/** All answers; on a first boot, those that bear on the fault in hand. */
const evidenceOf = (job: Job) => (job.ground.flow.walk ? bearing(job) : evidenceNow(job))

/** All of a job that the engine reasons from, and nothing else of it. */
export function dossierOf(job: Job): Dossier {
  return {
    evidence: evidenceOf(job),
    history: job.history,
    inForce: job.inForce,
    power: powerOf(job),
    scope: scopeOf(job),
    closed: job.closed,
    toolsMissing: job.toolsMissing,
  }
}

/** What the symptom is looked for by; on a first boot also while no host speaks yet, when less is lit by right. */
export function scopeOf(job: Job): readonly Observable[] {
  const { build, flow } = job.ground
  const host = flow.walk && hasHostWork(build) ? hostAfter(build, job.history) : undefined
  return mappedAll(build, scopeKinds(job), host)
}

export interface Thought {
  readonly assessment: Assessment
  readonly outlook: Outlook
  readonly suspects: readonly Suspect[]
}

/** A thought as far as it has come. */
interface Thinking {
  readonly evidence: readonly Evidence[]
  /** What is left of it, in parts of about the same length. */
  readonly parts: InParts<Thought>
  thought?: Thought
}

function* thinking(known: Knowledge, dossier: Dossier): InParts<Thought> {
  const assessment = yield* assessing(known, dossier)
  yield
  const options = yield* optionsFor(known, dossier, assessment)
  const outlook = yield* chosenFrom(known, dossier, options)
  return { assessment, outlook, suspects: suspectsOf(outlook.alive, outlook.checks).map(rounded) }
}

/**
 * The last few thoughts by what they were made of: an answer that was taken back is often given again, and who asks why
 * is told the very reasoning that chose the step. Each holds 150 kB.
 */
const MOST_KEPT = 4
const kept = new WeakMap<Knowledge, Map<string, Thinking>>()

/** What a dossier says, whatever the numbers of its answers in the log. */
const saidIn = ({ evidence, closed, toolsMissing, ...rest }: Dossier): string =>
  JSON.stringify([rest, [...closed], [...toolsMissing], evidence.map((e) => ({ ...e, seq: 0 }))])

function thinkingOn(known: Knowledge, dossier: Dossier): Thinking {
  const all = kept.get(known) ?? new Map<string, Thinking>()
  kept.set(known, all)
  const said = saidIn(dossier)
  const found = all.get(said) ?? { evidence: dossier.evidence, parts: thinking(known, dossier) }
  all.delete(said)
  all.set(said, found)
  if (all.size > MOST_KEPT) all.delete(all.keys().next().value ?? '')
  return found
}

/** The whole reasoning on a job as it stands. */
export function think(job: Job): Thought {
  const dossier = dossierOf(job)
  const on = thinkingOn(job.ground.known, dossier)
  on.thought ??= whole(on.parts)
  return renumbered(on.thought, on.evidence, dossier.evidence)
}

/** The same in parts, for later: it is whole once they have been gone through. */
export function* thinkAhead(job: Job): InParts<void> {
  const on = thinkingOn(job.ground.known, dossierOf(job))
  while (!on.thought) {
    const part = on.parts.next()
    if (part.done) on.thought = part.value
    else yield
  }
}

/** The same thought of the same answers under other numbers. */
function renumbered(thought: Thought, as: readonly Evidence[], now: readonly Evidence[]): Thought {
  if (as === now) return thought
  const { assessment } = thought
  const atOdds = assessment.atOdds.flatMap((seq) => now[as.findIndex((e) => e.seq === seq)]?.seq ?? [])
  return { ...thought, assessment: { ...assessment, atOdds } }
}

const millionths = (p: number): number => Math.min(1, Math.round(p * 1e6) / 1e6)

const rounded = (s: Suspect): Suspect => ({
  ...s,
  p: millionths(s.p),
  alike: s.alike.map((a) => (a.p === undefined ? a : { ...a, p: millionths(a.p) })),
})
