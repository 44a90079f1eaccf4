/**
 * The next step of a job: the suspects that matter, the checks and repairs that the build offers, what the bench
 * foresees for each, put into numbers for `choose`. The same chooser decides problems that come from a file.
 */
import { type Build, NOWHERE } from '../bench/build.ts'
import type { Edit } from '../bench/edit.ts'
import { type Observable, observableKey, type Value } from '../bench/observable.ts'
import { answersFor } from '../checks/answers.ts'
import { HAND_OVER_MINUTES, SWITCH_MINUTES } from '../checks/looks.ts'
import { repairOf, repairsFor } from '../checks/mend.ts'
import { offers, touchedBy, undoing } from '../checks/offer.ts'
import type { Answer } from '../checks/prompt.ts'
import { type CheckDef, HANDS_IN, type RepairDef, type Step } from '../checks/step.ts'
import type { Assessment, Knowledge } from './assess.ts'
import { informationGainBits } from './belief.ts'
import { chooseStep } from './choose/choose.ts'
import type { Dossier } from './dossier.ts'
import type { Hypothesis } from './hypothesis.ts'
import { oddsUnder } from './likelihood.ts'
import { wanted } from './planned.ts'
import type { Choice, Decision, Problem } from './problem.ts'

/** A suspect that is still worth planning for. */
export interface Alive {
  readonly h: Hypothesis
  readonly p: number
}

export interface Outlook {
  readonly step: Step
  readonly expectedMinutes: number
  readonly others: readonly { readonly step: Step; readonly expectedMinutes: number }[]
  readonly alive: readonly Alive[]
  readonly checks: readonly PlannedCheck[]
}

export interface PlannedCheck {
  readonly check: CheckDef
  readonly answers: readonly Answer[]
  /** P(answer | suspect), by alive suspect. */
  readonly table: readonly Float64Array[]
}

const MASS = 0.995
const MOST_ALIVE = 44
const MOST_TRIED_BY_EDIT = 20
const MOST_ATTEMPTS = 8
const MOST_CHECKS = 40
const MEND_FOR = 18
const NODES = 1500
/** Bits under which an answer changes nothing that is done next. */
const LEAST_GAIN = 0.004

/** The likeliest suspects, up to nearly all of the belief; the rest is planned for as "none of these". */
export function aliveOf({ hypotheses, belief }: Assessment): readonly Alive[] {
  const ranked = hypotheses
    .map((h, i) => ({ h, p: belief[i] ?? 0 }))
    .sort((a, b) => b.p - a.p || (a.h.id < b.h.id ? -1 : 1))
  const kept: Alive[] = []
  let mass = 0
  for (const one of ranked) {
    if (one.h.kind === 'none') continue
    if (kept.length >= MOST_ALIVE || (mass > MASS && kept.length > 0)) break
    kept.push(one)
    mass += one.p
  }
  const none = hypotheses.find((h) => h.kind === 'none')
  return none ? [...kept, { h: none, p: Math.max(1 - mass, 1e-6) }] : kept
}

/** What will have been done to the build when this step's look is made. */
function historyFor(
  build: Build,
  dossier: Dossier,
  edits: readonly Edit[],
  power: 'on' | 'off',
): readonly Edit[] {
  const history = [...dossier.history]
  let now = dossier.power
  const turn = (to: 'on' | 'off'): void => {
    if (now !== to) history.push({ do: 'power', to })
    now = to
  }
  const handsIn = edits.some((e) => e.do !== 'set' && e.do !== 'power')
  if (handsIn) {
    turn('off')
    history.push(...undoing(build, dossier.inForce))
  }
  history.push(...edits)
  for (const edit of edits) if (edit.do === 'power') now = edit.to
  turn(power)
  return history
}

export function plannedCheck(
  known: Knowledge,
  dossier: Dossier,
  alive: readonly Alive[],
  check: CheckDef,
): PlannedCheck {
  const history = historyFor(known.build, dossier, check.edits, check.power)
  const costly = check.edits.length > 0
  const seen = alive.map(({ h }, i) =>
    h.kind === 'none' || (costly && i >= MOST_TRIED_BY_EDIT)
      ? []
      : known.sights.values(h, history, check.observe),
  )
  const right = check.observe.map((o) => wanted(known.build, o))
  const foreseen: (readonly (Value | null)[])[] = [...seen.flat(), right]
  const answers = answersFor(check.observe, foreseen)
  return { check, answers, table: seen.map((sights) => oddsUnder(answers, sights, check.error)) }
}

/**
 * What the symptom is looked for by after some edits: a header's reading goes where its plug has been moved to.
 * What is wanted there is what was wanted at the old place.
 */
export function scopeAfter(
  build: Build,
  scope: readonly Observable[],
  edits: readonly Edit[],
): readonly Observable[] {
  const moves = edits.flatMap((e) => (e.do === 'plug' ? [e] : []))
  if (moves.length === 0) return scope
  return scope.map((o) => {
    const plug =
      o.what === 'rpm'
        ? build.ports[build.plugIn[build.portAt.get(o.at) ?? NOWHERE] ?? NOWHERE]?.ref
        : undefined
    const last = moves.findLast((e) => e.plug === plug)
    return last ? { what: o.what, at: last.socket } : o
  })
}

/** Whether the symptom would be gone under a suspect after these edits. */
function cures(known: Knowledge, dossier: Dossier, h: Hypothesis, repair: RepairDef): boolean {
  const history = historyFor(known.build, dossier, repair.edits, 'on')
  const wants = dossier.scope.map((o) => wanted(known.build, o))
  return known.sights.shows(h, history, scopeAfter(known.build, dossier.scope, history), wants)
}

/** Things that an edit or a fault names: a part, or the part and port of a reference. */
const thingsOf = (build: Build, ref: string): readonly string[] => {
  if (ref.includes('/')) return [ref]
  const port = build.portAt.get(ref)
  const part = ref.split('.')[0] ?? ref
  if (port === undefined) return [ref]
  const other =
    build.ports[port]?.gender === 'plug' ? (build.socketOf[port] ?? NOWHERE) : (build.plugIn[port] ?? NOWHERE)
  const across = build.ports[other]
  return [ref, part, ...(across ? [across.ref, across.part] : [])].filter(
    (t) => t !== 'board' && t !== 'supply',
  )
}

/** What an edit names; changes of power name nothing. */
function namedBy(edit: Edit): readonly string[] {
  switch (edit.do) {
    case 'power':
      return []
    case 'swap':
      return [edit.a, edit.b]
    case 'plug':
      return [edit.plug, edit.socket]
    case 'unplug':
    case 'reseat':
      return [edit.plug]
    case 'substitute':
      return [edit.what]
    case 'free':
      return [edit.part]
    case 'set':
      return [edit.setting]
  }
}

const editThings = (build: Build, edits: readonly Edit[]): ReadonlySet<string> =>
  new Set(edits.flatMap(namedBy).flatMap((ref) => thingsOf(build, ref)))

/** Power alone mends what had hung or tripped; everything else must be touched to be mended. */
const POWER_CLEARS: readonly string[] = ['hung', 'tripped']

function mayCure(build: Build, things: ReadonlySet<string>, h: Hypothesis): boolean {
  return h.faults.some(({ at, mode }) => {
    if (POWER_CLEARS.includes(mode)) return true
    const arg = /^(?:swapped-with|in)-(.+)$/.exec(mode)?.[1]
    return [...thingsOf(build, at), ...(arg ? thingsOf(build, arg) : [])].some((t) => things.has(t))
  })
}

/** Nothing is changed: what was done on the way may have mended it already, or nothing was wrong. */
const LOOK_AGAIN: RepairDef = {
  id: 'mend nothing',
  edits: [],
  power: 'on',
  hands: 'out',
  minutes: 1,
  spare: null,
}

function repairsOffered(known: Knowledge, dossier: Dossier, alive: readonly Alive[]): readonly RepairDef[] {
  const found = new Map<string, RepairDef>()
  const shut = dossier.toolsMissing.has(HANDS_IN)
  const offer = (repair: RepairDef): void => {
    const inside = repair.hands === 'in' || repair.edits.some((e) => e.do === 'power')
    if (!dossier.closed.has(repair.id) && !found.has(repair.id) && !(shut && inside))
      found.set(repair.id, repair)
  }
  if (dossier.history.length > 0 && dossier.inForce.length === 0) offer(LOOK_AGAIN)
  for (const { h } of alive.slice(0, MEND_FOR)) {
    const each = h.faults.map((fault) => repairsFor(known.build, fault))
    for (const repair of each.flat()) offer(repair)
    const [a, b] = each.map((repairs) => repairs.find((r) => !dossier.closed.has(r.id)))
    if (h.kind === 'pair' && a && b && a.id !== b.id && a.power === b.power) {
      offer({
        ...repairOf([...a.edits, ...b.edits], a.minutes + b.minutes, { power: a.power }),
        spare: a.spare ?? b.spare,
      })
    }
  }
  return [...found.values()]
}

function checksOffered(known: Knowledge, dossier: Dossier, alive: readonly Alive[]): readonly PlannedCheck[] {
  const faults = alive.slice(0, 30).flatMap(({ h }) => (h.kind === 'none' ? [] : h.faults))
  const trusted = trustedBy(dossier)
  const needs = (c: CheckDef): readonly string[] =>
    c.fit || c.edits.length > 0 || c.hands === 'in' ? [...c.tools, HANDS_IN] : c.tools
  const usable = offers(known.build, touchedBy(known.build, faults), trusted).filter(
    (c) => !dossier.closed.has(c.id) && needs(c).every((need) => !dossier.toolsMissing.has(need)),
  )
  const plain = usable.filter((c) => c.edits.length === 0)
  const attempts = usable.filter((c) => c.edits.length > 0).slice(0, MOST_ATTEMPTS)
  const p = Float64Array.from(alive, (a) => a.p)
  return [...plain, ...attempts]
    .map((check) => plannedCheck(known, dossier, alive, check))
    .map((planned) => ({ planned, gain: informationGainBits(p, planned.table, planned.answers.length) }))
    .filter(({ gain }) => gain > LEAST_GAIN)
    .sort(
      (a, b) =>
        b.gain / b.planned.check.minutes - a.gain / a.planned.check.minutes ||
        (a.planned.check.id < b.planned.check.id ? -1 : 1),
    )
    .slice(0, MOST_CHECKS)
    .map(({ planned }) => planned)
}

/** A part that was looked at and found right can serve as a known good one. */
function trustedBy(dossier: Dossier): (o: Observable) => boolean {
  const bad = new Set<string>()
  for (const e of dossier.evidence)
    if (e.kind === 'many')
      for (const m of e.marks) if (e.chosen.includes(m.id)) bad.add(observableKey(m.observe))
  return (o) => !bad.has(observableKey(o))
}

/** Minutes of a check as the chooser counts them: a trial by edit brings its own power-off and power-on. */
function minutesOf(check: CheckDef, dossier: Dossier): number {
  const handsIn = check.fit || check.edits.length > 0
  return check.minutes + (handsIn && dossier.power === 'on' ? 2 * SWITCH_MINUTES : 0)
}

export function decide(known: Knowledge, dossier: Dossier, assessment: Assessment): Outlook {
  const alive = aliveOf(assessment)
  const checks = checksOffered(known, dossier, alive)
  const repairs = repairsOffered(known, dossier, alive)
  const fixes = repairs.map((repair) => {
    const things = editThings(known.build, repair.edits)
    return Uint8Array.from(alive, ({ h }) => {
      if (h.kind === 'none') return 0
      const relevant = repair.edits.length === 0 || mayCure(known.build, things, h)
      return relevant && cures(known, dossier, h, repair) ? 1 : 0
    })
  })
  const useful = repairs.flatMap((_, i) => (fixes[i]?.some((f) => f === 1) ? [i] : []))
  const problem: Problem = {
    suspects: alive.map(({ h, p }) => ({ id: h.id, prior: p })),
    checks: checks.map(({ check, answers, table }) => ({
      id: check.id,
      minutes: minutesOf(check, dossier),
      mode: check.power,
      outcomes: answers.map((a) => a.id),
      table,
    })),
    repairs: useful.map((i) => ({
      id: repairs[i]?.id ?? '',
      minutes: (repairs[i]?.minutes ?? 0) + 1,
      mode: repairs[i]?.power ?? 'off',
      fixes: fixes[i] ?? new Uint8Array(alive.length),
    })),
    switchMinutes: SWITCH_MINUTES,
    escalateMinutes: HAND_OVER_MINUTES,
    verifyMode: 'on',
  }
  const total = alive.reduce((sum, a) => sum + a.p, 0)
  const decision: Decision = chooseStep(
    problem,
    {
      belief: Float64Array.from(alive, (a) => a.p / total),
      mode: dossier.power,
      checksLeft: problem.checks.map((_, i) => i),
      repairsLeft: problem.repairs.map((_, i) => i),
    },
    { nodes: NODES },
  )
  const stepOf = (choice: Choice): Step => {
    if (choice.do === 'check') return { kind: 'check', check: checks[choice.index]?.check as CheckDef }
    if (choice.do === 'repair')
      return { kind: 'repair', repair: repairs[useful[choice.index] ?? 0] as RepairDef }
    return { kind: 'hand-over' }
  }
  return {
    step: stepOf(decision.best),
    expectedMinutes: decision.best.minutes,
    others: decision.others.map((c) => ({ step: stepOf(c), expectedMinutes: c.minutes })),
    alive,
    checks,
  }
}
