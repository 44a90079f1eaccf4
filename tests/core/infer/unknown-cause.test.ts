/**
 * What "none of these" foresees, worked out by hand: a thing is as usual with a share of a half or of nine tenths, else it shows
 * any value alike; and it keeps to that, or shows it anew at each look.
 */
import { describe, expect, test } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import type { Edit } from '../../../src/core/bench/edit.ts'
import { mapAsk } from '../../../src/core/checks/maps.ts'
import type { Evidence, Many } from '../../../src/core/infer/evidence.ts'
import { hypotheses } from '../../../src/core/infer/hypothesis.ts'
import { likelihood } from '../../../src/core/infer/likelihood.ts'
import { sightsOf } from '../../../src/core/infer/sights.ts'
import { unknownAfter } from '../../../src/core/infer/unknown-cause.ts'
import { threeOnOneHub } from '../../support/small-builds.ts'

const machine = compile(threeOnOneHub())
const sights = sightsOf(machine)
const none =
  hypotheses(machine, () => true, []).find((h) => h.kind === 'none') ?? expect.fail('no unknown cause')
const given = (...evidence: Evidence[]) => unknownAfter(evidence, none, sights)

/** Lights gone over, each of four ways (three marks, or none) with an error of 3 %. */
function lit(dark: readonly string[], history: readonly Edit[] = []): Many {
  const ask = mapAsk(machine, ['lit'], 'scope')
  if (!ask.many) return expect.fail()
  const chosen = dark.map((at) => `${at}:dark`)
  return { kind: 'many', seq: 1, id: ask.id, history, error: 0.03, marks: ask.marks, chosen }
}
const reseat = (plug: string): Edit => ({ do: 'reseat', plug })

const [RIGHT, SLIP] = [0.97, 0.03 / 3]
const mean = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0) / list.length
const shares = [0.5, 0.9]

describe('an unknown cause', () => {
  test('leaves a share of the things as they would be without it, and shows anything at the others', () => {
    // Marked dark: a slip of what is as usual, or one of four; seen to be lit: right, or one of four.
    const p = shares.map((u) => (u * SLIP + (1 - u) / 4) * (u * RIGHT + (1 - u) / 4) ** 2)
    expect(given(lit(['F1'])).column).toEqual([expect.closeTo(mean(p), 12)])
  })

  test.each([
    ['no', 'normal'],
    ['normal', 'no'],
  ])('is right where what is right can be marked and was: %s, %s', (...values) => {
    const turns: Many = {
      ...lit([]),
      marks: values.map((value) => ({ id: value, observe: { what: 'spins', at: 'F1' }, value })),
      chosen: ['normal'],
    }
    const p = shares.map((u) => u * 0.97 + (1 - u) / 3)
    expect(given(turns).column).toEqual([expect.closeTo(mean(p), 12)])
  })

  test('keeps to what it shows after a repair, or shows it anew', () => {
    const [first = 0, then = 0] = given(lit(['F1']), lit(['F1'], [reseat('F1.light')])).column
    const both = shares.flatMap((u) => {
      const [dark, right] = [u * SLIP + (1 - u) / 4, u * RIGHT + (1 - u) / 4]
      const anew = (dark * right ** 2) ** 2
      // Kept to: usual and told wrong twice, dark and told right twice, or one of the other two values and told wrong twice.
      const darkTwice = u * SLIP ** 2 + ((1 - u) / 4) * (RIGHT ** 2 + 3 * SLIP ** 2)
      const litTwice = u * RIGHT ** 2 + ((1 - u) / 4) * (RIGHT ** 2 + 3 * SLIP ** 2)
      return [anew, darkTwice * litTwice ** 2]
    })
    expect(first * then).toBeCloseTo(mean(both), 12)
  })

  test('says the same again half of the time where the same look is made twice', () => {
    const [first = 0, then = 0] = given(lit(['F1', 'F2', 'F3']), lit(['F1', 'F2', 'F3'])).column
    const again = (p: number): number => 0.5 + 0.5 * p
    const both = shares.flatMap((u) => {
      const dark = u * SLIP + (1 - u) / 4
      const kept = u * SLIP * again(SLIP) + ((1 - u) / 4) * (RIGHT * again(RIGHT) + 3 * SLIP * again(SLIP))
      return [(dark * again(dark)) ** 3, kept ** 3]
    })
    expect(first * then).toBeCloseTo(mean(both), 12)
  })

  test('is another matter with the mains off: what a fan does then is not what it did', () => {
    const look = (chosen: string, history: readonly Edit[]): Evidence => ({
      kind: 'one',
      seq: 1,
      id: 'look',
      history,
      error: 0.06,
      observe: [{ what: 'spins', at: 'F1' }],
      answers: ['no', 'twitches', 'slow', 'normal'].map((id) => ({ id, means: [id] })),
      chosen,
    })
    const off: Edit = { do: 'power', to: 'off' }
    const [first = 0, then = 0] = given(look('no', []), look('no', [off])).column
    expect(first * then).toBeCloseTo(mean(shares.map((u) => (u * 0.02 + (1 - u) / 4) ** 2)), 12)
  })

  test('keeps to what it showed when it is asked in other words', () => {
    const e = 0.06
    const asked = (
      means: readonly (string | null)[],
      chosen: string,
      history: readonly Edit[],
    ): Evidence => ({
      kind: 'one',
      seq: 1,
      id: 'look',
      history,
      error: e,
      observe: [{ what: 'lit', at: 'F1' }],
      answers: means.map((m) => ({ id: m ?? 'other', means: [m] })),
      chosen,
    })
    const joint = (means: readonly string[], chosen: string): number => {
      const first = asked(['dark', null], 'dark', [])
      const [a = 0, b = 0] = given(first, asked(means, chosen, [reseat('F1.light')])).column
      return a * b
    }
    // By what the thing keeps to: how likely each answer is where it is as usual, dark, or anything but dark.
    const by = (usual: number, dark: number, notDark: number): number =>
      mean(
        shares.flatMap((u) => {
          const own = (1 - u) / 2
          const anew = (u * e + own) * (u * usual + own * (dark + notDark))
          return [anew, u * e * usual + own * ((1 - e) * dark + e * notDark)]
        }),
      )
    const all = ['dark', 'part', 'flicker', 'whole']
    expect(joint(all, 'dark')).toBeCloseTo(by(e / 3, 1 - e, e), 12)
    expect(joint(all, 'part')).toBeCloseTo(by(e / 3, e / 3, (1 - e) / 3), 12)
    // Neither answer is dark, and each is anything but dark: what was kept to tells nothing of them.
    expect(joint(['part', 'whole'], 'part')).toBeCloseTo(by(e, 1 / 2, 1 / 2), 12)
  })

  test('is weighed by what is told of the past as suspects are, and shows the same after it', () => {
    const told: Evidence = {
      kind: 'about',
      seq: 1,
      id: 'since',
      history: [],
      error: 0,
      about: 'since',
      chosen: 'suddenly',
    }
    const looks = [lit(['F1']), lit(['F1'], [reseat('F1.light')])]
    expect(given(told, ...looks).column).toEqual([likelihood(told, none, sights), ...given(...looks).column])
    expect(likelihood(told, none, sights)).toBeGreaterThan(1)
  })

  test('foresees the next look by all that was answered', () => {
    const seen = [lit(['F1']), lit(['F1'], [reseat('F1.light')])]
    const next = (dark: readonly string[]): Many => ({
      ...lit(dark, [reseat('F1.light'), reseat('H1.usb')]),
      marks: seen[0]!.marks.filter((m) => m.observe.at === 'F1'),
    })
    const column = given(...seen, next(['F1'])).column
    const answers = ['dark', 'part', 'flicker', 'whole'].map((id) => ({ id, means: [id] }))
    const odds = given(...seen).foresee(
      [{ what: 'lit', at: 'F1' }],
      [reseat('F1.light'), reseat('H1.usb')],
      answers,
      ['whole'],
      0.03,
    )
    expect(odds[0]).toBeCloseTo(column[2] ?? Number.NaN, 12)
    expect(odds.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12)
  })

  test('has an even chance of an answer that is not among those offered', () => {
    const odd: Evidence = {
      kind: 'one',
      seq: 1,
      id: 'look',
      history: [],
      error: 0.06,
      observe: [{ what: 'spins', at: 'F1' }],
      answers: ['no', 'normal'].map((id) => ({ id, means: [id] })),
      chosen: 'humming',
    }
    expect(given(odd).column).toEqual([0.5])
  })
})
