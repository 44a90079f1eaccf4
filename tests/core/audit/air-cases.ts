/** Mechanics and air. */
import { type Build, build, type Keys } from '../../support/build.ts'
import { type RuleCase, rule } from './rule-case.ts'

/** Fans with these keys, each on a header of its own. */
const aired = (...fans: readonly Keys[]): Build => {
  const made = build()
  fans.forEach((keys, i) => {
    made
      .header(`SYS${i + 1}`)
      .plainFan(`F${i + 1}`, keys)
      .lead(`F${i + 1}.motor`, `board.SYS${i + 1}`)
  })
  return made
}
const curve = (rest: number) => [
  [30, rest],
  [70, 100],
]

export const airCases: readonly RuleCase[] = [
  rule('air-unbalanced', 'three in and one out, against two out', (bad) =>
    aired(
      { flow: 'in', cfm: 50 },
      { flow: 'in', cfm: 50 },
      { flow: 'in', cfm: 50 },
      { flow: 'out', cfm: bad ? 50 : 75 },
    ),
  ),
  rule('air-one-way', 'three in and none out, against one out', (bad) =>
    aired({ flow: 'in' }, { flow: 'in' }, { flow: bad ? 'in' : 'out' }),
  ),
  rule('fans-face-each-other', 'in and out at one place, against both in', (bad) =>
    aired({ at: 'front', flow: 'in' }, { at: 'front', flow: bad ? 'out' : 'in' }),
  ),
  rule('radiator-flow-mixed', 'in and out on one radiator, against both in', (bad) =>
    aired(
      { on: 'R1', at: 'front-low', flow: 'in' },
      { on: 'R1', at: 'front-high', flow: bad ? 'out' : 'in' },
    ),
  ),
  rule('radiator-screws', 'fans on a radiator, against on the case', (bad) =>
    aired(bad ? { on: 'R1', flow: 'in' } : { flow: 'in' }),
  ),
  rule('radiator-speeds-differ', '1000 and 1800 rpm on one radiator, against 1600 and 1800', (bad) =>
    aired({ on: 'R1', motor: { rpm: [400, bad ? 1000 : 1600] } }, { on: 'R1', motor: { rpm: [400, 1800] } }),
  ),
  rule('flow-against-custom', 'the rear fan blows in, against out', (bad) =>
    aired({ at: 'rear', flow: bad ? 'in' : 'out' }),
  ),
  rule('still-beside-running', 'a fan that rests beside one that runs, against both running', (bad) =>
    aired(
      { at: 'front', flow: 'in', motor: { below_min: 'stops-at-zero' } },
      { at: 'front', flow: 'in' },
    ).set('SYS1', { drive: 'pwm', curve: curve(bad ? 0 : 40) }),
  ),
]
