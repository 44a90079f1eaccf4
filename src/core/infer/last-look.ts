/**
 * A look before a job is handed over: where nothing can be mended here, whoever goes on is helped by a cause that is
 * named, not by two that a look would have told apart.
 */
import { SWITCH_MINUTES } from '../checks/looks.ts'
import type { CheckDef } from '../checks/step.ts'
import { informationGainBits } from './belief.ts'
import type { Outlook } from './decide.ts'
import type { PlannedCheck } from './foresee.ts'

/** Taken from where one stands, with nothing changed and nothing fetched, minutes. */
const MOST_MINUTES = 2
/** With something fitted for it, changes of power included: a lead that is moved by a cord, minutes. */
const MOST_MINUTES_FITTED = 7
/** Bits under which it would hardly change what is handed over. */
const LEAST_GAIN = 0.2

const fromOutside = ({ check }: PlannedCheck): boolean =>
  check.power === 'on' && check.hands === 'out' && !check.fit && check.minutes <= MOST_MINUTES

const fitted = ({ check }: PlannedCheck): boolean =>
  check.fit && check.minutes + 2 * SWITCH_MINUTES <= MOST_MINUTES_FITTED

/** The most telling look a minute from outside the case, else with something fitted; undefined where none tells enough. */
export function lastLook({ checks, alive }: Outlook): CheckDef | undefined {
  const p = Float64Array.from(alive, (a) => a.p)
  const telling = checks.filter(
    ({ check, table, answers }) =>
      check.edits.length === 0 &&
      check.tools.length === 0 &&
      informationGainBits(p, table, answers.length) >= LEAST_GAIN,
  )
  return (telling.find(fromOutside) ?? telling.find(fitted))?.check
}
