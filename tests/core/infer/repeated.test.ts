import { describe, expect, test } from 'vitest'
import type { Edit } from '../../../src/core/bench/edit.ts'
import type { Evidence, One } from '../../../src/core/infer/evidence.ts'
import { answerOdds } from '../../../src/core/infer/likelihood.ts'
import { agree, oddsAgain, saidBefore, saidBy, saidLast } from '../../../src/core/infer/repeated.ts'

const WORDS = ['no', 'slow', 'normal', 'full']
const answers = WORDS.map((id) => ({ id, means: [id] }))
const off: Edit = { do: 'power', to: 'off' }
const on: Edit = { do: 'power', to: 'on' }
const reseat: Edit = { do: 'reseat', plug: 'F1.motor' }

const look = (chosen: string, history: readonly Edit[] = [], at = 'F1'): Evidence => ({
  kind: 'one',
  seq: 2,
  id: `look spins ${at}`,
  history,
  error: 0.04,
  observe: [{ what: 'spins', at }],
  answers,
  chosen,
})

/** A map of two fans; `still` are marked. */
const map = (...still: readonly string[]): Evidence => ({
  kind: 'many',
  seq: 1,
  id: 'map spins',
  history: [],
  error: 0.03,
  marks: ['F1', 'F2'].flatMap((at) =>
    ['no', 'slow'].map((value) => ({
      id: `${at}:${value}`,
      observe: { what: 'spins' as const, at },
      value,
    })),
  ),
  chosen: still.map((at) => `${at}:no`),
})

describe('a look counts as made before', () => {
  test('where the same thing was looked at and nothing was changed, switching off and on again included', () => {
    expect(saidBefore([look('no'), look('no'), look('no', [off, on])])).toEqual([
      [undefined],
      [{ is: 'no' }],
      [{ is: 'no' }],
    ])
  })

  test('on a map too, marked or not', () => {
    expect(saidBefore([map('F1'), look('no'), look('no', [], 'F2')])).toEqual([
      [undefined, undefined],
      [{ is: 'no' }],
      [{ noneOf: ['no', 'slow'] }],
    ])
  })

  test('not with the mains off, nor after a plug was moved, nor at another fan', () => {
    const before = saidBefore([look('no'), look('no', [off]), look('no', [reseat]), look('no', [], 'F9')])
    expect(before).toEqual([[undefined], [undefined], [undefined], [undefined]])
    expect(saidBefore([look('no', [reseat]), look('no', [off, reseat])])).toEqual([[undefined], [undefined]])
  })

  test('of two things at once where both were looked at together, and as one answer', () => {
    const both: Evidence = {
      ...(look('no/no') as One),
      id: 'try and look spins F1, spins F2',
      observe: ['F1', 'F2'].map((at) => ({ what: 'spins', at })),
      answers: ['no/no', 'no/full'].map((id) => ({ id, means: id.split('/') })),
    }
    expect(saidBefore([look('no'), both, both])).toEqual([[undefined], [undefined], [{ is: 'no/no' }]])
  })

  test('with "something else" as none of what was named', () => {
    const goes: Evidence = {
      ...(look('other') as One),
      observe: [{ what: 'goes', at: 'F1.motor' }],
      answers: ['board.SYS1', 'none', 'other'].map((id) => ({ id, means: [id === 'other' ? null : id] })),
    }
    expect(saidBefore([goes, goes])).toEqual([[undefined], [{ noneOf: ['board.SYS1', 'none'] }]])
  })

  test('as it was said last', () => {
    expect([...saidLast([look('no'), look('full')]).values()]).toEqual([{ is: 'full' }])
  })
})

test('two looks agree where both name one value, or one names what the other would have marked', () => {
  expect(agree({ is: 'no' }, { is: 'no' })).toBe(true)
  expect(agree({ is: 'no' }, { is: 'full' })).toBe(false)
  expect(agree({ noneOf: ['no', 'slow'] }, { is: 'full' })).toBe(true)
  expect(agree({ is: 'slow' }, { noneOf: ['no', 'slow'] })).toBe(false)
  expect(agree({ noneOf: ['no', 'slow'] }, { is: 'slow' })).toBe(false)
  expect(agree({ noneOf: ['no'] }, { noneOf: ['slow'] })).toBe(true)
})

describe('the odds of a second look', () => {
  const says = saidBy(answers)
  /** P(first says `a`, second says `b`) where the fan does `does`. */
  const both = (does: string, a: string, b: string): number => {
    const fresh = answerOdds(answers, [does], 0.06)
    const second = oddsAgain(fresh, { is: a }, says)
    return (fresh[WORDS.indexOf(a)] ?? 0) * (second[WORDS.indexOf(b)] ?? 0)
  }

  test('sum to 1 whatever was said before', () => {
    for (const before of says) {
      const odds = oddsAgain(answerOdds(answers, ['slow'], 0.06), before, says)
      expect(odds.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12)
    }
  })

  test('are shared by all that say what was said, and as ever where none does', () => {
    const odds = answerOdds(answers, ['slow'], 0.06)
    // Marked neither as still nor as slow: it was normal or full, a quarter each, beside half of what is seen now.
    expect([...oddsAgain(odds, { noneOf: ['no', 'slow'] }, says)]).toEqual([
      0.01,
      0.47,
      0.25 + 0.01,
      0.25 + 0.01,
    ])
    expect(oddsAgain(odds, { is: 'twitches' }, says)).toEqual(odds)
  })

  test('make of two that differ no difference between the two: it does not count which came first', () => {
    expect(both('no', 'no', 'full')).toBeCloseTo(both('full', 'no', 'full'), 12)
    expect(both('no', 'no', 'full')).toBeCloseTo(both('no', 'full', 'no'), 12)
  })

  test('make of two that agree more than of one, but far less than of two persons', () => {
    const one = 0.94 / 0.02
    const twice = both('no', 'no', 'no') / both('full', 'no', 'no')
    expect(twice).toBeGreaterThan(one)
    expect(twice).toBeLessThan(3 * one)
    expect(3 * one).toBeLessThan(one * one)
  })
})
