/** Which checks and repairs a job offers just now: those that the build allows, that this technician can do, and that tell or mend something. */
import type { Build } from '../bench/build.ts'
import type { Edit } from '../bench/edit.ts'
import { type Observable, observableKey } from '../bench/observable.ts'
import { bothRepairs } from '../checks/both.ts'
import { repairsFor } from '../checks/mend.ts'
import { offers, touchedBy } from '../checks/offer.ts'
import { type CheckDef, HANDS_IN, type RepairDef } from '../checks/step.ts'
import type { Alive } from './alive.ts'
import type { Knowledge } from './assess.ts'
import { informationGainBits } from './belief.ts'
import type { Dossier } from './dossier.ts'
import { type PlannedCheck, plannedCheck } from './foresee.ts'
import type { InParts } from './parts.ts'
import { hostAfter } from './planned.ts'
import { REPEATS_ITSELF } from './repeated.ts'

const MOST_ATTEMPTS = 6
const MOST_CHECKS = 40
/** Repairs are offered for so many of the likeliest suspects, and checks on the things of somewhat more. */
const MEND_FOR = 14
const LOOK_FOR = 20
/** A look is not asked for a second time unless it may well have been a slip. */
const LEAST_DOUBT = 0.05
/** A second look that shows the same less often than this was a slip before; a loose contact shows it more often. */
const SURELY_AGAIN = REPEATS_ITSELF + 0.35 * (1 - REPEATS_ITSELF)
/** Bits under which an answer changes nothing that is done next. */
const LEAST_GAIN = 0.004

/** So often is the symptom looked for again with nothing changed in between: what a slip spoils, the next look mends. */
const MOST_LOOKS_AGAIN = 2

/** Nothing is changed: what was done on the way may have mended it already, or nothing was wrong. */
const lookAgain = (after: number, time: number): RepairDef => ({
  id: `mend nothing, ${after}.${time}`,
  edits: [],
  power: 'on',
  hands: 'out',
  minutes: 1,
  spare: null,
})

export function repairsOffered(
  known: Knowledge,
  dossier: Dossier,
  alive: readonly Alive[],
): readonly RepairDef[] {
  const found = new Map<string, RepairDef>()
  const shut = dossier.toolsMissing.has(HANDS_IN)
  const offer = (repair: RepairDef | undefined): void => {
    if (!repair) return
    const inside = repair.hands === 'in' || repair.edits.some((e) => e.do === 'power')
    if (!dossier.closed.has(repair.id) && !found.has(repair.id) && !(shut && inside))
      found.set(repair.id, withHost(known.build, dossier, repair))
  }
  if (dossier.history.length > 0 && dossier.inForce.length === 0) {
    const after = dossier.history.filter((edit) => edit.do !== 'power').length
    const times = Array.from({ length: MOST_LOOKS_AGAIN }, (_, i) => lookAgain(after, i + 1))
    offer(times.find((again) => !dossier.closed.has(again.id)))
  }
  for (const { h } of alive.slice(0, MEND_FOR)) {
    const each = h.faults.map((fault) => repairsFor(known.build, fault))
    for (const repair of each.flat()) offer(repair)
    const [a, b] = each.map((repairs) => repairs.find((r) => !dossier.closed.has(r.id)))
    if (h.kind === 'pair' && a && b && a.id !== b.id) offer(bothRepairs(known.build, a, b))
  }
  return [...found.values()]
}

/** What only the host program shows and sets, while the host does not speak yet. */
const needsHost = (build: Build, { history }: Dossier, ref: string): boolean =>
  build.plan.settings.host.program === 'running' &&
  hostAfter(build, history) === 'absent' &&
  (ref.startsWith('channels/') || ref === 'host/global_effect' || /^headers\/[^/]*\./.test(ref))

/** A setting that the host program keeps is set once that runs. */
function withHost(build: Build, dossier: Dossier, repair: RepairDef): RepairDef {
  const needs = repair.edits.some((e) => e.do === 'set' && needsHost(build, dossier, e.setting))
  if (!needs) return repair
  const start: Edit = { do: 'set', setting: 'host/program', value: 'running' }
  return { ...repair, edits: [start, ...repair.edits], minutes: repair.minutes + START_HOST_MINUTES }
}

/** From the firmware's setup to a host program that speaks, and back. */
const START_HOST_MINUTES = 8

/** So many checks are foreseen in one part. */
const CHECKS_IN_A_PART = 8

export function* checksOffered(
  known: Knowledge,
  dossier: Dossier,
  alive: readonly Alive[],
): InParts<readonly PlannedCheck[]> {
  const faults = alive.slice(0, LOOK_FOR).flatMap(({ h }) => h.faults)
  const trusted = trustedBy(dossier)
  const needs = (c: CheckDef): readonly string[] =>
    c.fit || c.edits.length > 0 || c.hands === 'in' ? [...c.tools, HANDS_IN] : c.tools
  const usable = offers(known.build, touchedBy(known.build, faults), trusted).filter(
    (c) =>
      !c.observe.some((o) => o.what === 'setting' && needsHost(known.build, dossier, o.at)) &&
      !dossier.closed.has(c.id) &&
      needs(c).every((need) => !dossier.toolsMissing.has(need)),
  )
  const plain = usable.filter((c) => c.edits.length === 0)
  const attempts = usable.filter((c) => c.edits.length > 0).slice(0, MOST_ATTEMPTS)
  const p = Float64Array.from(alive, (a) => a.p)
  const foreseen: PlannedCheck[] = []
  for (const check of [...plain, ...attempts]) {
    foreseen.push(plannedCheck(known, dossier, alive, check))
    if (foreseen.length % CHECKS_IN_A_PART === 0) yield
  }
  return foreseen
    .map((planned) => ({ planned, gain: informationGainBits(p, planned.table, planned.answers.length) }))
    .filter(
      ({ planned, gain }) => gain > LEAST_GAIN && (!planned.same || doubt(planned, alive) > LEAST_DOUBT),
    )
    .sort(
      (a, b) =>
        b.gain / b.planned.check.minutes - a.gain / a.planned.check.minutes ||
        (a.planned.check.id < b.planned.check.id ? -1 : 1),
    )
    .slice(0, MOST_CHECKS)
    .map(({ planned }) => planned)
}

/** How likely it is that an answer was a slip: the share of suspects under which the same look would hardly say it. */
function doubt({ table, same }: PlannedCheck, alive: readonly Alive[]): number {
  return alive.reduce((sum, { h, p }, i) => {
    const again = table[i]?.reduce((all, odds, o) => all + (same?.[o] ? odds : 0), 0) ?? 1
    return h.kind !== 'none' && again < SURELY_AGAIN ? sum + p : sum
  }, 0)
}

/** A part that was looked at and found right can serve as a known good one. */
function trustedBy(dossier: Dossier): (o: Observable) => boolean {
  const bad = new Set<string>()
  for (const e of dossier.evidence)
    if (e.kind === 'many')
      for (const m of e.marks) if (e.chosen.includes(m.id)) bad.add(observableKey(m.observe))
  return (o) => !bad.has(observableKey(o))
}
