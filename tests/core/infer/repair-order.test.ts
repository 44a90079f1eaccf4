import { describe, expect, it } from 'vitest'
import { orderMinutes, repairOrder } from '../../../src/core/infer/repair-order.ts'
import fc from '../../support/fast-check.ts'

function* orders(list: readonly number[]): Generator<number[]> {
  if (list.length === 0) yield []
  for (const i of list) for (const rest of orders(list.filter((j) => j !== i))) yield [i, ...rest]
}

describe('repairs one after the other', () => {
  it('go by probability over minutes; of equal ones the first goes first, and a free one before all', () => {
    expect(
      repairOrder([
        { cures: 0.2, minutes: 4 },
        { cures: 0.1, minutes: 2 },
        { cures: 0.3, minutes: 3 },
        { cures: 0.05, minutes: 0 },
      ]),
    ).toEqual([3, 2, 0, 1])
  })

  it('cost the minutes of each while the symptom stays, and of handing over if it stays to the end', () => {
    // 2 min, then with 60 % left 3 min, then with 10 % left 40 min.
    const tries = [
      { cures: 0.4, minutes: 2 },
      { cures: 0.5, minutes: 3 },
    ]
    expect(orderMinutes(tries, [0, 1], 40)).toBeCloseTo(2 + 0.6 * 3 + 0.1 * 40, 12)
    expect(orderMinutes(tries, [0, 1])).toBeCloseTo(2 + 0.6 * 3, 12)
    expect(orderMinutes(tries, [], 40)).toBe(40)
  })

  it('never leave less than nothing, where repairs overlap', () => {
    const tries = [
      { cures: 0.8, minutes: 1 },
      { cures: 0.8, minutes: 1 },
      { cures: 0.8, minutes: 1 },
    ]
    expect(orderMinutes(tries, [0, 1, 2], 100)).toBeCloseTo(1.2, 12)
  })

  it('cannot be ordered better, by trying every order', () => {
    const one = fc.record({
      cures: fc.integer({ min: 1, max: 20 }),
      minutes: fc.double({ min: 0.1, max: 10, noNaN: true }),
    })
    fc.assert(
      fc.property(fc.array(one, { minLength: 1, maxLength: 5 }), (drawn) => {
        const sum = drawn.reduce((a, t) => a + t.cures, 0)
        const tries = drawn.map((t) => ({ cures: t.cures / sum, minutes: t.minutes }))
        const best = Math.min(...[...orders([...tries.keys()])].map((o) => orderMinutes(tries, o)))
        expect(orderMinutes(tries, repairOrder(tries))).toBeCloseTo(best, 9)
      }),
    )
  })
})
