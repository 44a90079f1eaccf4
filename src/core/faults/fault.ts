/**
 * One thing wrong at one place, written `AT:MODE` (`F1.motor:open-TACH`, `headers/SYS1/drive:wrong-mode`).
 * Two verdicts have a place of their own: nothing is wrong, and none of what is known fits.
 */

export interface Fault {
  readonly at: string
  readonly mode: string
}

export const NOTHING_WRONG: Fault = { at: 'build', mode: 'nothing-wrong' }
export const NONE_OF_THESE: Fault = { at: 'build', mode: 'none-of-these' }

export const faultText = (fault: Fault): string => `${fault.at}:${fault.mode}`

/** Reads `AT:MODE`; undefined where there is no colon or an empty half. */
export function parseFault(text: string): Fault | undefined {
  const colon = text.indexOf(':')
  if (colon < 1 || colon === text.length - 1) return undefined
  return { at: text.slice(0, colon), mode: text.slice(colon + 1) }
}

/**
 * How suspicion moves with the history that a person tells: a new build has wiring and setting mistakes, one
 * that ran and was not opened has worn or broken parts.
 */
export type Family =
  | 'connection'
  | 'wiring'
  | 'setting'
  | 'part'
  | 'lead'
  | 'load'
  | 'reading'
  | 'host'
  | 'none'
