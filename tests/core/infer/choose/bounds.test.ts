import { describe, expect, it } from 'vitest'
import { boundsFor, repairMinutesFrom } from '../../../../src/core/infer/choose/bounds.ts'
import { reduce } from '../../../../src/core/infer/choose/reduce.ts'
import fc from '../../../support/fast-check.ts'
import { drawProblem } from './draw-problem.ts'
import { type HandProblem, handProblem, startOf } from './hand-problem.ts'
import { optimum, optimumWithoutNoise } from './optimum.ts'

function valuesOf(written: HandProblem): { most: (mode: number) => number; least: (mode: number) => number } {
  const problem = handProblem(written)
  const reduced = reduce(problem, startOf(problem))
  const bounds = boundsFor(reduced)
  return {
    most: (mode) => bounds.most(reduced.weight, mode),
    least: (mode) => bounds.least(reduced.weight, mode),
  }
}

const ON = 0
const OFF = 1

describe('repairs only, in the order of probability over cost', () => {
  // Heckerman, Breese & Rommelse 1995 (the kind of example; own numbers, all 24 orders tried for the fixture).
  it('take 7.9 minutes for four components of the literature’s kind', () => {
    const { most } = valuesOf({
      priors: [0.4, 0.3, 0.2, 0.1],
      repairs: [8, 3, 1, 5].map((minutes, s) => ({ minutes, cures: [s] })),
    })
    expect(most(ON)).toBeCloseTo(7.9, 9)
  })

  it('pay the switch to the repair and the switch back to the proof', () => {
    const { most } = valuesOf({ priors: [1], repairs: [{ minutes: 5, mode: 'off', cures: [0] }] })
    expect(most(ON)).toBe(9)
    expect(most(OFF)).toBe(7)
  })

  it('pay one switch to a repair with power on, when power is off', () => {
    const { most } = valuesOf({ priors: [1], repairs: [{ minutes: 5, mode: 'on', cures: [0] }] })
    expect(most(ON)).toBe(5)
    expect(most(OFF)).toBe(7)
  })

  it('hand over at once where that takes fewer minutes, and at the end where nothing cures what is left', () => {
    const dear = { priors: [0.5, 0.5], repairs: [{ minutes: 20, cures: [0] }], escalateMinutes: 30 }
    expect(valuesOf(dear).most(ON)).toBe(30)
    const cheap = { priors: [0.5, 0.5], repairs: [{ minutes: 4, cures: [0] }], escalateMinutes: 30 }
    expect(valuesOf(cheap).most(ON)).toBe(4 + 0.5 * 30)
    expect(valuesOf({ priors: [1], escalateMinutes: 30 }).most(ON)).toBe(30)
  })

  it('stop half way where the rest is not worth its minutes', () => {
    // First repair: 1 min, cures 0.9. Second would take 50 to save handing over at 30.
    const { most } = valuesOf({
      priors: [0.9, 0.1],
      repairs: [
        { minutes: 1, cures: [0] },
        { minutes: 50, cures: [1] },
      ],
      escalateMinutes: 30,
    })
    expect(most(ON)).toBeCloseTo(1 + 0.1 * 30, 12)
  })

  it('count what an earlier repair would have cured no second time', () => {
    // r0 cures both a and b (rate 0.8/4 = 0.2) and goes first; r1 cures b alone (0.3/3 = 0.1) and then nothing.
    // r2 cures c: 4 + 0.2 * 5.
    const { most } = valuesOf({
      priors: [0.5, 0.3, 0.2],
      repairs: [
        { minutes: 4, cures: [0, 1] },
        { minutes: 3, cures: [1] },
        { minutes: 5, cures: [2] },
      ],
    })
    expect(most(ON)).toBeCloseTo(4 + 0.2 * 5, 12)
  })

  it('lead with a repair done in the present power state where that saves a switch', () => {
    // From on: r0 first (0.5/3), then r1 off (0.5/6). From off: r0 first is 3+2, then 2+4 ... = 5 + 0.5*6 = 8;
    // r1 first is 2+2, then r0: 4 + 0.5*3 = 5.5.
    const { most } = valuesOf({
      priors: [0.5, 0.5],
      repairs: [
        { minutes: 3, cures: [0] },
        { minutes: 2, mode: 'off', cures: [1] },
      ],
    })
    expect(most(ON)).toBeCloseTo(3 + 0.5 * 6, 12)
    expect(most(OFF)).toBeCloseTo(5.5, 12)
  })

  it('lead with it even where another cures more a minute, if the switch saved is worth more', () => {
    // From off: r0 is 1 + 2 and cures as much as r1 at 2 + 2. r0 first: 3 + 0.5 · 6 = 6. r1 first: 4 + 0.5 · 1 = 4.5.
    const { most } = valuesOf({
      priors: [0.5, 0.5],
      repairs: [
        { minutes: 1, cures: [0] },
        { minutes: 2, mode: 'off', cures: [1] },
      ],
    })
    expect(most(OFF)).toBeCloseTo(4.5, 12)
  })

  it.each([
    // From off, leading with what is done there. First 0.5 for 2 + 2: 4 + 0.5 · 1 + 0.2 · 6 = 5.7; first 0.2: 4 + 0.8 · 1 + 0.5 · 6.
    {
      cures: 'more in the same time',
      off: [
        { p: 0.5, minutes: 2 },
        { p: 0.2, minutes: 2 },
      ],
      on: 0.3,
      takes: 5.7,
    },
    // First 0.3 for 1 + 2: 3 + 0.7 · 1 + 0.5 · 14 = 10.7; first 0.5 for 10 + 2: 12 + 0.5 · 1 + 0.3 · 5.
    {
      cures: 'more a minute',
      off: [
        { p: 0.3, minutes: 1 },
        { p: 0.5, minutes: 10 },
      ],
      on: 0.2,
      takes: 10.7,
    },
  ])(
    'lead, of several done in the present state, with the one that cures $cures, in whatever order they are written',
    ({ off, on, takes }) => {
      for (const turned of [off, [...off].reverse()]) {
        const { most } = valuesOf({
          priors: [...turned.map(({ p }) => p), on],
          repairs: [
            ...turned.map(({ minutes }, s) => ({ minutes, mode: 'off' as const, cures: [s] })),
            { minutes: 1, cures: [2] },
          ],
        })
        expect(most(OFF)).toBeCloseTo(takes, 12)
      }
    },
  )

  it('cannot be ordered better from the state of proof, by trying every order and every stop', () => {
    const one = fc.record({
      share: fc.integer({ min: 1, max: 9 }),
      minutes: fc.double({ min: 0.1, max: 20, noNaN: true }),
      mode: fc.constantFrom('on' as const, 'off' as const),
    })
    fc.assert(
      fc.property(fc.array(one, { minLength: 1, maxLength: 4 }), (drawn) => {
        const sum = drawn.reduce((a, d) => a + d.share, 0)
        const own = drawn.map((d) => ({ p: d.share / sum, minutes: d.minutes + (d.mode === 'off' ? 4 : 0) }))
        const best = (left: readonly number[], mass: number): number =>
          Math.min(
            25 * mass,
            ...left.map(
              (i) =>
                own[i]!.minutes * mass +
                best(
                  left.filter((j) => j !== i),
                  mass - own[i]!.p,
                ),
            ),
          )
        const { most } = valuesOf({
          priors: drawn.map((d) => d.share / sum),
          repairs: drawn.map((d, s) => ({ minutes: d.minutes, mode: d.mode, cures: [s] })),
          escalateMinutes: 25,
        })
        expect(most(ON)).toBeCloseTo(best([...own.keys()], 1), 8)
      }),
    )
  })

  it('take no time for what is left by rounding only', () => {
    const problem = handProblem({
      priors: [0.5, 0.5],
      repairs: [
        { minutes: 5, cures: [0] },
        { minutes: 7, cures: [1] },
      ],
    })
    const { most } = boundsFor(reduce(problem, startOf(problem)))
    expect(most(Float64Array.of(1, 1e-13), ON)).toBe(5 * (1 + 1e-13))
    expect(most(Float64Array.of(1, 1e-11), ON)).toBeGreaterThan(5 * (1 + 1e-11))
  })

  it('grow in proportion with the mass, and are nothing for nothing', () => {
    const problem = drawProblem(3, 'plain', false).problem
    const reduced = reduce(problem, startOf(problem))
    const { most, least } = boundsFor(reduced)
    const double = reduced.weight.map((w) => 2 * w)
    for (const mode of [ON, OFF]) {
      expect(most(double, mode)).toBeCloseTo(2 * most(reduced.weight, mode), 9)
      expect(least(double, mode)).toBeCloseTo(2 * least(reduced.weight, mode), 9)
      expect(most(new Float64Array(reduced.n), mode)).toBe(0)
    }
  })
})

describe('the fault told for nothing', () => {
  it('takes the cheapest cure of each suspect, switches included, or handing over', () => {
    const { least } = valuesOf({
      priors: [0.5, 0.3, 0.2],
      repairs: [
        { minutes: 6, cures: [0] },
        { minutes: 1, mode: 'off', cures: [0, 1] },
      ],
      escalateMinutes: 30,
    })
    expect(least(ON)).toBeCloseTo(0.8 * 5 + 0.2 * 30, 12)
    expect(least(OFF)).toBeCloseTo(0.8 * 3 + 0.2 * 30, 12)
  })

  it('never takes longer than handing over', () => {
    const { least } = valuesOf({ priors: [1], repairs: [{ minutes: 50, cures: [0] }], escalateMinutes: 30 })
    expect(least(ON)).toBe(30)
  })
})

describe('the exact optimum', () => {
  it.each([
    [11, true],
    [12, true],
    [5183, false],
    [5189, false],
  ])('lies between the two values (problem %i)', (seed, noiseFree) => {
    const { problem } = drawProblem(seed, 'trap', noiseFree)
    const reduced = reduce(problem, startOf(problem))
    const { most, least } = boundsFor(reduced)
    const exact = noiseFree ? optimumWithoutNoise(problem, 'on') : optimum(problem, 'on')
    expect(least(reduced.weight, ON)).toBeLessThanOrEqual(exact + 1e-9)
    expect(most(reduced.weight, ON)).toBeGreaterThanOrEqual(exact - 1e-9)
  })
})

describe('the minutes of a repair', () => {
  it('are its own with the switch before and the switch for its proof', () => {
    const problem = handProblem({
      priors: [0.5, 0.5],
      repairs: [
        { minutes: 1, mode: 'on', cures: [0] },
        { minutes: 1, mode: 'off', cures: [1] },
      ],
    })
    const reduced = reduce(problem, startOf(problem))
    expect([0, 1].map((r) => [ON, OFF].map((mode) => repairMinutesFrom(reduced, r, mode)))).toEqual([
      [1, 3],
      [5, 3],
    ])
  })
})
