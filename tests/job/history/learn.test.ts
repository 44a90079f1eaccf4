/**
 * Learning from closed jobs. The counts are Dirichlet counts: with prior shares q worth A jobs and n of N jobs in a
 * class, the posterior mean is (A q + n) / (A + N) (Gelman and others, Bayesian Data Analysis, section 3.4; from memory).
 */

import { describe, expect, test } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import { hypotheses } from '../../../src/core/infer/hypothesis.ts'
import { classOf, sharesOf } from '../../../src/core/infer/learned.ts'
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

  // A = 10, N = 10, all of them seized: (10 × 0.3 + 10) / 20 = 0.65, which is 0.65 / 0.3 = 2.1667 times the prior.
  test('is the mean of the Dirichlet posterior over the catalogue', () => {
    const learned = learn(
      Array.from({ length: 10 }, () => closed('seized|fan')),
      10,
    )
    expect(learned.get('seized|fan')).toBeCloseTo(0.65 / 0.3, 10)
    expect(learned.get('loose|fan')).toBeCloseTo(0.5, 10)
    expect(learned.get('dead|board')).toBeCloseTo(0.5, 10)
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

  test('does not depend on the order of the jobs', () => {
    const lessons = ['loose|fan', 'dead|board', 'dead|board', 'seized|fan'].map(closed)
    expect([...learn(lessons)]).toEqual([...learn([...lessons].reverse())])
  })
})

describe('a class of faults', () => {
  test('is a mode on a kind of thing, whichever of them it is', () => {
    const of = (at: string, mode: string) => classOf(bench, { at, mode })
    expect(of('F1.motor', 'open-TACH')).toBe(of('F2.motor', 'open-CONTROL'))
    expect(of('F1', 'seized')).toBe('seized|fan')
    expect(of('board.SYS1', 'dead')).toBe('dead|board')
    expect(of('headers/SYS1/drive', 'wrong-mode')).toBe('wrong-mode|setting')
  })

  test('has its share of the catalogue on a build; the shares sum to 1', () => {
    expect([...sharesOf(bench).values()].reduce((a, b) => a + b, 0)).toBeCloseTo(1, 10)
  })
})

describe('a cause', () => {
  test('that cannot be told from another counts by how far each was believed, or by halves in older logs; one that was not sure teaches nothing', () => {
    const suspect = {
      faults: [{ at: 'F1.motor', mode: 'loose' }],
      p: 0.9,
      alike: [{ faults: [{ at: 'F1', mode: 'seized' }] }],
    }
    expect([...causesOf(bench, [suspect])]).toEqual([
      ['loose|fan', 0.5],
      ['seized|fan', 0.5],
    ])
    // Of 0.9 the other has 0.3: two thirds for the first, one for the other.
    const known = { ...suspect, alike: [{ faults: [{ at: 'F1', mode: 'seized' }], p: 0.3 }] }
    const parts = causesOf(bench, [known])
    expect(parts.get('loose|fan')).toBeCloseTo(2 / 3, 10)
    expect(parts.get('seized|fan')).toBeCloseTo(1 / 3, 10)
    expect(causesOf(bench, [{ ...suspect, p: 0.4 }]).size).toBe(0)
    expect(
      causesOf(bench, [{ ...suspect, alike: [], faults: [{ at: 'build', mode: 'nothing-wrong' }] }]).size,
    ).toBe(0)
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
