import { describe, expect, it } from 'vitest'
import { boundsFor } from '../../../../src/core/infer/choose/bounds.ts'
import { cautious, type Guess } from '../../../../src/core/infer/choose/guess.ts'
import { reduce } from '../../../../src/core/infer/choose/reduce.ts'
import { type Action, type State, statesOf } from '../../../../src/core/infer/choose/states.ts'
import { carry, openerFor, settle } from '../../../../src/core/infer/choose/steps.ts'
import { type HandProblem, handProblem, startOf } from './hand-problem.ts'

const ALL = { checks: Number.POSITIVE_INFINITY, repairs: Number.POSITIVE_INFINITY }

function opened(written: HandProblem, width = ALL, all = true, guess: Guess = cautious) {
  const problem = handProblem(written)
  const reduced = reduce(problem, startOf(problem))
  const bounds = boundsFor(reduced)
  const states = statesOf(reduced, bounds, guess)
  const opener = openerFor(reduced, bounds, guess, states)
  const words = Math.ceil(reduced.checkOf.length / 32)
  const root = states.reach(reduced.weight, 1, reduced.mode, new Int32Array(words))
  const leaves = opener.open(root, width, all)
  return { root, leaves, opener, states, names: root.actions!.map((a) => `${a.kind} ${a.index}`) }
}

const two: HandProblem = {
  priors: [0.6, 0.4],
  checks: [
    {
      minutes: 1,
      rows: [
        [0.9, 0.1],
        [0.2, 0.8],
      ],
    },
    {
      minutes: 3,
      mode: 'off',
      rows: [
        [1, 0],
        [0, 1],
      ],
    },
  ],
  repairs: [
    { minutes: 10, cures: [0] },
    { minutes: 20, cures: [1] },
  ],
}

describe('opening a state', () => {
  it('offers every check that tells and every repair that cures, each with its own values', () => {
    const { root, names, leaves } = opened(two)
    expect(names).toEqual(['check 0', 'check 1', 'repair 0', 'repair 1'])
    // Told: 0.6 · 10 + 0.4 · 20 = 14. Repairs in order: r0 10 + 0.4 · 20 = 18.
    // c0: yes .62 (.54, .08): r0 10 · .62 + 20 · .08 = 7.8; no .38 (.06, .32): r1 20 · .38 + 10 · .06 = 8.2.
    const [c0, c1, r0, r1] = root.actions!
    expect(c0).toMatchObject({ minutes: 1, least: 15 })
    expect(c0!.most).toBeCloseTo(1 + 7.8 + 8.2, 9)
    // c1 with power off: 3 + 2, and each repair from there 2 more.
    expect(c1).toMatchObject({ minutes: 5 })
    expect(c1!.least).toBeCloseTo(5 + 16, 9)
    expect(c1!.most).toBeCloseTo(5 + 16, 9)
    expect(r0!.most).toBeCloseTo(18, 9)
    expect(r0!.least).toBeCloseTo(18, 9)
    expect(r1!.most).toBeCloseTo(20 + 0.6 * 10, 9)
    expect(root.most).toBeCloseTo(17, 9)
    expect(root.least).toBeCloseTo(15, 9)
    expect(root.guess).toBeCloseTo(17, 9)
    expect(leaves).toBe(2 + 2 + 1 + 1)
  })

  it('guesses for each step from what it leaves: its own minutes, and the guess at every outcome', () => {
    const { root } = opened(two, ALL, true, (_weights, least, most) => least + (most - least) / 4)
    for (const a of root.actions!) expect(a.guess).toBeCloseTo(a.least + (a.most - a.least) / 4, 9)
  })

  it('below the first step leaves out what cannot be best', () => {
    // c1 and r1 take at least 21 and 26; 18 is sure.
    expect(opened(two, ALL, false).names).toEqual(['check 0', 'repair 0'])
  })

  it('does not offer a check that no longer tells, nor a repair that cures nothing any more', () => {
    const { opener, states } = opened(two)
    const sure = states.reach(Float64Array.of(1, 0), 1, 0, Int32Array.of(0))
    opener.open(sure, ALL, true)
    expect(sure.actions!.map((a) => `${a.kind} ${a.index}`)).toEqual(['repair 0'])
  })

  it('does not offer a check that was asked and may have erred', () => {
    const { root, opener } = opened(two)
    const [c0] = root.actions!
    opener.unfold(root, c0!)
    const [yes, no] = c0!.children!
    expect([...yes!.asked]).toEqual([1])
    opener.open(no!, ALL, true)
    expect(no!.actions!.map((a) => `${a.kind} ${a.index}`)).toEqual(['check 1', 'repair 0', 'repair 1'])
  })

  it('follows the checks that gather the belief most a minute, and the repairs that cure most a minute', () => {
    const perfect = [
      [1, 0],
      [1, 0],
      [0, 1],
      [0, 1],
    ] as const
    const written: HandProblem = {
      priors: [0.25, 0.25, 0.25, 0.25],
      checks: [
        { minutes: 4, rows: perfect },
        { minutes: 0.5, rows: perfect },
        { minutes: 0.5, mode: 'off', rows: perfect },
        { minutes: 0.5, rows: perfect.map(([a, b]) => [0.5 + 0.1 * (a - b), 0.5 - 0.1 * (a - b)]) },
      ],
      repairs: [
        { minutes: 9, cures: [0] },
        { minutes: 3, cures: [1] },
        { minutes: 3, mode: 'off', cures: [2] },
        { minutes: 30, cures: [0, 1, 2, 3] },
      ],
    }
    expect(opened(written, { checks: 2, repairs: 2 }).names).toEqual([
      'check 1',
      'check 2',
      'repair 1',
      'repair 2',
    ])
    expect(opened(written, { checks: 1, repairs: 1 }).names).toEqual(['check 1', 'repair 1'])
    expect(opened(written, { checks: 4, repairs: 4 }).names).toHaveLength(8)
  })

  it('follows the best of many checks where there are few repairs, in the order in which they are written', () => {
    // Certain answers, so the shorter check gathers more a minute: the last two are the best two, the very last the best.
    // A third answer that nobody expects changes nothing.
    const certain = [
      [1, 0, 0],
      [0, 1, 0],
    ]
    const { names } = opened(
      {
        priors: [0.5, 0.5],
        checks: [4, 3, 2, 1].map((minutes) => ({ minutes, rows: certain })),
        repairs: [{ minutes: 9, cures: [0, 1] }],
      },
      { checks: 2, repairs: 1 },
    )
    expect(names).toEqual(['check 2', 'check 3', 'repair 0'])
  })

  it('knows checks beyond the first thirty-two apart', () => {
    const rows = (p: number) => [
      [p, 1 - p],
      [1 - p, p],
    ]
    const many: HandProblem = {
      priors: [0.5, 0.5],
      checks: Array.from({ length: 40 }, () => ({ minutes: 0.01, rows: rows(0.7) })),
      repairs: two.repairs!,
    }
    const { root, opener } = opened(many)
    const last = root.actions!.find((a) => a.kind === 'check' && a.index === 39)!
    opener.unfold(root, last)
    expect([...last.children![0]!.asked]).toEqual([0, 1 << 7])
    opener.open(last.children![0]!, ALL, true)
    const asked = last.children![0]!.actions!.filter((a) => a.kind === 'check').map((a) => a.index)
    expect(asked).toEqual(Array.from({ length: 39 }, (_, i) => i))
  })
})

describe('where an action leads', () => {
  it('is a state for each answer that can be, with its odds', () => {
    const { root, opener } = opened(two)
    const [c0, c1] = root.actions!
    opener.unfold(root, c0!)
    expect(c0!.odds!.map((p) => p.toFixed(12))).toEqual(['0.620000000000', '0.380000000000'])
    expect(c0!.children![0]!.weight[0]).toBeCloseTo(0.54 / 0.62, 12)
    expect(c0!.children![0]!.mode).toBe(0)
    opener.unfold(root, c1!)
    expect(c1!.children!.map((s) => [...s.weight])).toEqual([
      [1, 0],
      [0, 1],
    ])
    expect(c1!.children!.map((s) => s.mode)).toEqual([1, 1])
    // A check that cannot err needs no mark: asking it again would tell nothing.
    expect([...c1!.children![0]!.asked]).toEqual([0])
  })

  it('is no state for an answer that cannot be', () => {
    const { root, opener } = opened({
      ...two,
      checks: [
        {
          minutes: 1,
          rows: [
            [0.9, 0, 0.1],
            [0.2, 0, 0.8],
          ],
        },
      ],
    })
    const [c0] = root.actions!
    opener.unfold(root, c0!)
    expect(c0!.odds!.map((p) => p.toFixed(12))).toEqual(['0.620000000000', '0.380000000000'])
    expect(c0!.children).toHaveLength(2)
  })

  it('is, after a repair, the belief without what it cures, with power as for the proof; nothing where all is cured', () => {
    const { root, opener } = opened({
      priors: [0.6, 0.4],
      repairs: [
        { minutes: 1, mode: 'off', cures: [0] },
        { minutes: 9, cures: [0, 1] },
      ],
    })
    const [one, both] = root.actions!
    opener.unfold(root, one!)
    expect(one!.odds![0]).toBeCloseTo(0.4, 12)
    expect([...one!.children![0]!.weight]).toEqual([0, 1])
    expect(one!.children![0]!.mode).toBe(0)
    opener.unfold(root, both!)
    expect(both!.children).toEqual([])
  })
})

describe('carrying values back', () => {
  const state = (least: number, most: number, guess: number): State => ({
    weight: new Float64Array(1),
    mode: 0,
    asked: new Int32Array(1),
    least,
    most,
    guess,
    actions: undefined,
  })
  const action = (least: number, most: number, children?: State[], odds?: number[]): Action => ({
    kind: 'check',
    index: 0,
    minutes: 1,
    least,
    most,
    guess: most,
    children,
    odds,
  })

  it('weighs what an action leads to by its odds', () => {
    const a = action(0, 100, [state(4, 8, 6), state(10, 20, 14)], [0.5, 0.5])
    carry(a)
    expect(a).toMatchObject({ least: 8, most: 15, guess: 11 })
  })

  it('never loosens a value that was sure before', () => {
    const a = action(9, 10, [state(4, 30, 25)], [1])
    carry(a)
    expect(a).toMatchObject({ least: 9, most: 10, guess: 10 })
    const low = action(9, 40, [state(4, 30, 5)], [1])
    carry(low)
    expect(low).toMatchObject({ least: 9, most: 31, guess: 9 })
  })

  it('leaves an action alone that was not followed yet', () => {
    const a = action(2, 3)
    carry(a)
    expect(a).toMatchObject({ least: 2, most: 3 })
  })

  it('takes the best of the actions and of handing over', () => {
    const s = state(1, 50, 40)
    s.actions = [{ ...action(5, 12), guess: 8 }, action(8, 9)]
    settle(s, 30)
    expect(s).toMatchObject({ least: 5, most: 9, guess: 8 })
    const dear = state(1, 50, 40)
    dear.actions = [action(35, 60)]
    settle(dear, 30)
    expect(dear).toMatchObject({ least: 30, most: 30, guess: 30 })
  })

  it('keeps a sure value of the state itself', () => {
    const s = state(6, 8, 7)
    s.actions = [action(5, 12)]
    settle(s, 30)
    expect(s).toMatchObject({ least: 6, most: 8, guess: 8 })
  })
})
