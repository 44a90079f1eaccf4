/**
 * The next step of a job: the suspects that matter, the checks and repairs that the build offers, and what the bench
 * foresees for each, put into numbers for `choose`. The same chooser decides problems that come from a file.
 */
import { HAND_OVER_MINUTES, SWITCH_MINUTES } from '../checks/looks.ts'
import type { CheckDef, RepairDef, Step } from '../checks/step.ts'
import { type Alive, aliveOf } from './alive.ts'
import type { Assessment, Knowledge } from './assess.ts'
import { choosing } from './choose/choose.ts'
import { fixesOf } from './cures.ts'
import type { Dossier } from './dossier.ts'
import type { PlannedCheck } from './foresee.ts'
import { checksOffered, repairsOffered } from './offered.ts'
import type { InParts } from './parts.ts'
import type { Choice, Decision, Problem, Standing } from './problem.ts'

export interface Outlook {
  readonly step: Step
  readonly expectedMinutes: number
  readonly others: readonly { readonly step: Step; readonly expectedMinutes: number }[]
  readonly alive: readonly Alive[]
  readonly checks: readonly PlannedCheck[]
}

/** Minutes of a check as the chooser counts them: a trial by edit brings its own power-off and power-on. */
export function minutesOf(check: CheckDef, dossier: Dossier): number {
  const handsIn = check.fit || check.edits.length > 0
  return check.minutes + (handsIn && dossier.power === 'on' ? 2 * SWITCH_MINUTES : 0)
}

/** What may be done, and what each of it would tell or mend, for the suspects that are worth planning for. */
export interface Options {
  readonly alive: readonly Alive[]
  readonly checks: readonly PlannedCheck[]
  readonly repairs: readonly { readonly repair: RepairDef; readonly fixes: Uint8Array }[]
}

/** In parts of about the same length. */
export function* optionsFor(known: Knowledge, dossier: Dossier, assessment: Assessment): InParts<Options> {
  const alive = aliveOf(assessment)
  const checks = yield* checksOffered(known, dossier, alive)
  yield
  const repairs = repairsOffered(known, dossier, alive)
    .map((repair) => ({ repair, fixes: fixesOf(known, dossier, alive, repair) }))
    .filter(({ fixes }) => fixes.includes(1))
  yield
  return { alive, checks, repairs }
}

/** The step to take of these options, with the next best; in parts of about the same length. */
export function* chosenFrom(
  known: Knowledge,
  dossier: Dossier,
  { alive, checks, repairs }: Options,
): InParts<Outlook> {
  const problem: Problem = {
    suspects: alive.map(({ h, p }) => ({ id: h.id, prior: p })),
    checks: checks.map(({ check, answers, table }) => ({
      id: check.id,
      minutes: minutesOf(check, dossier),
      mode: check.power,
      outcomes: answers.map((a) => a.id),
      table,
    })),
    repairs: repairs.map(({ repair, fixes }) => ({
      id: repair.id,
      minutes: repair.minutes + 1,
      mode: repair.power,
      fixes,
    })),
    switchMinutes: SWITCH_MINUTES,
    escalateMinutes: HAND_OVER_MINUTES,
    verifyMode: 'on',
  }
  const total = alive.reduce((sum, a) => sum + a.p, 0)
  const standing: Standing = {
    belief: Float64Array.from(alive, (a) => a.p / total),
    mode: dossier.power,
    checksLeft: problem.checks.map((_, i) => i),
    repairsLeft: problem.repairs.map((_, i) => i),
  }
  const decision: Decision = known.choose?.(problem, standing) ?? (yield* choosing(problem, standing))
  const stepOf = (choice: Choice): Step => {
    if (choice.do === 'check') return { kind: 'check', check: checks[choice.index]!.check }
    if (choice.do === 'repair') return { kind: 'repair', repair: repairs[choice.index]!.repair }
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
