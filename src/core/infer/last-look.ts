/**
 * A look before a job is handed over: where nothing can be mended here, whoever goes on is helped by a cause that is
 * named, not by two that a glance would have told apart.
 */
import type { CheckDef } from '../checks/step.ts'
import { informationGainBits } from './belief.ts'
import type { Outlook } from './decide.ts'

/** Taken from where one stands, with nothing changed and nothing fetched, minutes. */
const MOST_MINUTES = 2
/** Bits under which it would hardly change what is handed over. */
const LEAST_GAIN = 0.2

/** The most telling look a minute from outside the case, or undefined where none tells enough. */
export function lastLook({ checks, alive }: Outlook): CheckDef | undefined {
  const p = Float64Array.from(alive, (a) => a.p)
  return checks.find(
    ({ check, table, answers }) =>
      check.power === 'on' &&
      check.hands === 'out' &&
      !check.fit &&
      check.edits.length === 0 &&
      check.tools.length === 0 &&
      check.minutes <= MOST_MINUTES &&
      informationGainBits(p, table, answers.length) >= LEAST_GAIN,
  )?.check
}
