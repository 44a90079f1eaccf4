/** Laws of leads: more load, length or a thinner wire never leaves more volts. */

import { describe, expect, test } from 'vitest'
import { ampsBorne } from '../../../src/core/electrics/copper.ts'
import { leadDrop } from '../../../src/core/electrics/lead-drop.ts'
import { isOver } from '../../../src/core/electrics/overload.ts'
import fc from '../../support/fast-check.ts'

const amps = fc.double({ min: 0, max: 10, noNaN: true })

describe('leads', () => {
  test('more amps, more length and a thinner gauge lose more', () => {
    fc.assert(
      fc.property(
        amps,
        fc.integer({ min: 1, max: 5000 }),
        fc.constantFrom(18, 20, 22, 24, 26),
        (a, mm, awg) => {
          expect(leadDrop(a + 1, mm, awg)).toBeGreaterThan(leadDrop(a, mm, awg))
          expect(leadDrop(a + 1, mm + 1, awg)).toBeGreaterThan(leadDrop(a + 1, mm, awg))
          expect(leadDrop(a + 1, mm, awg + 2)).toBeGreaterThan(leadDrop(a + 1, mm, awg))
        },
      ),
    )
  })

  test('what another rail sends back through the ground loses more, a second ground wire less', () => {
    // 1 m of 24 AWG has 84.2 mΩ: 2 A out, 5 A back over one wire 0.589 V, over two 0.379 V
    expect(leadDrop(2, 1000, 24, { amps: 5, wires: 1 })).toBeCloseTo(0.589, 3)
    expect(leadDrop(2, 1000, 24, { amps: 5, wires: 2 })).toBeCloseTo(0.379, 3)
    expect(leadDrop(2, 1000, 24, { amps: 2, wires: 1 })).toBe(leadDrop(2, 1000, 24))
  })

  // source: gauge table of a university page, chassis wiring column
  test('a gauge between two of the table counts as the thinner', () => {
    expect([18, 19, 24, 28].map(ampsBorne)).toEqual([16, 11, 3.5, 1.4])
    expect(ampsBorne(30)).toBeUndefined()
  })

  test('three times 0.1 A is not over 0.3 A', () => {
    expect(isOver(0.1 + 0.1 + 0.1, 0.3)).toBe(false)
    expect(isOver(0.301, 0.3)).toBe(true)
  })
})
