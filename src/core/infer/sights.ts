/**
 * What each suspect would show after some edits, remembered: the bench is pure, so a sight never grows old. An
 * intermittent suspect has two sights, contact broken and contact made.
 */
import type { Build } from '../bench/build.ts'
import { type Edit, editText } from '../bench/edit.ts'
import type { Moment } from '../bench/moment.ts'
import type { Observable, Value } from '../bench/observable.ts'
import { referenceOf, run, type Sight } from '../bench/run.ts'
import type { Hypothesis } from './hypothesis.ts'

export interface Sights {
  /** Whether every sight under a suspect shows just these values; stops at the first that differs. */
  shows(
    h: Hypothesis,
    history: readonly Edit[],
    observe: readonly Observable[],
    values: readonly (Value | null)[],
  ): boolean
  /** Values under a suspect after these edits: one list, or two where it comes and goes. */
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
  readonly plants: Hypothesis['plants']
  readonly contact: boolean
  /** Let go when many others have been looked at since; what was seen stays known. */
  sight: Sight | undefined
  /** By the number of the observable. */
  readonly known: Map<number, Value | null>
}

const MOST_SCENERIES = 240
/** A sight holds a whole build as it is under one suspect; so many are kept ready to be looked at again. */
const MOST_SIGHTS = 400

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
    const made = contacts.map(
      (contact): Seen => ({ plants: h.plants, contact, sight: undefined, known: new Map() }),
    )
    scenery.by.set(h.id, made)
    return made
  }
  // Numbers instead of texts made anew for each look: most of what a job remembers are these keys.
  const numbers = new Map<string, Map<string, number>>()
  let count = 0
  const numberOf = ({ what, at }: Observable): number => {
    const places = numbers.get(what) ?? new Map<string, number>()
    numbers.set(what, places)
    const number = places.get(at) ?? count++
    places.set(at, number)
    return number
  }
  const ready: Seen[] = []
  let nextReady = 0
  const sightIn = (scenery: Scenery, seen: Seen): Sight => {
    if (seen.sight) return seen.sight
    const { plants, contact } = seen
    const sight = run(build, { plants, edits: scenery.history, contact }, scenery.reference)
    const before = ready[nextReady]
    if (before) before.sight = undefined
    ready[nextReady] = seen
    nextReady = (nextReady + 1) % MOST_SIGHTS
    seen.sight = sight
    return sight
  }
  const valueIn = (scenery: Scenery, seen: Seen, o: Observable): Value | null => {
    const key = numberOf(o)
    const before = seen.known.get(key)
    if (before !== undefined) return before
    const value = sightIn(scenery, seen).see(o)
    seen.known.set(key, value)
    return value
  }
  return {
    shows: (h, history, observe, values) => {
      const scenery = sceneryOf(history)
      return seenBy(scenery, h).every((seen) =>
        observe.every((o, i) => valueIn(scenery, seen, o) === values[i]),
      )
    },
    values: (h, history, observe) => {
      const scenery = sceneryOf(history)
      return seenBy(scenery, h).map((seen) => observe.map((o) => valueIn(scenery, seen, o)))
    },
  }
}
