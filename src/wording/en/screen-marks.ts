/** The words around a question on which several places are marked, in English. */
import { entry } from '../entry.ts'
import type { MarkWords } from '../screen-marks.ts'

/** By what is looked at and what was seen; what is not here has no shorter word than its usual one. */
const SHORT: Readonly<Record<string, string>> = {
  'spins no': 'still',
  'spins twitches': 'twitches',
  'spins slow': 'slow',
  'spins full': 'full speed',
  'rpm none': 'no reading',
  'rpm zero': '0 RPM',
  'rpm low': 'too low',
  'rpm high': 'too high',
  'rpm erratic': 'jumps',
  'steady comes-and-goes': 'stops and starts',
  'steady swings': 'up and down',
  'steady ticks': 'ticks',
  'lit part': 'in part',
  'flickers yes': 'flickers',
  'shows nothing': 'nothing',
  'shows stored': 'factory pattern',
  'shows global': 'one effect',
  'shows wrong-colours': 'wrong colours',
  'shows frozen': 'stands still',
  'effect stops-short': 'stops short',
  'effect runs-off': 'runs off',
  'effect jumps': 'other order',
  'listed no': 'missing',
  'follows no': 'no fan',
  'follows some': 'only some',
  'seated doubtful': 'may be loose',
  'alarm yes': 'alarm',
}

/** Under a finger, with the mains off. */
const BY_HAND: Readonly<Record<string, string>> = { no: 'stiff', twitches: 'catches', slow: 'drags' }

export const markWords: MarkWords = {
  short: ({ what }, value, power) =>
    what === 'spins' && power === 'off' ? entry(BY_HAND, value) : entry(SHORT, `${what} ${value}`),
  look: {
    spins: 'motor',
    lit: 'lights',
    steady: 'motor, watched',
    flickers: 'lights, watched',
    shows: 'pattern',
    rpm: 'speed',
    listed: 'USB',
    alarm: 'alarm',
    effect: 'running light',
    follows: 'follows',
    answers: 'alone',
    plug: 'plug',
  },
  cycle: (ways) => `Space: ${ways.join(', ')}, then no mark`,
  none: 'Nothing marked: Space marks, Enter records',
  records: (count, said) => `${count} marked: ${said.join(', ')} – Enter records this`,
  one: (name, way) => `${name} ${way}`,
  several: (count, way) => `${count} ${way}`,
}
