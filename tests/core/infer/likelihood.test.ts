import { describe, expect, test } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import { answersFor, OTHER } from '../../../src/core/checks/answers.ts'
import { mapAsk } from '../../../src/core/checks/maps.ts'
import type { Answer } from '../../../src/core/checks/prompt.ts'
import type { Evidence, One } from '../../../src/core/infer/evidence.ts'
import { hypotheses } from '../../../src/core/infer/hypothesis.ts'
import { answerOdds, likelihood, oddsUnder } from '../../../src/core/infer/likelihood.ts'
import { saidBefore } from '../../../src/core/infer/repeated.ts'
import { sightsOf } from '../../../src/core/infer/sights.ts'
import { threeOnOneHub } from '../../support/small-builds.ts'

const spins: readonly Answer[] = ['no', 'twitches', 'slow', 'normal', 'full'].map((id) => ({
  id,
  means: [id],
}))
const sum = (odds: Float64Array): number => odds.reduce((a, b) => a + b, 0)

const machine = compile(threeOnOneHub())
const all = hypotheses(machine, () => true, [])
const named = (id: string) => all.find((h) => h.id === id) ?? expect.fail(`no ${id}`)
const sights = sightsOf(machine)
const dark = (...parts: string[]): Evidence => marked(...parts.map((p) => `${p}:dark`))
const marked = (...chosen: string[]): Evidence => {
  const ask = mapAsk(machine, ['lit'], 'scope')
  if (!ask.many) return expect.fail()
  return {
    kind: 'many',
    seq: 1,
    id: ask.id,
    history: [],
    error: ask.error,
    marks: ask.marks,
    chosen,
  }
}

describe('one answer', () => {
  test('is right with the chance of the look, and each wrong answer is equally likely', () => {
    // 5 answers, 4 % error: 0.96 for the right one and 0.04 / 4 for each other.
    const odds = answerOdds(spins, ['no'], 0.04)
    expect([...odds]).toEqual([0.96, 0.01, 0.01, 0.01, 0.01])
  })

  test('of a thing that can have no value tells nothing', () => {
    expect([...answerOdds(spins, [null], 0.04)]).toEqual([0.2, 0.2, 0.2, 0.2, 0.2])
    const open = answersFor([{ what: 'goes', at: 'F1.motor' }], [['board.SYS1']])
    expect([...answerOdds(open, [null], 0.04)]).toEqual([0.5, 0.5])
  })

  test('falls on "something else" only where no named answer holds', () => {
    const answers = answersFor([{ what: 'goes', at: 'F1.motor' }], [['board.SYS1'], ['board.SYS2']])
    expect(answers.map((a) => a.id)).toEqual(['board.SYS1', 'board.SYS2', OTHER])
    expect([...answerOdds(answers, ['board.SYS2'], 0.1)]).toEqual([0.05, 0.9, 0.05])
    expect([...answerOdds(answers, ['board.CPU'], 0.1)]).toEqual([0.05, 0.05, 0.9])
  })

  test('of two things at once holds only where both do', () => {
    const answers = answersFor(
      [
        { what: 'spins', at: 'F1' },
        { what: 'spins', at: 'F2' },
      ],
      [
        ['no', 'normal'],
        ['normal', 'no'],
        ['no', 'no'],
      ],
    )
    // Four answers with "something else": 0.9 for the right one and 0.1 / 3 for each other.
    const wrong = 0.1 / 3
    expect([...answerOdds(answers, ['normal', 'no'], 0.1)]).toEqual([wrong, 0.9, wrong, wrong])
    // One of the two cannot be seen: neither both this nor both that.
    expect([...answerOdds(answers, ['normal', null], 0.1)]).toEqual([wrong, wrong, wrong, 0.9])
  })

  test('that says nothing of one of two things holds whatever that does', () => {
    const answers = [
      ['no', null],
      ['normal', null],
      ['no', 'full'],
      [null, null],
    ].map((means, i) => ({
      id: `${i}`,
      means,
    }))
    // Two answers hold and share 0.9, the other two share 0.1.
    expect([...answerOdds(answers, ['no', 'full'], 0.1)]).toEqual([0.45, 0.05, 0.45, 0.05])
  })

  test.each([0.01, 0.1, 0.3])('has odds that sum to 1 at an error of %d, steady or not', (error) => {
    expect(sum(oddsUnder(spins, [['slow']], error))).toBeCloseTo(1, 12)
    expect(sum(oddsUnder(spins, [['no'], ['normal']], error))).toBeCloseTo(1, 12)
    const lit = ['dark', 'part', 'whole', 'flicker'].map((id) => ({ id, means: [id] }))
    expect(sum(oddsUnder(lit, [['dark'], ['whole']], error))).toBeCloseTo(1, 12)
  })

  test('of a loose contact may be either sight, and flickering is said more often than under a sound one', () => {
    const lit = ['dark', 'part', 'whole', 'flicker'].map((id) => ({ id, means: [id] }))
    const loose = oddsUnder(lit, [['dark'], ['whole']], 0.05)
    const steady = oddsUnder(lit, [['dark']], 0.05)
    expect(loose[0]).toBeGreaterThan(loose[2] ?? 1) // seen broken more often than made: that is why somebody came
    expect(loose[2]).toBeGreaterThan(steady[2] ?? 1)
    expect(loose[3]).toBeGreaterThan(5 * (steady[3] ?? 1))
    // What is dark in both sights is not said to flicker.
    expect(oddsUnder(lit, [['dark'], ['dark']], 0.05)[3]).toBeCloseTo(0.05 / 3, 12)
  })

  test('of two things may say of one that it is unsteady', () => {
    const both = ['dark', 'whole', 'flicker'].map((id) => ({ id, means: [id, 'normal'] }))
    const odds = oddsUnder(
      both,
      [
        ['dark', 'normal'],
        ['whole', 'normal'],
      ],
      0.04,
    )
    // 0.3 is said of what differs; the other 0.7 has two wrong answers of 0.02 each.
    expect(odds[2]).toBeCloseTo(0.3 + 0.7 * 0.02, 12)
  })

  test('tells nothing under a suspect for which it was not worked out', () => {
    expect([...oddsUnder(spins, [], 0.04)]).toEqual([0.2, 0.2, 0.2, 0.2, 0.2])
  })

  test('asked again of the same says the same half of the time, whatever there is to be seen', () => {
    const dead = named('F1:motor-dead')
    const ask = (what: Pick<One, 'observe' | 'answers' | 'chosen'>): One => ({
      kind: 'one',
      seq: 1,
      id: 'again',
      history: [],
      error: 0.06,
      ...what,
    })
    const one = ask({ observe: [{ what: 'spins', at: 'F1' }], answers: spins, chosen: 'no' })
    expect(likelihood(one, dead, sights, [{ is: 'no' }])).toBeCloseTo(0.5 + 0.5 * 0.94, 12)
    expect(likelihood(one, dead, sights, [{ is: 'slow' }])).toBeCloseTo(0.5 * 0.94, 12)
    // Of two things at once it is the answer as a whole.
    const pair = ask({
      observe: ['F1', 'F2'].map((at) => ({ what: 'spins', at })),
      answers: [
        ['no', 'no'],
        ['no', 'normal'],
      ].map((means) => ({ id: means.join('/'), means })),
      chosen: 'no/normal',
    })
    expect(likelihood(pair, dead, sights, [{ is: 'no/normal' }])).toBeCloseTo(0.5 + 0.5 * 0.94, 12)
    // What is now "something else" was named the last time.
    const goes = ask({
      observe: [{ what: 'goes', at: 'F1.motor' }],
      answers: answersFor([{ what: 'goes', at: 'F1.motor' }], [['board.SYS1']]),
      chosen: OTHER,
    })
    expect(likelihood(goes, dead, sights, [{ is: 'board.SYS2' }])).toBeCloseTo(0.5 + 0.5 * 0.94, 12)
  })
})

describe('a map', () => {
  test('is a small question for each thing: marked and unmarked both count', () => {
    // Under a light lead that is out at the first of three in series all three are dark; three marks a thing and "none".
    const h = named('F1.light:unplugged')
    expect(likelihood(dark('F1', 'F2', 'F3'), h, sights)).toBeCloseTo(0.97 ** 3, 12)
    expect(likelihood(dark('F1', 'F2'), h, sights)).toBeCloseTo(0.97 ** 2 * (0.03 / 3), 12)
  })

  test('gone over again says the same of each thing half of the time', () => {
    const h = named('F1.light:unplugged')
    const again = (first: Evidence, second: Evidence, of = h): number =>
      likelihood(second, of, sights, saidBefore([first, second])[1])
    const all = dark('F1', 'F2', 'F3')
    const same = 0.5 + 0.5 * 0.97
    expect(again(all, all)).toBeCloseTo(same ** 3, 12)
    // F3 was left unmarked once, a slip of 0.03 / 3: the next time either way.
    expect(again(all, dark('F1', 'F2'))).toBeCloseTo(same ** 2 * (0.5 * 0.01), 12)
    expect(again(dark('F1', 'F2'), dark('F1', 'F2'))).toBeCloseTo(same ** 2 * (0.5 + 0.5 * 0.01), 12)
  })

  test('of a loose contact is one of two sights, or what differs between them told as unsteady', () => {
    // The last of three in series: broken it is dark, made it is lit; the first two are lit in both.
    const h = named('F3.light:loose')
    const [right, wrong] = [0.97, 0.03 / 3]
    expect(likelihood(marked('F3:dark'), h, sights)).toBeCloseTo(
      0.65 * right ** 3 + 0.35 * right ** 2 * wrong,
      12,
    )
    // Neither sight flickers, so that is a slip in both, or what three in ten say of something unsteady.
    expect(likelihood(marked('F3:flicker'), h, sights)).toBeCloseTo(
      0.7 * right ** 2 * wrong + 0.3 * right ** 3,
      12,
    )
    // F1 is steady: to say that it flickers is a slip, and then F3 is unmarked, right where the contact is made.
    expect(likelihood(marked('F1:flicker'), h, sights)).toBeCloseTo(
      0.65 * wrong * right * wrong + 0.35 * wrong * right ** 2,
      12,
    )
    expect(likelihood(marked('F1:flicker', 'F3:flicker'), h, sights)).toBeCloseTo(
      0.7 * wrong * right * wrong + 0.3 * wrong * right ** 2,
      12,
    )
  })
})

describe('what is told of the past', () => {
  const since = (chosen: string): Evidence => ({
    kind: 'about',
    seq: 2,
    id: 'since',
    history: [],
    error: 0.25,
    about: 'since',
    chosen,
  })

  test('a build that ran and was left alone has worn parts rather than wrong wiring', () => {
    const part = named('F1:motor-dead')
    const wiring = all.find((h) => h.families.includes('wiring')) ?? expect.fail()
    const ratio = (chosen: string): number =>
      likelihood(since(chosen), part, sights) / likelihood(since(chosen), wiring, sights)
    expect(ratio('suddenly')).toBeGreaterThan(5 * ratio('new'))
  })

  test('never makes anything impossible', () => {
    for (const chosen of ['new', 'changed', 'suddenly'])
      for (const h of all) expect(likelihood(since(chosen), h, sights)).toBeGreaterThan(0)
  })
})
