/**
 * What a check would tell under each suspect in question: the bench is asked what would be seen once the step's edits
 * and changes of power have been made.
 */
import { type Build, NOWHERE } from '../bench/build.ts'
import type { Edit } from '../bench/edit.ts'
import type { Observable, Value } from '../bench/observable.ts'
import { answersFor } from '../checks/answers.ts'
import { undoing } from '../checks/offer.ts'
import type { Answer, Power } from '../checks/prompt.ts'
import type { CheckDef } from '../checks/step.ts'
import type { Alive } from './alive.ts'
import type { Knowledge } from './assess.ts'
import type { Dossier } from './dossier.ts'
import { HEALTHY } from './hypothesis.ts'
import { oddsUnder } from './likelihood.ts'
import { wantedAfter } from './planned.ts'
import { agree, lookKey, oddsAgain, saidBy, saidLast } from './repeated.ts'
import { unknownAfter } from './unknown-cause.ts'

export interface PlannedCheck {
  readonly check: CheckDef
  readonly answers: readonly Answer[]
  /** P(answer | suspect), by alive suspect. */
  readonly table: readonly Float64Array[]
  /** The same where a loose contact is broken: what such a suspect would show at one look. */
  readonly broken: readonly Float64Array[]
  /** By answer, where this same look was made before: whether it would say the same again. */
  readonly same: readonly boolean[] | undefined
}

/** A trial by edit is foreseen for so many of the likeliest suspects; for the others it tells nothing. */
const MOST_TRIED_BY_EDIT = 16

/** What will have been done to the build when this step's look is made. */
export function historyFor(
  build: Build,
  dossier: Dossier,
  edits: readonly Edit[],
  power: Power,
): readonly Edit[] {
  const history = [...dossier.history]
  let now = dossier.power
  const turn = (to: Power): void => {
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

/** What is seen of a check's things: once, or twice where it comes and goes. */
type Sighted = readonly (readonly (Value | null)[])[]

const sameSights = (a: Sighted, b: Sighted): boolean => {
  if (a.length !== b.length) return false
  for (let i = 0; i < a.length; i++)
    for (let k = 0; k < a[i]!.length; k++) if (a[i]![k] !== b[i]![k]) return false
  return true
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
    costly && i >= MOST_TRIED_BY_EDIT
      ? []
      : known.sights.values(h.kind === 'none' ? HEALTHY : h, history, check.observe),
  )
  const right = check.observe.map((o) => wantedAfter(known.build, o, history))
  const answers = answersFor(check.observe, [...seen.flat(), right], check.power)
  const [only, ...others] = check.observe
  const before =
    only && others.length === 0 && !costly
      ? saidLast(dossier.evidence).get(lookKey(only, history))
      : undefined
  const says = saidBy(answers)
  // Many suspects show the same: their rows are one.
  const rows: { readonly sights: Sighted; readonly row: Float64Array }[] = []
  const rowOf = (sights: Sighted): Float64Array => {
    for (const known of rows) if (sameSights(known.sights, sights)) return known.row
    const row = oddsAgain(oddsUnder(answers, sights, check.error), before, says)
    rows.push({ sights, row })
    return row
  }
  const table = seen.map((sights, i) => {
    const { h } = alive[i]!
    if (h.kind !== 'none') return rowOf(sights)
    const unknown = unknownAfter(dossier.evidence, h, known.sights)
    const [healthy = []] = sights
    return oddsAgain(unknown.foresee(check.observe, history, answers, healthy, check.error), before, says)
  })
  const broken = seen.map((sights, i) => (sights.length > 1 ? rowOf(sights.slice(0, 1)) : table[i]!))
  const same = before && says.map((s) => agree(before, s))
  return { check, answers, table, broken, same }
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
  return scope.map((o) => {
    const plug =
      o.what === 'rpm'
        ? build.ports[build.plugIn[build.portAt.get(o.at) ?? NOWHERE] ?? NOWHERE]?.ref
        : undefined
    const last = moves.findLast((e) => e.plug === plug)
    return last ? { what: o.what, at: last.socket } : o
  })
}
