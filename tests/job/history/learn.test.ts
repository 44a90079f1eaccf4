/** Learning from closed jobs: what each teaches, by which class of fault, and what all of them say of the jobs to come. */

import { describe, expect, test } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import type { Suspect } from '../../../src/core/checks/prompt.ts'
import { hypotheses } from '../../../src/core/infer/hypothesis.ts'
import { classOf, factorOf, sharesOf } from '../../../src/core/infer/learned.ts'
import { type Lesson, learn } from '../../../src/job/history/learn.ts'
import { causesOf } from '../../../src/job/history/lesson.ts'
import { sumsOf } from '../../../src/job/history/sums.ts'
import type { Summary } from '../../../src/job/report/summary.ts'
import { build } from '../../support/build.ts'
import fc from '../../support/fast-check.ts'

const plan = build('Studio')
  .header('SYS1')
  .header('SYS2')
  .fan('F1..F2', { light: undefined })
  .lead('F1.motor', 'board.SYS1')
  .lead('F2.motor', 'board.SYS2')
  .plan()
const bench = compile(plan)

const shares = new Map([
  ['loose|fan', 0.5],
  ['seized|fan', 0.3],
  ['dead|board', 0.2],
])
const closed = (key: string): Lesson => ({ shares, causes: new Map([[key, 1]]) })

describe('what closed jobs teach', () => {
  test('is nothing while there is none', () => {
    expect(learn([]).size).toBe(0)
  })

  test('leaves the shares summing to 1, whatever happened', () => {
    fc.assert(
      fc.property(fc.array(fc.constantFrom(...shares.keys()), { minLength: 1, maxLength: 60 }), (keys) => {
        const learned = learn(keys.map(closed))
        const sum = [...shares].reduce((s, [key, q]) => s + q * (learned.get(key) ?? 1), 0)
        expect(sum).toBeCloseTo(1, 9)
      }),
    )
  })

  test('comes near to what is so at a bench, however strong the prior, when there are jobs enough', () => {
    const many = Array.from({ length: 3000 }, (_, i) => closed(i % 10 < 8 ? 'dead|board' : 'loose|fan'))
    expect((learn(many).get('dead|board') ?? 0) * 0.2).toBeCloseTo(0.8, 1)
  })

  test('is next to nothing at a bench that is as the catalogue has it', () => {
    const as = { 'loose|fan': 100, 'seized|fan': 60, 'dead|board': 40 }
    const learned = learn(
      Object.entries(as).flatMap(([key, n]) => Array.from({ length: n }, () => closed(key))),
    )
    for (const factor of learned.values()) expect(factor).toBeCloseTo(1, 6)
  })

  test('of one kind of plug holds there most, and a little for the same mode at other plugs of such a part', () => {
    const shares = new Map([
      ['loose|fan|light', 0.1],
      ['loose|fan|fan', 0.2],
      ['dead|board|fan', 0.7],
    ])
    const learned = learn(
      Array.from({ length: 40 }, () => ({ shares, causes: new Map([['loose|fan|light', 1]]) })),
    )
    const of = (key: string): number => learned.get(key) ?? Number.NaN
    expect(of('loose|fan')).toBeGreaterThan(2)
    expect(of('loose|fan|light')).toBeGreaterThan(1.5 * of('loose|fan'))
    expect(of('dead|board|fan')).toBeLessThan(0.5)
    const sum = [...shares].reduce((s, [key, q]) => s + q * of(key), 0)
    expect(sum).toBeCloseTo(1, 9)
  })

  test('before plugs were told apart still counts for the wider class, and for no plug more than another', () => {
    const old = { shares, causes: new Map([['loose|fan', 1]]) }
    const now = {
      shares: new Map([
        ['loose|fan|light', 0.25],
        ['loose|fan|fan', 0.25],
        ['seized|fan', 0.5],
      ]),
      causes: new Map([['seized|fan', 1]]),
    }
    const learned = learn([...Array.from({ length: 30 }, () => old), now])
    expect(learned.get('loose|fan')).toBeGreaterThan(1.3)
    expect(learned.get('loose|fan|light')).toBeCloseTo(learned.get('loose|fan') ?? 0, 10)
    expect(learned.get('loose|fan|fan')).toBeCloseTo(learned.get('loose|fan') ?? 0, 10)
  })

  test('does not depend on the order of the jobs', () => {
    const lessons = ['loose|fan', 'dead|board', 'dead|board', 'seized|fan'].map(closed)
    expect([...learn(lessons)]).toEqual([...learn([...lessons].reverse())])
  })
})

describe('a class of faults', () => {
  test('is a mode on a kind of thing, and on a kind of plug or setting of it, whichever of them it is', () => {
    const of = (at: string, mode: string) => classOf(bench, { at, mode })
    expect(of('F1.motor', 'open-TACH')).toBe(of('F2.motor', 'open-CONTROL'))
    expect(of('F1.motor', 'loose')).toBe('loose|fan|fan')
    expect(of('F1', 'seized')).toBe('seized|fan')
    expect(of('board.SYS1', 'dead')).toBe('dead|board|fan')
    expect(of('headers/SYS1/drive', 'wrong-mode')).toBe('wrong-mode|setting|drive')
    expect(of('supply.SA', 'unplugged')).toBe('unplugged|supply')
  })

  test('speaks for itself, else the wider one does, else the catalogue', () => {
    const learned = new Map([
      ['loose|fan', 2],
      ['loose|fan|light', 3],
    ])
    const of = (at: string, mode: string) => factorOf(learned, bench, { at, mode })
    expect(of('F1.motor', 'loose')).toBe(2)
    expect(
      factorOf(new Map([...learned, ['loose|fan|fan', 4]]), bench, { at: 'F1.motor', mode: 'loose' }),
    ).toBe(4)
    expect(of('F1', 'seized')).toBe(1)
  })

  test('has its share of the catalogue on a build; the shares sum to 1', () => {
    expect([...sharesOf(bench).values()].reduce((a, b) => a + b, 0)).toBeCloseTo(1, 10)
  })
})

describe('a cause', () => {
  const suspect = {
    faults: [{ at: 'F1.motor', mode: 'loose' }],
    p: 0.9,
    alike: [{ faults: [{ at: 'F1', mode: 'seized' }] }],
  }
  const alone = { ...suspect, alike: [] }
  const causes = (outcome: 'fixed' | 'handed-over' | 'left', first: Suspect) =>
    causesOf(bench, { outcome, suspects: [first] })

  test('that cannot be told from another counts by how far each was believed, or by halves in older logs', () => {
    expect([...causes('fixed', suspect)]).toEqual([
      ['loose|fan|fan', 0.5],
      ['seized|fan', 0.5],
    ])
    // Of 0.9 the other has 0.3: two thirds for the first, one for the other.
    const parts = causes('fixed', { ...suspect, alike: [{ faults: [{ at: 'F1', mode: 'seized' }], p: 0.3 }] })
    expect(parts.get('loose|fan|fan')).toBeCloseTo(2 / 3, 10)
    expect(parts.get('seized|fan')).toBeCloseTo(1 / 3, 10)
  })

  test('that was proven counts whole, one that was handed over as far as it was believed', () => {
    expect([...causes('fixed', alone)]).toEqual([['loose|fan|fan', 1]])
    expect([...causes('handed-over', alone)]).toEqual([['loose|fan|fan', 0.9]])
  })

  test('that was not sure, of a job that was left, or of no fault that turns up, teaches nothing', () => {
    expect(causes('fixed', { ...suspect, p: 0.4 }).size).toBe(0)
    expect(causes('handed-over', { ...alone, p: 0.7 }).size).toBe(0)
    expect(causes('left', alone).size).toBe(0)
    expect(causes('fixed', { ...alone, faults: [{ at: 'build', mode: 'nothing-wrong' }] }).size).toBe(0)
  })
})

test('a suspect of a class that turns up twice as often is believed about twice as readily', () => {
  const learned = new Map([['seized|fan', 2]])
  const prior = (all: ReturnType<typeof hypotheses>) => all.find((h) => h.id === 'F1:seized')?.prior ?? 0
  const before = prior(hypotheses(bench, () => true, []))
  const after = prior(hypotheses(bench, () => true, [], learned))
  expect(after / before).toBeGreaterThan(1.7)
  expect(after / before).toBeLessThanOrEqual(2)
})

test('jobs are summed up by outcome, cause, place and build, most first', () => {
  const job = (over: Partial<Summary>): Summary => ({
    log: 'x',
    build: 'Studio',
    symptom: 'fan-still',
    began: '2026-03-03T09:30:00.000Z',
    outcome: 'fixed',
    minutes: 10,
    damaged: false,
    ...over,
  })
  const cause = { faults: [{ at: 'F1.motor', mode: 'loose' }], p: 0.9, alike: [] }
  const sums = sumsOf([
    job({ cause }),
    job({ cause, minutes: 4.5 }),
    job({ outcome: 'open', build: 'Map room', minutes: 1 }),
  ])
  expect(sums).toMatchObject({ jobs: 3, minutes: 15.5 })
  expect(sums.outcomes).toEqual([
    { name: 'fixed', jobs: 2, minutes: 14.5 },
    { name: 'open', jobs: 1, minutes: 1 },
  ])
  expect(sums.causes).toEqual([{ name: 'loose', jobs: 2, minutes: 14.5 }])
  expect(sums.builds.map((r) => r.name)).toEqual(['Studio', 'Map room'])
})
