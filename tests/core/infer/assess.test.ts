import { describe, expect, test } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import { mapAsk, mappedAll } from '../../../src/core/checks/maps.ts'
import { assess, knowledgeOf } from '../../../src/core/infer/assess.ts'
import type { Dossier } from '../../../src/core/infer/dossier.ts'
import type { Evidence } from '../../../src/core/infer/evidence.ts'
import { build } from '../../support/build.ts'

/** Two halls that share nothing but the board and the supply. */
const twoHalls = () =>
  build()
    .supply('SA')
    .supply('SB')
    .header('SYS1', { amps: 2 })
    .header('SYS2', { amps: 2 })
    .usbHeader('U1')
    .fan('F1..F6')
    .splitter('Y1', ['F1', 'F2', 'F3'])
    .splitter('Y2', ['F4', 'F5', 'F6'])
    .lightHub('H1', ['F1', 'F2', 'F3'])
    .lightHub('H2', ['F4', 'F5', 'F6'])
    .lead('Y1.in', 'board.SYS1')
    .lead('Y2.in', 'board.SYS2')
    .lead('H1.power', 'supply.SA.1')
    .lead('H2.power', 'supply.SB.1')
    .lead('H1.usb', 'board.U1.a')
    .lead('H2.usb', 'board.U1.b')
    .host({ program: 'running', global_effect: 'off' })
    .plan()

const machine = compile(twoHalls())
const known = knowledgeOf(machine, [])

const map = (kind: 'lit' | 'spins', seq: number, ...ids: string[]): Evidence => {
  const ask = mapAsk(machine, [kind], 'scope')
  if (!ask.many) return expect.fail()
  return { kind: 'many', seq, id: ask.id, history: [], error: ask.error, marks: ask.marks, chosen: ids }
}
const one = (seq: number, at: string, chosen: string): Evidence => ({
  kind: 'one',
  seq,
  id: `look seated ${at}`,
  history: [{ do: 'power', to: 'off' }],
  error: 0.12,
  observe: [{ what: 'seated', at }],
  answers: ['yes', 'no', 'doubtful'].map((id) => ({ id, means: [id] })),
  chosen,
})
const dossier = (...evidence: Evidence[]): Dossier => ({
  evidence,
  history: [],
  inForce: [],
  power: 'on',
  scope: mappedAll(machine, ['lit']),
  closed: new Set(),
  toolsMissing: new Set(),
})
const beliefIn = (d: Dossier, ...ids: string[]): number => {
  const a = assess(known, d)
  return a.hypotheses.reduce((sum, h, i) => (ids.includes(h.id) ? sum + (a.belief[i] ?? 0) : sum), 0)
}
const top = (d: Dossier): string => {
  const a = assess(known, d)
  return a.hypotheses[a.belief.indexOf(Math.max(...a.belief))]?.id ?? ''
}

describe('belief', () => {
  test('sums to 1 and leaves every suspect a share', () => {
    const { belief } = assess(known, dossier(map('lit', 1, 'F2:dark', 'F3:dark')))
    expect(belief.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12)
    expect(Math.min(...belief)).toBeGreaterThan(0)
  })

  test('does not depend on the order of the answers', () => {
    const a = map('lit', 1, 'F2:dark', 'F3:dark')
    const b = one(2, 'F2.light', 'no')
    expect(beliefIn(dossier(a, b), 'F2.light:unplugged')).toBeCloseTo(
      beliefIn(dossier(b, a), 'F2.light:unplugged'),
      10,
    )
  })

  test('lights dead from the second of a series on point at the second lead or what is before it, not at the third', () => {
    const d = dossier(map('lit', 1, 'F2:dark', 'F3:dark'))
    expect(
      beliefIn(d, 'F2.light:unplugged', 'F2.light:loose', 'F1.light:open-DATA_BACK', 'H1.2:data-dead'),
    ).toBeGreaterThan(0.4)
    expect(beliefIn(d, 'F3.light:unplugged')).toBeLessThan(0.02)
  })

  test('a plug that was looked at and found home is less suspect, and found out it is most suspect; neither is certain', () => {
    const scope = map('lit', 1, 'F2:dark', 'F3:dark')
    const before = beliefIn(dossier(scope), 'F2.light:unplugged')
    const home = beliefIn(dossier(scope, one(2, 'F2.light', 'yes')), 'F2.light:unplugged')
    const out = beliefIn(dossier(scope, one(2, 'F2.light', 'no')), 'F2.light:unplugged')
    expect(home).toBeLessThan(before / 3)
    expect(home).toBeGreaterThan(0)
    expect(out).toBeGreaterThan(before)
    expect(out).toBeLessThan(1)
  })

  test('saying the same again moves it less than saying it once', () => {
    const scope = map('lit', 1, 'F2:dark', 'F3:dark')
    const odds = (p: number): number => p / (1 - p)
    const once = odds(beliefIn(dossier(scope, one(2, 'F2.light', 'no')), 'F2.light:unplugged'))
    const twice = odds(
      beliefIn(dossier(scope, one(2, 'F2.light', 'no'), one(3, 'F2.light', 'no')), 'F2.light:unplugged'),
    )
    const start = odds(beliefIn(dossier(scope), 'F2.light:unplugged'))
    expect(twice / once).toBeGreaterThan(1)
    expect(twice / once).toBeLessThan(once / start)
  })

  test('an earlier wrong answer can be overturned', () => {
    const scope = map('lit', 1, 'F2:dark', 'F3:dark')
    const wrong = one(2, 'F2.light', 'yes')
    const goesNowhere: Evidence = {
      kind: 'one',
      seq: 3,
      id: 'look goes F2.light',
      history: [{ do: 'power', to: 'off' }],
      error: 0.06,
      observe: [{ what: 'goes', at: 'F2.light' }],
      answers: ['H1.2', 'none', 'other'].map((id) => ({ id, means: [id === 'other' ? null : id] })),
      chosen: 'none',
    }
    expect(top(dossier(scope, wrong, goesNowhere))).toBe('F2.light:unplugged')
  })

  test('nothing seen to be wrong anywhere: that nothing is wrong becomes the best explanation', () => {
    expect(top(dossier(map('lit', 1), map('spins', 2)))).toBe('as-planned')
  })
})

describe('two faults', () => {
  test('far from each other are named as a pair when no single one explains both', () => {
    const found = top(dossier(map('lit', 1, 'F3:dark', 'F6:dark')))
    expect(found).toMatch(/F3.*\+.*F6|F6.*\+.*F3/)
  })

  test('are not made up where one common cause explains all', () => {
    expect(top(dossier(map('lit', 1, 'F1:dark', 'F2:dark', 'F3:dark')))).not.toContain('+')
  })
})

describe('what was thought about before', () => {
  test('makes no difference: two faults at once are as likely as the singles in question make them', () => {
    const within = dossier(map('lit', 1, 'F1:dark', 'F3:dark'))
    const used = knowledgeOf(machine, [])
    // The same pairs among all faults of the build, of which each single one is less likely.
    assess(used, dossier(map('lit', 1, 'F1:dark', 'F3:dark', 'F4:dark')))
    const [first, again] = [knowledgeOf(machine, []), used].map((k) => assess(k, within))
    expect(first?.hypotheses.some((h) => h.kind === 'pair')).toBe(true)
    expect(again?.belief).toEqual(first?.belief)
  })
})

describe('conflict', () => {
  test('answers that no cause can explain leave "none of these" on top and are named', () => {
    const impossible = [1, 2, 3].map(
      (seq): Evidence => ({
        kind: 'one',
        seq: seq + 1,
        id: `look seated F${seq}.motor`,
        history: [],
        error: 0.01,
        observe: [{ what: 'seated', at: `F${seq}.motor` }],
        answers: ['yes', 'no', 'doubtful'].map((id) => ({ id, means: [id] })),
        chosen: 'no',
      }),
    )
    const d = dossier(map('spins', 1), ...impossible)
    const a = assess(known, d)
    expect(a.conflict || a.atOdds.length > 0).toBe(true)
    for (const seq of a.atOdds) expect([1, 2, 3, 4]).toContain(seq)
  })

  test('answers that fit are not at odds', () => {
    expect(
      assess(known, dossier(map('lit', 1, 'F2:dark', 'F3:dark'), one(2, 'F2.light', 'no'))).atOdds,
    ).toEqual([])
  })
})

describe('what was seen first', () => {
  const nested = compile(
    build()
      .header('SYS1', { amps: 2 })
      .plainFan('F1..F3')
      .splitter('Y1', ['F1', 'Y2.in'])
      .splitter('Y2', ['F2', 'F3'])
      .lead('Y1.in', 'board.SYS1')
      .plan(),
  )
  const plug = one(1, 'Y2.in', 'no')
  const fan: Evidence = {
    ...plug,
    seq: 2,
    id: 'look spins F1',
    history: [],
    observe: [{ what: 'spins', at: 'F1' }],
    answers: ['no', 'normal'].map((id) => ({ id, means: [id] })),
  } as Evidence

  test('makes no difference to who is suspect, and the same suspects are worked out once', () => {
    const once = knowledgeOf(nested, [])
    const [a, b] = [
      [plug, fan],
      [fan, plug],
    ].map((evidence) => assess(once, dossier(...evidence)))
    expect(a?.hypotheses.map((h) => h.id)).toEqual(b?.hypotheses.map((h) => h.id))
    expect(a?.hypotheses[0]).toBe(b?.hypotheses[0])
  })
})

test('a fan that is meant to stand still, and does, makes nothing suspect', () => {
  const quiet = compile(
    build()
      .header('SYS1', { drive: 'pwm' })
      .header('SYS2', { drive: 'pwm' })
      .plainFan('F1', { motor: { below_min: 'stops-at-zero' } })
      .plainFan('F2')
      .lead('F1.motor', 'board.SYS1')
      .lead('F2.motor', 'board.SYS2')
      .set('SYS1', {
        curve: [
          [50, 0],
          [70, 100],
        ],
      })
      .plan(),
  )
  const ask = mapAsk(quiet, ['spins'], 'scope')
  if (!ask.many) return expect.fail()
  const seen: Evidence = { ...ask, kind: 'many', seq: 1, history: [], chosen: ['F1:no'] }
  const places = assess(knowledgeOf(quiet, []), dossier(seen)).hypotheses.map((h) => h.faults[0]?.at)
  expect(places).toContain('F1')
  expect(places).toContain('F2')
})
