/** Which checks and repairs a job offers just now: those that the build allows, that this technician can do, and that tell or mend something. */
import { type Observable, observableKey } from '../bench/observable.ts'
import { repairsFor } from '../checks/mend.ts'
import { offers, touchedBy } from '../checks/offer.ts'
import { repairOf } from '../checks/repair.ts'
import { type CheckDef, HANDS_IN, type RepairDef } from '../checks/step.ts'
import type { Alive } from './alive.ts'
import type { Knowledge } from './assess.ts'
import { informationGainBits } from './belief.ts'
import type { Dossier } from './dossier.ts'
import { type PlannedCheck, plannedCheck } from './foresee.ts'

const MOST_ATTEMPTS = 6
const MOST_CHECKS = 40
/** Repairs are offered for so many of the likeliest suspects, and checks on the things of somewhat more. */
const MEND_FOR = 14
const LOOK_FOR = 30
/** Bits under which an answer changes nothing that is done next. */
const LEAST_GAIN = 0.004

/** Nothing is changed: what was done on the way may have mended it already, or nothing was wrong. */
const LOOK_AGAIN: RepairDef = {
  id: 'mend nothing',
  edits: [],
  power: 'on',
  hands: 'out',
  minutes: 1,
  spare: null,
}

export function repairsOffered(
  known: Knowledge,
  dossier: Dossier,
  alive: readonly Alive[],
): readonly RepairDef[] {
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

export function checksOffered(
  known: Knowledge,
  dossier: Dossier,
  alive: readonly Alive[],
): readonly PlannedCheck[] {
  const faults = alive.slice(0, LOOK_FOR).flatMap(({ h }) => (h.kind === 'none' ? [] : h.faults))
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
