/** Which faults are planted for practice, and how hard they are said to be. */
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { flows } from '../../../flows/all.ts'
import { compile } from '../../../src/core/bench/build.ts'
import { faultText } from '../../../src/core/faults/fault.ts'
import { readPlan } from '../../../src/core/plan/read.ts'
import { drawn, LEVELS, plantables } from '../../../src/job/practice/plantable.ts'
import { benchOf } from '../../support/bench-look.ts'
import fc from '../../support/fast-check.ts'
import { SMALL } from '../../support/program.ts'

const read = readPlan(readFileSync(SMALL, 'utf8'), SMALL)
if (!read.ok) throw new Error('the small example does not read')
const plan = read.value
const all = plantables(compile(plan), flows)
const healthy = benchOf(plan)

const WHAT: Readonly<Record<string, RegExp>> = {
  'lights-dark': /^lit /u,
  'fan-still': /^spins /u,
  'zero-rpm': /^rpm /u,
  'lights-stuck': /^shows /u,
}

describe('faults for practice', () => {
  it('each shows something of its symptom that the healthy build does not', () => {
    const should = healthy.all()
    expect(all.length).toBeGreaterThan(50)
    for (const { known, symptom } of all) {
      const is = healthy.fault(faultText(known.fault)).all()
      const differ = Object.keys(should).filter((key) => is[key] !== should[key])
      const looked = WHAT[symptom]
      if (looked)
        expect(
          differ.some((key) => looked.test(key)),
          faultText(known.fault),
        ).toBe(true)
    }
  })

  it('what comes and goes is brought as such: a fan that stops now and then, lights that flicker', () => {
    const symptoms = (fault: string) => all.find((p) => faultText(p.known.fault) === fault)?.symptom
    expect(
      ['F1.motor:loose', 'F1.light:loose', 'F1.motor:unplugged', 'F1.light:unplugged'].map(symptoms),
    ).toEqual(['fans-hunting', 'lights-flicker', 'fan-still', 'lights-dark'])
  })

  it('the bits are those of its share among all that look the same: shares of one look sum to 1', () => {
    const sums = new Map<string, number>()
    for (const { looks, bits } of all) sums.set(looks, (sums.get(looks) ?? 0) + 2 ** -bits)
    for (const sum of sums.values()) expect(sum).toBeCloseTo(1, 9)
  })

  it('a level is never harder than the next', () => {
    const bits = LEVELS.map((level) => all.filter((p) => p.level === level).map((p) => p.bits))
    for (const [i, harder] of bits.slice(1).entries())
      expect(Math.max(...(bits[i] ?? []))).toBeLessThanOrEqual(Math.min(...harder))
    for (const { length } of bits) expect(Math.abs(length - all.length / 3)).toBeLessThan(2)
  })

  it('a number always draws the same fault, of the level that was asked for, and all draw something', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 999_999 }), fc.constantFrom(...LEVELS), (seed, level) => {
        const one = drawn(all, level, seed)
        expect(one?.level).toBe(level)
        expect(drawn(all, level, seed)).toBe(one)
      }),
      { numRuns: 200 },
    )
  })

  it('numbers one after the other draw many faults, the likely ones more often', () => {
    const times = new Map<string, number>()
    for (let seed = 0; seed < 3000; seed++) {
      const text = faultText(drawn(all, 'easy', seed)?.known.fault ?? { at: '', mode: '' })
      times.set(text, (times.get(text) ?? 0) + 1)
    }
    const easy = all.filter((p) => p.level === 'easy')
    const total = easy.reduce((sum, p) => sum + p.known.weight, 0)
    for (const { known } of easy) {
      const expected = (3000 * known.weight) / total
      // Four standard deviations of a binomial count, and one for the rounding.
      expect(Math.abs((times.get(faultText(known.fault)) ?? 0) - expected)).toBeLessThan(
        4 * Math.sqrt(expected) + 1,
      )
    }
  })

  it('a level without faults draws nothing', () => {
    expect(drawn([], 'hard', 1)).toBeUndefined()
  })
})
