/**
 * Numbers, days and times as the person writes them, as the front end gives them. What is said in a language is made by many small
 * functions that know nothing of this; `inFigures` has all of them speak with one set of figures while they run (they
 * are synchronous), so that a log or JSON, which never goes through it, keeps the neutral forms.
 */

export interface Figures {
  /** At most so many decimals, no trailing noughts, thousands not parted. */
  readonly number: (value: number, decimals: number) => string
  /** Of a moment as the log has it (ISO 8601, UTC). */
  readonly day: (at: string) => string
  readonly clock: (at: string) => string
  /** Both; with the name of the zone where `zoned`. */
  readonly moment: (at: string, zoned?: boolean) => string
}

/** A point before decimals; days and times as in ISO 8601, in UTC. */
export const NEUTRAL: Figures = {
  number: (value, decimals) => String(Math.round(value * 10 ** decimals) / 10 ** decimals),
  day: (at) => at.slice(0, 10),
  clock: (at) => at.slice(11, 16),
  moment: (at, zoned = false) => `${at.slice(0, 10)} ${at.slice(11, 16)}${zoned ? ' UTC' : ''}`,
}

let current: Figures = NEUTRAL

/** Those that what is being said now is to be said with. */
export const figures = (): Figures => current

/** The same words, each of their functions speaking with these figures. */
export function inFigures<T>(words: T, by: Figures | undefined): T {
  if (by === undefined) return words
  if (typeof words === 'function') {
    const say = words as (...with_: unknown[]) => unknown
    const said = (...with_: unknown[]): unknown => {
      const before = current
      current = by
      try {
        return say(...with_)
      } finally {
        current = before
      }
    }
    return said as T
  }
  if (Array.isArray(words)) return words.map((one) => inFigures(one, by)) as T
  if (typeof words !== 'object' || words === null || Object.getPrototypeOf(words) !== Object.prototype)
    return words
  return Object.fromEntries(Object.entries(words).map(([key, one]) => [key, inFigures(one, by)])) as T
}
