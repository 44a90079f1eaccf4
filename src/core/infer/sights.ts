/**
 * What each suspect would show after some edits, remembered: the bench is pure, so a sight never grows old. An
 * intermittent suspect has two sights, contact broken and contact made. What the suspect and the edits cannot touch is
 * as on the planned build and is not looked at again.
 */
import type { Build } from '../bench/build.ts'
import { type Edit, editText } from '../bench/edit.ts'
import type { Moment } from '../bench/moment.ts'
import type { Observable, Value } from '../bench/observable.ts'
import { type Reach, reachesOf } from '../bench/reach.ts'
import { referenceOf, run, type Sight } from '../bench/run.ts'
import type { Spot } from '../bench/spots.ts'
import type { Hypothesis } from './hypothesis.ts'

type Values = readonly (Value | null)[]

/** What is seen of a list of things: what the planned build shows, the same list for all that share it, but for some. */
export interface View {
  readonly usual: Values
  /** By place in the list. */
  readonly but: ReadonlyMap<number, Value | null>
}

/** The value at one place in the list. */
export const seenIn = ({ usual, but }: View, place: number): Value | null =>
  (but.has(place) ? but.get(place) : usual[place]) ?? null

export interface Sights {
  /** Whether every sight under a suspect shows just these values; stops at the first that differs. */
  shows(h: Hypothesis, history: readonly Edit[], observe: readonly Observable[], values: Values): boolean
  /**
   * Values under a suspect after these edits: one list, or two where it comes and goes. Suspects that show what is
   * usual have the same list. @param observe a list that is asked for again, the very same
   */
  values(h: Hypothesis, history: readonly Edit[], observe: readonly Observable[]): readonly Values[]
  /** The same for long lists. @param observe a list that is asked for again, the very same */
  views(h: Hypothesis, history: readonly Edit[], observe: readonly Observable[]): readonly View[]
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
  /** How this sight differs from the planned build. */
  change: { readonly reach: Reach; readonly spots: readonly Spot[] } | undefined
  /** By the number of the observable; of most suspects nothing is ever looked at. */
  known: Map<number, Value | null> | undefined
}

/** A list of things that are looked at together, by number, and the places in the list that a number has. */
interface Panel {
  readonly numbers: readonly number[]
  readonly placesOf: ReadonlyMap<number, readonly number[]>
  readonly usual: Map<Reach, Values>
}

const MOST_SCENERIES = 240
/** A sight holds a whole build as it is under one suspect; so many are kept ready to be looked at again. */
const MOST_SIGHTS = 400

export function sightsOf(build: Build): Sights {
  const sceneries = new Map<string, Scenery>()
  const latest = new WeakMap<readonly Edit[], Scenery>()
  const sceneryOf = (history: readonly Edit[]): Scenery => {
    const known = latest.get(history) ?? sceneryBy(history)
    latest.set(history, known)
    return known
  }
  const sceneryBy = (history: readonly Edit[]): Scenery => {
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
      (contact): Seen => ({
        plants: h.plants,
        contact,
        sight: undefined,
        change: undefined,
        known: undefined,
      }),
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
  const reachFor = reachesOf(build)
  const changeIn = (scenery: Scenery, seen: Seen): NonNullable<Seen['change']> => {
    if (seen.change) return seen.change
    const { scene } = sightIn(scenery, seen)
    const reach = reachFor(scene)
    seen.change = { reach, spots: reach.spots(scene) }
    return seen.change
  }
  /** @param look number of the observable */
  const valueIn = (scenery: Scenery, seen: Seen, look: number, o: Observable): Value | null => {
    const before = seen.known?.get(look)
    if (before !== undefined) return before
    const { reach, spots } = changeIn(scenery, seen)
    const usual = reach.value(look, o)
    if (!reach.goesBy(look, spots)) return usual
    const value = sightIn(scenery, seen).see(o)
    seen.known ??= new Map()
    seen.known.set(look, value)
    return value
  }

  const panels = new WeakMap<readonly Observable[], Panel>()
  const panelOf = (observe: readonly Observable[]): Panel => {
    const known = panels.get(observe)
    if (known) return known
    const of = observe.map(numberOf)
    const placesOf = new Map<number, readonly number[]>()
    of.forEach((number, i) => {
      placesOf.set(number, [...(placesOf.get(number) ?? []), i])
    })
    const made: Panel = { numbers: of, placesOf, usual: new Map() }
    panels.set(observe, made)
    return made
  }
  const usualIn = (reach: Reach, { numbers, usual }: Panel, observe: readonly Observable[]): Values => {
    const known = usual.get(reach) ?? observe.map((o, i) => reach.value(numbers[i]!, o))
    usual.set(reach, known)
    return known
  }
  /** The planned values of a list, and the places in it that a suspect may change, with what they show. */
  const partly = (scenery: Scenery, seen: Seen, observe: readonly Observable[]) => {
    const { reach, spots } = changeIn(scenery, seen)
    const panel = panelOf(observe)
    const at = (place: number) => valueIn(scenery, seen, panel.numbers[place]!, observe[place]!)
    return { panel, reach, spots, usual: usualIn(reach, panel, observe), at }
  }
  return {
    shows: (h, history, observe, values) => {
      const scenery = sceneryOf(history)
      return seenBy(scenery, h).every((seen) => {
        const { panel, reach, spots, usual, at } = partly(scenery, seen, observe)
        for (let i = 0; i < values.length; i++)
          if (usual[i] !== values[i] && !reach.goesBy(panel.numbers[i]!, spots)) return false
        for (const looks of reach.looksBy(spots))
          for (const look of looks)
            for (const place of panel.placesOf.get(look) ?? []) if (at(place) !== values[place]) return false
        return true
      })
    },
    values: (h, history, observe) => {
      const scenery = sceneryOf(history)
      const panel = panelOf(observe)
      return seenBy(scenery, h).map((seen) => {
        const { reach, spots } = changeIn(scenery, seen)
        const usual = usualIn(reach, panel, observe)
        for (const look of panel.numbers)
          if (reach.goesBy(look, spots))
            return observe.map((o, i) => valueIn(scenery, seen, panel.numbers[i]!, o))
        return usual
      })
    },
    views: (h, history, observe) => {
      const scenery = sceneryOf(history)
      return seenBy(scenery, h).map((seen) => {
        const { panel, reach, spots, usual, at } = partly(scenery, seen, observe)
        const but = new Map<number, Value | null>()
        for (const looks of reach.looksBy(spots))
          for (const look of looks)
            for (const place of panel.placesOf.get(look) ?? []) {
              const value = at(place)
              if (value !== usual[place]) but.set(place, value)
            }
        return { usual, but }
      })
    },
  }
}
