/**
 * Whether what seems mended is. All that was looked over is as wanted, but a look may have been a slip, and what comes and
 * goes may hold just now. A job that is closed with its fault alive comes back, and is held to cost what handing over does.
 */
import { HAND_OVER_MINUTES, SWITCH_MINUTES } from '../checks/looks.ts'
import type { CheckDef } from '../checks/step.ts'
import type { Alive } from './alive.ts'
import type { Knowledge } from './assess.ts'
import { fixesOf } from './cures.ts'
import { minutesOf, type Outlook } from './decide.ts'
import type { Dossier } from './dossier.ts'
import type { PlannedCheck } from './foresee.ts'

export interface Doubt {
  /** How likely it is that a known suspect would show the symptom again, 0 to 1. */
  readonly still: number
  /** The look that is worth its minutes before the job is closed. */
  readonly look: CheckDef | undefined
}

const minutes = (check: CheckDef, dossier: Dossier): number =>
  minutesOf(check, dossier) + (check.power === dossier.power ? 0 : 2 * SWITCH_MINUTES)

/** What is left of a suspect's share where nothing is known of what it would show: it tells neither way. */
const known = ({ h }: Alive): boolean => h.kind !== 'none'

export function doubtOf(knowledge: Knowledge, dossier: Dossier, { alive, checks }: Outlook): Doubt {
  const gone = fixesOf(knowledge, dossier, alive, { edits: [] })
  const still = alive.reduce((sum, one, i) => (known(one) && gone[i] === 0 ? sum + one.p : sum), 0)
  /** How likely it is that an answer turns the verdict, less how likely it is that it does so wrongly. */
  const turns = ({ answers, table }: PlannedCheck): number =>
    answers.reduce((sum, _, o) => {
      const more = alive.reduce(
        (all, one, i) => (known(one) ? all + (gone[i] === 0 ? one.p : -one.p) * table[i]![o]! : all),
        0,
      )
      return sum + Math.max(0, more)
    }, 0)
  const [best] = checks
    .filter(({ check }) => check.edits.length === 0)
    .map((planned) => ({
      check: planned.check,
      saved: HAND_OVER_MINUTES * turns(planned) - minutes(planned.check, dossier),
    }))
    .filter(({ saved }) => saved > 0)
    .sort((a, b) => b.saved - a.saved || (a.check.id < b.check.id ? -1 : 1))
  return { still, look: best?.check }
}
