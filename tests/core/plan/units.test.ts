/** Conversions against definitions: SI prefixes, 1 in = 25.4 mm (exact), 0 °C = 32 °F, 1 ft³/min = 1.699 m³/h (engineering tables). */

import { describe, expect, test } from 'vitest'
import { type Dimension, quantity, scales } from '../../../src/core/plan/units.ts'
import fc from '../../support/fast-check.ts'

const read = (text: string, dimension: Dimension): number | string => {
  const got = quantity(text, dimension)
  return got.ok ? got.value : got.why
}

describe('numbers with units as people write them', () => {
  test.each([
    ['0.25 A', 'current', 0.25],
    ['250 mA', 'current', 0.25],
    ['250mA', 'current', 0.25],
    ['.5 amps', 'current', 0.5],
    ['0.1 A', 'milliamps', 100],
    ['100 mA', 'milliamps', 100],
    ['12 V', 'voltage', 12],
    ['12v', 'voltage', 12],
    ['50 cm', 'length', 500],
    ['1 in', 'length', 25.4],
    ['12"', 'length', 304.8],
    ['0.5 m', 'length', 500],
    ['1500 rpm', 'speed', 1500],
    ['1500 1/min', 'speed', 1500],
    ['24 AWG', 'gauge', 24],
    ['AWG 24', 'gauge', 24],
    ['#24', 'gauge', 24],
    ['30 %', 'percent', 30],
    ['30percent', 'percent', 30],
    ['40 °C', 'temperature', 40],
    ['104 °F', 'temperature', 40],
    ['-5 C', 'temperature', -5],
    ['650 W', 'power', 650],
    ['169.9 m³/h', 'airflow', 100],
    ['56 CFM', 'airflow', 56],
    ['8 LEDs', 'count', 8],
    ['1e3', 'speed', 1000],
    ['  7  ', 'count', 7],
  ] as const)('%s as %s is %d', (text, dimension, value) => {
    expect(read(text, dimension)).toBeCloseTo(value, 9)
  })

  test.each([
    ['12 V', 'current', 'unit'],
    ['5 furlongs', 'length', 'unit'],
    ['0,25 A', 'current', 'comma'],
    ['a lot', 'current', 'not-a-number'],
    ['', 'current', 'not-a-number'],
    ['A', 'current', 'not-a-number'],
    ['1.2.3 A', 'current', 'unit'],
    ['1e999 A', 'current', 'not-a-number'],
    ['NaN', 'current', 'not-a-number'],
  ] as const)('%s as %s is refused', (text, dimension, why) => {
    expect(read(text, dimension)).toBe(why)
  })

  test('a unit of another kind says what it belongs to', () => {
    expect(quantity('12 V', 'current')).toMatchObject({ belongsTo: 'a voltage' })
    expect(quantity('12 parsec', 'current')).toMatchObject({ belongsTo: undefined })
  })

  test('a number and its unit mean the same with and without a blank, in any case', () => {
    const dimensions = Object.keys(scales) as Dimension[]
    fc.assert(
      fc.property(
        fc.constantFrom(...dimensions),
        fc.integer({ min: 0, max: 99_999 }),
        fc.nat(),
        (dimension, n, k) => {
          const units = Object.keys(scales[dimension].units)
          const unit = units[k % units.length] ?? ''
          if (/^\d/.test(unit)) return
          const value = read(`${n} ${unit}`, dimension)
          expect(typeof value).toBe('number')
          expect(read(`${n}${unit.toUpperCase()}`, dimension)).toBe(value)
        },
      ),
    )
  })
})
