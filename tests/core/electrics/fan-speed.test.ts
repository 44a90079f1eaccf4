/** How fast a fan turns: the three kinds of the fan specification, DC drive, curves. */

import { describe, expect, test } from 'vitest'
import { dutyAt, isRising, restDuty } from '../../../src/core/electrics/fan-curve.ts'
import { dcDuty, dcVolts, rpmAtDuty, rpmAtVolts } from '../../../src/core/electrics/fan-speed.ts'
import fc from '../../support/fast-check.ts'

const fan = (belowMin: 'keeps' | 'stops-at-zero' | 'stops') => ({
  rpm: [450, 1500] as const,
  belowMin,
  startDuty: 40,
  startVolts: 7,
})
const kinds = ['keeps', 'stops-at-zero', 'stops'] as const
const curve = [
  [30, 40],
  [50, 60],
  [70, 100],
] as const

describe('duty', () => {
  test('all kinds follow the duty above their lowest: 60 % of 1500 is 900', () => {
    for (const kind of kinds) expect(rpmAtDuty(fan(kind), 60)).toBe(900)
  })

  // source: public 4-wire fan specification 3.4; 450 of 1500 rpm is a lowest duty of 30 %
  test('at 10 % one keeps 450 rpm, one keeps it too, one stands still', () => {
    expect(kinds.map((kind) => rpmAtDuty(fan(kind), 10))).toEqual([450, 450, 0])
  })
  test('at 0 % only the first kind still turns', () => {
    expect(kinds.map((kind) => rpmAtDuty(fan(kind), 0))).toEqual([450, 0, 0])
  })
  test('a fan that stops needs its start duty from rest, and less once it turns', () => {
    expect(rpmAtDuty(fan('stops'), 35, 'rest')).toBe(0)
    expect(rpmAtDuty(fan('stops'), 35)).toBe(525)
    expect(rpmAtDuty(fan('stops'), 40, 'rest')).toBe(600)
  })

  test('more duty never makes a fan slower, and none is faster than its top', () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...kinds),
        fc.double({ min: 0, max: 100, noNaN: true }),
        fc.double({ min: 0, max: 100, noNaN: true }),
        (kind, a, b) => {
          const [low, high] = a < b ? [a, b] : [b, a]
          for (const from of ['rest', 'turning'] as const)
            expect(rpmAtDuty(fan(kind), low, from)).toBeLessThanOrEqual(rpmAtDuty(fan(kind), high, from))
          expect(rpmAtDuty(fan(kind), high)).toBeLessThanOrEqual(1500)
        },
      ),
      { numRuns: 200 },
    )
  })
})

describe('volts', () => {
  test('6 V starts no fan that needs 7 V, and keeps one turning at half speed', () => {
    expect(rpmAtVolts(fan('keeps'), 6, 'rest')).toBe(0)
    expect(rpmAtVolts(fan('keeps'), 6)).toBe(750)
    expect(rpmAtVolts(fan('keeps'), 4.9)).toBe(0)
  })
  test('duty and volts of DC drive undo each other', () => {
    fc.assert(
      fc.property(fc.double({ min: 0, max: 100, noNaN: true }), (duty) => {
        expect(dcDuty(dcVolts(duty))).toBeCloseTo(duty, 9)
      }),
    )
  })
})

describe('curve', () => {
  test('flat outside its points, straight between them', () => {
    expect([10, 30, 40, 60, 70, 90].map((t) => dutyAt(curve, t))).toEqual([40, 40, 50, 80, 100, 100])
  })
  test('never outside its lowest and highest point', () => {
    fc.assert(
      fc.property(fc.double({ min: -20, max: 150, noNaN: true }), (t) => {
        const duty = dutyAt(curve, t)
        expect(duty >= restDuty(curve) && duty <= 100).toBe(true)
      }),
    )
  })
  test('rising or not', () => {
    expect(isRising(curve)).toBe(true)
    expect(
      isRising([
        [30, 60],
        [70, 40],
      ]),
    ).toBe(false)
    expect(
      isRising([
        [70, 40],
        [30, 60],
      ]),
    ).toBe(false)
  })
})
