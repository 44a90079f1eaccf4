/** A fan that stands still at every temperature, and one that only waits for the curve; duties and volts worked by hand. */
import { describe, expect, test } from 'vitest'
import { audit } from '../../../src/core/audit/audit.ts'
import type { Keys } from '../../support/build.ts'
import { motor, oneFan } from './rule-case.ts'

type Curve = readonly (readonly [number, number])[]
const told = (drive: 'pwm' | 'dc', fan: Keys, curve: Curve) =>
  audit(oneFan({ drive }, motor(fan)).set('SYS1', { curve }).plan()).map((f) => [
    f.rule,
    f.severity,
    f.figure,
  ])

describe('a PWM fan that stops and starts at 30 %', () => {
  const stops = { below_min: 'stops', start_duty: 30 }

  test.each([
    // 25 % is the most: never 30 %, from 0 as from 10 %.
    [
      [
        [30, 0],
        [70, 25],
      ],
      ['curve-never-starts', 'will-not-work', 25],
    ],
    [
      [
        [30, 10],
        [70, 25],
      ],
      ['curve-never-starts', 'will-not-work', 25],
    ],
    // 20 % at 45 °C is under the start: still until the curve passes 30 %.
    [
      [
        [30, 0],
        [45, 20],
        [70, 100],
      ],
      ['curve-under-start-duty', 'may-not-work', 20],
    ],
  ] as const)('%j', (curve, want) => {
    const found = told('pwm', stops, curve)
    expect(found).toContainEqual(want)
    const other = found.filter(([rule]) => `${rule}`.startsWith('curve-') && rule !== want[0])
    expect(other.map(([rule]) => rule)).not.toContain(
      want[0] === 'curve-never-starts' ? 'curve-rests-at-zero' : 'curve-never-starts',
    )
  })

  test('may be meant to rest at 0 % and start at 30 %', () => {
    const rules = told('pwm', stops, [
      [30, 0],
      [45, 30],
      [70, 100],
    ]).map(([rule]) => rule)
    expect(rules).toContain('curve-rests-at-zero')
    expect(rules).not.toContain('curve-under-start-duty')
  })

  test('is asked about where only its start is written', () => {
    expect(
      told('pwm', { start_duty: 30 }, [
        [30, 0],
        [70, 25],
      ]),
    ).toContainEqual(['curve-never-starts', 'may-not-work', 25])
  })
})

describe('a fan whose voltage is lowered', () => {
  test('never starts at 6 V when it starts at 8 V; where the start is assumed, that may be so', () => {
    const low: Curve = [
      [30, 40],
      [70, 50],
    ]
    expect(told('dc', { start_volts: 8 }, low)).toContainEqual(['dc-never-starts', 'will-not-work', 6])
    expect(told('dc', {}, low)).toContainEqual(['dc-never-starts', 'may-not-work', 6])
    expect(told('dc', { start_volts: 8 }, low).map(([rule]) => rule)).not.toContain('dc-under-start-volts')
  })

  test('stands still at 0 V whatever its kind, so that its kind is not asked for', () => {
    const rules = told('dc', { pins: 3, start_volts: 5 }, [
      [45, 0],
      [46, 45],
      [70, 100],
    ]).map(([rule]) => rule)
    expect(rules).toContain('curve-rests-at-zero')
    expect(rules).not.toContain('unknown-fan-kind')
  })

  test('is asked for its kind where it has a control pin and the duty is 0 %', () => {
    expect(
      told('pwm', {}, [
        [45, 0],
        [70, 100],
      ]).map(([rule]) => rule),
    ).toContain('unknown-fan-kind')
  })
})
