/**
 * What a trainee may choose from: every look, trial and repair that the neighbourhood of the symptom offers, good or not.
 * The engine sees only the promising ones of these; whether a step is worth its minutes is what is practised.
 */
import type { WorkStep } from '../../../flows/shared/step.ts'
import { repairsFor } from '../../core/checks/mend.ts'
import { offers, touchedBy } from '../../core/checks/offer.ts'
import type { CheckDef, RepairDef } from '../../core/checks/step.ts'
import type { Fault } from '../../core/faults/fault.ts'
import { aliveOf } from '../../core/infer/alive.ts'
import { assess } from '../../core/infer/assess.ts'
import { plannedCheck } from '../../core/infer/foresee.ts'
import type { Job } from '../drive/job.ts'
import { checkStep, repairStep } from '../drive/steps.ts'
import { dossierOf } from '../drive/think.ts'

export const GROUPS = ['outside', 'inside', 'meter', 'trial', 'setting', 'repair'] as const
export type Group = (typeof GROUPS)[number]

export type Choosable =
  | { readonly id: string; readonly group: Group; readonly kind: 'check'; readonly check: CheckDef }
  | { readonly id: string; readonly group: Group; readonly kind: 'repair'; readonly repair: RepairDef }

function groupOfCheck(check: CheckDef): Group {
  if (check.edits.length > 0) return 'trial'
  if (check.fit) return check.tools.length > 0 ? 'meter' : 'inside'
  return check.hands === 'in' ? 'inside' : 'outside'
}

/** Single faults of the neighbourhood, likely or not. */
function faultsNear(job: Job): readonly Fault[] {
  const { hypotheses } = assess(job.ground.known, dossierOf(job))
  return hypotheses.flatMap((h) => (h.kind === 'single' ? h.faults : []))
}

/** All that can be chosen now, by group and then by name; what has been done is left out. */
export function choosable(job: Job): readonly Choosable[] {
  const { build } = job.ground
  const faults = faultsNear(job)
  const checks = offers(build, touchedBy(build, faults), () => true).map(
    (check): Choosable => ({ id: check.id, group: groupOfCheck(check), kind: 'check', check }),
  )
  const repairs = faults
    .flatMap((fault) => repairsFor(build, fault))
    .map(
      (repair): Choosable => ({
        id: repair.id,
        group: repair.hands === 'in' ? 'repair' : 'setting',
        kind: 'repair',
        repair,
      }),
    )
  const all = new Map([...checks, ...repairs].map((one) => [one.id, one]))
  return [...all.values()]
    .filter(({ id }) => !job.closed.has(id))
    .sort((a, b) => GROUPS.indexOf(a.group) - GROUPS.indexOf(b.group) || (a.id < b.id ? -1 : 1))
}

/** The part that a reference is about; what the board or its firmware holds, and programs, count as the board's. */
function partOf(job: Job, ref: string): string {
  const [section = '', place = ''] = ref.split('/')
  const id =
    (ref.includes('/') && section !== 'supply' && !section.includes('.') ? place : section).split('.')[0] ??
    ''
  return job.ground.build.partAt.has(id) || id === 'supply' ? id : 'board'
}

/** Where it is: the part that its first edit, or else its look, is about. */
export function placeOf(job: Job, chosen: Choosable): string {
  const edits = chosen.kind === 'check' ? chosen.check.edits : chosen.repair.edits
  for (const edit of edits) {
    if (edit.do === 'power') return 'supply'
    const ref =
      edit.do === 'swap'
        ? edit.a
        : edit.do === 'substitute'
          ? edit.what
          : edit.do === 'free'
            ? edit.part
            : edit.do === 'set'
              ? edit.setting
              : edit.plug
    return partOf(job, ref)
  }
  return partOf(job, chosen.kind === 'check' ? (chosen.check.observe[0]?.at ?? '') : '')
}

/** What was chosen, as a step that the flow can carry out. */
export function stepFor(job: Job, chosen: Choosable): WorkStep {
  if (chosen.kind === 'repair') return repairStep(job, chosen.repair)
  const dossier = dossierOf(job)
  const alive = aliveOf(assess(job.ground.known, dossier))
  return checkStep(chosen.check, plannedCheck(job.ground.known, dossier, alive, chosen.check).answers)
}
