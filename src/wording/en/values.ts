/**
 * The values of the closed vocabulary in words: what a person sees when a fan "twitches" or a header reads "high".
 * Two tables where it matters: with the mains off a blade is felt, not watched.
 */

import type { Observable, Value } from '../../core/bench/observable.ts'
import { SET_OTHERWISE } from '../../core/checks/boot/point.ts'
import type { Power } from '../../core/checks/prompt.ts'
import { cleanName } from '../clean.ts'
import { entry } from '../entry.ts'
import type { Scene } from '../language.ts'
import { leadName, partName, portName, refName } from './names.ts'
import { settingValue } from './setting-values.ts'
import { partNames } from './together.ts'

type Words = Readonly<Record<string, string>>

/** As said of one thing; plural forms are not needed because each thing is named with its own value. */
const PREDICATE: Readonly<Record<string, Words>> = {
  spins: {
    no: 'stands still',
    twitches: 'twitches: tries to start and gives up',
    slow: 'turns, but too slowly',
    normal: 'turns as it should',
    full: 'runs at full speed, though it should not',
  },
  rpm: {
    none: 'no reading there at all',
    zero: '0 RPM',
    low: 'much too low',
    plausible: 'about what it should be',
    high: 'much too high',
    erratic: 'jumps about from one reading to the next',
  },
  lit: {
    dark: 'dark',
    part: 'lit in part',
    whole: 'lit all over',
    flicker: 'flickers',
  },
  shows: {
    nothing: 'nothing',
    stored: 'the pattern it came with from the factory',
    global: 'the one effect that runs over all lights',
    set: 'what is set for it',
    'wrong-colours': 'what is set, in the wrong colours',
    frozen: 'a picture that stands still',
  },
  steady: {
    yes: 'goes on as it is',
    'comes-and-goes': 'stops and starts by turns',
    swings: 'goes up and down in speed',
    ticks: 'ticks: tries to start again and again',
  },
  flickers: { yes: 'flickers, or goes out in between', no: 'keeps as it is' },
  'when-moved': { same: 'nothing changes', changes: 'it goes on and off, or changes' },
  effect: {
    whole: 'runs over every part, to the last light',
    'stops-short': 'stops before the last light',
    'runs-off': 'reaches the last light, then stays away for a while before it comes round',
    jumps: 'reaches the parts in another order',
  },
  listed: { yes: 'in the list', no: 'not in the list', 'comes-and-goes': 'comes and goes' },
  follows: { yes: 'all follow', no: 'none follows', some: 'some follow, some do not' },
  volts: { none: 'no volts', low: 'too low', right: 'right', high: 'too high' },
  seated: {
    yes: 'home to the stop, the right way round',
    no: 'not home',
    doubtful: 'hard to say: may be loose',
  },
  alarm: { yes: 'an alarm is shown', no: 'no alarm' },
}

/** Under a finger, with the mains off. */
const BY_HAND: Words = {
  no: 'stiff: will not turn',
  twitches: 'catches on something',
  slow: 'turns, but with drag',
  normal: 'turns freely',
  full: 'turns freely',
}

/** A value as a short predicate: "dark", "stands still", "F2 (front-top)". */
export function valueWords(o: Observable, value: Value, power: Power, scene: Scene): string {
  if (o.what === 'spins' && power === 'off' && entry(BY_HAND, value)) return BY_HAND[value] as string
  const known = entry(PREDICATE[o.what] ?? {}, value)
  if (known) return known
  if (o.what === 'setting')
    return value === '' ? 'not set' : value === SET_OTHERWISE ? 'set otherwise' : settingValue(o.at, value)
  if (o.what === 'goes') return value === 'none' ? 'nowhere: its end hangs free' : portName(value, scene)
  if (o.what === 'answers') return value === 'none' ? 'nothing lights' : partNames(value.split('+'), scene)
  return cleanName(value.replace(/-/g, ' '))
}

/** What is looked at, as the subject of a short line. */
export function subject(o: Observable, scene: Scene): string {
  switch (o.what) {
    case 'rpm':
      return `speed shown for ${refName(o.at, scene)}`
    case 'alarm':
      return `alarm for ${refName(o.at, scene)}`
    case 'steady':
      return `${partName(o.at, scene)}, watched`
    case 'flickers':
      return `lights of ${partName(o.at, scene)}, watched`
    case 'when-moved':
      return `${leadName(o.at, scene)}, moved`
    case 'effect':
      return `running effect on ${channelName(o.at, scene)}`
    case 'answers':
      return `with only ${refName(o.at, scene)} lit`
    case 'goes':
      return `far end of ${refName(o.at, scene)}`
    case 'listed':
      return `${partName(o.at, scene)} over USB`
    case 'follows':
      return `fans on ${refName(o.at, scene)}`
    case 'shows':
      return `${partName(o.at, scene)} shows`
    default:
      return refName(o.at, scene)
  }
}

/** Capital first letter, unless it is a part's own id: that stays as it stands in the plan. */
export function sentence(text: string, scene: Scene): string {
  const first = /^[^\s,:;]+/u.exec(text)?.[0]
  if (first === undefined || scene.plan.parts.some((p) => p.id === first)) return text
  return text.replace(/^\p{Ll}/u, (c) => c.toUpperCase())
}

/** A channel is named by the port or part that drives it, with or without `board.`. */
export const channelName = (at: string, scene: Scene): string =>
  scene.plan.board.lightHeaders.some((h) => h.id === at) ? refName(`board.${at}`, scene) : refName(at, scene)

/** "F2 (front-top): dark". */
export const sightingWords = (o: Observable, value: Value, power: Power, scene: Scene): string =>
  `${sentence(subject(o, scene), scene)}: ${valueWords(o, value, power, scene)}`
