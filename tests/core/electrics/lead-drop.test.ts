/** Laws of leads: more load, length or a thinner wire never leaves more volts; what goes in comes out. */

import { describe, expect, test } from 'vitest'
import { ampsBorne } from '../../../src/core/electrics/copper.ts'
import {
  ampsThrough,
  leadDrop,
  type Run,
  sharedAmps,
  voltsAlong,
} from '../../../src/core/electrics/lead-drop.ts'
import { isOver } from '../../../src/core/electrics/overload.ts'
import fc from '../../support/fast-check.ts'

const amps = fc.double({ min: 0, max: 10, noNaN: true })
const ohms = fc.double({ min: 0.001, max: 1, noNaN: true })
const stretch = fc.record({ ohms, amps, under: fc.nat() })
/** Each stretch hangs on an earlier one. */
const run: fc.Arbitrary<Run> = fc.array(stretch, { minLength: 1, maxLength: 12 }).map((stretches) => {
  const made = stretches.map((s, i) => ({ at: `${i}`, ohms: s.ohms, amps: s.amps, on: [] as Run[] }))
  stretches.forEach((s, i) => {
    if (i > 0) made[s.under % i]?.on.push(made[i]!)
  })
  return made[0]!
})

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

  test('no place of a run has more volts than the one before it', () => {
    fc.assert(
      fc.property(run, (made) => {
        const volts = voltsAlong(made, 12)
        const walk = (here: Run): void => {
          for (const next of here.on) {
            expect(volts.get(next.at)!).toBeLessThanOrEqual(volts.get(here.at)! + 1e-9)
            walk(next)
          }
        }
        expect(volts.get(made.at)!).toBeCloseTo(12 - ampsThrough(made) * made.ohms, 9)
        walk(made)
      }),
    )
  })

  test('leads side by side share all of the current, the thickest the most', () => {
    fc.assert(
      fc.property(amps, fc.array(ohms, { minLength: 1, maxLength: 6 }), (total, each) => {
        const shares = sharedAmps(total, each)
        expect(shares.reduce((a, b) => a + b, 0)).toBeCloseTo(total, 9)
        const thickest = each.indexOf(Math.min(...each))
        expect(Math.max(...shares)).toBeCloseTo(shares[thickest]!, 9)
      }),
    )
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
