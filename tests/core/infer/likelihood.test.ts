import { describe, expect, test } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import { answersFor, OTHER } from '../../../src/core/checks/answers.ts'
import { mapAsk } from '../../../src/core/checks/maps.ts'
import type { Answer } from '../../../src/core/checks/prompt.ts'
import type { Evidence } from '../../../src/core/infer/evidence.ts'
import { hypotheses } from '../../../src/core/infer/hypothesis.ts'
import { answerOdds, likelihood, oddsUnder } from '../../../src/core/infer/likelihood.ts'
import { sightsOf } from '../../../src/core/infer/sights.ts'
import { build } from '../../support/build.ts'

const spins: readonly Answer[] = ['no', 'twitches', 'slow', 'normal', 'full'].map((id) => ({
  id,
  means: [id],
}))
const sum = (odds: Float64Array): number => odds.reduce((a, b) => a + b, 0)

const machine = compile(
  build()
    .supply('SA')
    .header('SYS1')
    .usbHeader('U1')
    .fan('F1..F3')
    .splitter('Y1', ['F1', 'F2', 'F3'])
    .lightHub('H1', ['F1', 'F2', 'F3'])
    .lead('Y1.in', 'board.SYS1')
    .lead('H1.power', 'supply.SA.1')
    .lead('H1.usb', 'board.U1.a')
    .host({ program: 'running', global_effect: 'off' })
    .plan(),
)
const all = hypotheses(machine, () => true, [])
const named = (id: string) => all.find((h) => h.id === id) ?? expect.fail(`no ${id}`)
const sights = sightsOf(machine)
const dark = (...parts: string[]): Evidence => {
  const ask = mapAsk(machine, ['lit'], 'scope')
  if (!ask.many) return expect.fail()
  return {
    kind: 'many',
    seq: 1,
    id: ask.id,
    history: [],
    error: ask.error,
    marks: ask.marks,
    chosen: parts.map((p) => `${p}:dark`),
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
      ],
    )
    expect([...answerOdds(answers, ['normal', 'no'], 0.1)]).toEqual([0.05, 0.9, 0.05])
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
  })
})

describe('a map', () => {
  test('is a small question for each thing: marked and unmarked both count', () => {
    // Under a light lead that is out at the first of three in series all three are dark; three marks a thing and "none".
    const h = named('F1.light:unplugged')
    expect(likelihood(dark('F1', 'F2', 'F3'), h, sights)).toBeCloseTo(0.97 ** 3, 12)
    expect(likelihood(dark('F1', 'F2'), h, sights)).toBeCloseTo(0.97 ** 2 * (0.03 / 3), 12)
  })

  test('is under "none of these" as without it for half of the things, by chance for the others', () => {
    // Four ways to answer for each fan. Marked dark: (0.03 / 3 + 1 / 4) / 2; seen to be right: (0.97 + 1 / 4) / 2.
    expect(likelihood(dark('F1'), named('none-of-these'), sights)).toBeCloseTo(0.13 * 0.61 ** 2, 12)
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
