/**
 * What each suspect would show after some edits, remembered: the bench is pure, so a sight never grows old. An
 * intermittent suspect has two sights, contact broken and contact made.
 */
import type { Build } from '../bench/build.ts'
import { type Edit, editText } from '../bench/edit.ts'
import type { Moment } from '../bench/moment.ts'
import { type Observable, observableKey, type Value } from '../bench/observable.ts'
import { referenceOf, run, type Sight } from '../bench/run.ts'
import type { Hypothesis } from './hypothesis.ts'

export interface Sights {
  /** Values under a suspect after these edits: one list, or two where it comes and goes. */
  /** Whether every sight under a suspect shows just these values; stops at the first that differs. */
  shows(
    h: Hypothesis,
    history: readonly Edit[],
    observe: readonly Observable[],
    values: readonly (Value | null)[],
  ): boolean
  values(
    h: Hypothesis,
    history: readonly Edit[],
    observe: readonly Observable[],
  ): readonly (readonly (Value | null)[])[]
}

interface Scenery {
  readonly history: readonly Edit[]
  readonly reference: Moment
  readonly by: Map<string, readonly Seen[]>
}

interface Seen {
  readonly sight: Sight
  readonly known: Map<string, Value | null>
}

const MOST_SCENERIES = 240

export function sightsOf(build: Build): Sights {
  const sceneries = new Map<string, Scenery>()
  const sceneryOf = (history: readonly Edit[]): Scenery => {
    const key = history.map(editText).join(';')
    const known = sceneries.get(key)
    if (known) return known
    // Bounded: the oldest go first, and can always be worked out again.
    if (sceneries.size >= MOST_SCENERIES) sceneries.delete(sceneries.keys().next().value ?? '')
    const made: Scenery = { history, reference: referenceOf(build, history), by: new Map() }
    sceneries.set(key, made)
    return made
  }
  const seenBy = (scenery: Scenery, h: Hypothesis): readonly Seen[] => {
    const known = scenery.by.get(h.id)
    if (known) return known
    const contacts = h.intermittent ? [false, true] : [false]
    const made = contacts.map((contact) => ({
      sight: run(build, { plants: h.plants, edits: scenery.history, contact }, scenery.reference),
      known: new Map<string, Value | null>(),
    }))
    scenery.by.set(h.id, made)
    return made
  }
  const valueIn = ({ sight, known }: Seen, o: Observable): Value | null => {
    const key = observableKey(o)
    const before = known.get(key)
    if (before !== undefined) return before
    const value = sight.see(o)
    known.set(key, value)
    return value
  }
  return {
    shows: (h, history, observe, values) =>
      seenBy(sceneryOf(history), h).every((seen) => observe.every((o, i) => valueIn(seen, o) === values[i])),
    values: (h, history, observe) =>
      seenBy(sceneryOf(history), h).map((seen) => observe.map((o) => valueIn(seen, o))),
  }
}
