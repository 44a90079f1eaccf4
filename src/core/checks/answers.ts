/** The answers that a question offers, each with what it means; the last one is for whatever else was seen. */
import { type Observable, type Value, valuesOf } from '../bench/observable.ts'
import type { Answer, Power } from './prompt.ts'

export const OTHER = 'other'
const MOST_TUPLES = 7

/** What a blade cannot do under a finger. */
const NOT_BY_HAND: Value = 'full'

/**
 * @param foreseen tuples of values (one per observable) that some suspect predicts, likeliest first
 * @param power as it is while one looks
 * @returns one observable of a closed vocabulary: all its values; else what is foreseen, and `other`
 */
export function answersFor(
  observe: readonly Observable[],
  foreseen: readonly (readonly (Value | null)[])[],
  power: Power = 'on',
): Answer[] {
  const only = observe.length === 1 ? observe[0] : undefined
  const closed: readonly Value[] | null | undefined = only && valuesOf[only.what]
  if (only && closed) {
    const byHand = only.what === 'spins' && power === 'off'
    return closed
      .filter((value) => !(byHand && value === NOT_BY_HAND))
      .map((value) => ({ id: value, means: [value] }))
  }
  const seen = new Map<string, Answer>()
  for (const means of foreseen) {
    if (means.includes(null)) continue
    const id = means.join('/')
    if (!seen.has(id)) seen.set(id, { id, means })
    if (seen.size >= MOST_TUPLES) break
  }
  return [...seen.values(), { id: OTHER, means: observe.map(() => null) }]
}
