/** Which repairs and checks are offered to whom. */
import { describe, expect, it } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import { repairsFor } from '../../../src/core/checks/mend.ts'
import { HANDS_IN } from '../../../src/core/checks/step.ts'
import { knowledgeOf } from '../../../src/core/infer/assess.ts'
import { informationGainBits } from '../../../src/core/infer/belief.ts'
import type { Dossier } from '../../../src/core/infer/dossier.ts'
import type { Evidence } from '../../../src/core/infer/evidence.ts'
import { type Hypothesis, hypotheses, pairOf } from '../../../src/core/infer/hypothesis.ts'
import { checksOffered, repairsOffered } from '../../../src/core/infer/offered.ts'
import { whole } from '../../../src/core/infer/parts.ts'
import { editOf } from '../../support/bench-look.ts'
import { build } from '../../support/build.ts'
import { threeOnOneHub, twoApart } from '../../support/small-builds.ts'
import { alive, dossier, known, machine, named } from './lit-fan.ts'

describe('a lead that is moved', () => {
  const moved = (...suspects: string[]): string[] =>
    whole(checksOffered(known, dossier(), alive(...suspects)))
      .map(({ check }) => check)
      .filter(({ id }) => id.startsWith('look when-moved'))
      .map(({ observe, fit, power, hands }) => [observe[0]?.at, fit, power, hands].join(' '))

  it('is one at which something may come and go; a cord is laid with the mains off, and no hand is in when it is pulled', () => {
    expect(moved('F1.motor:loose', 'F1:motor-dead')).toEqual(['F1.motor true on out'])
    expect(moved('F1.motor:unplugged', 'F1:motor-dead')).toEqual([])
    // A supply lead is left alone.
    expect(moved('H1.power:loose', 'H1:dead')).toEqual([])
  })
})

describe('a plug that something hangs on', () => {
  it('is watched at the first fan below it, where it may come and go', () => {
    const splitters = compile(threeOnOneHub())
    const watched = (mode: string): string[] => {
      const both = hypotheses(splitters, () => true, [])
        .filter(({ id }) => id === `board.SYS1:${mode}` || id === 'board.SYS1:dead')
        .map((h) => ({ h, p: 0.5 }))
      return whole(checksOffered(knowledgeOf(splitters, []), dossier(), both))
        .map(({ check }) => check.id)
        .filter((id) => id.startsWith('look steady'))
    }
    expect(watched('worn-contact')).toEqual(['look steady F1'])
    expect(watched('control-dead')).toEqual([])
  })
})

describe('repairs', () => {
  const ids = (d: Dossier, ...suspects: string[]): string[] =>
    repairsOffered(known, d, alive(...suspects)).map((r) => r.id)
  const of = (id: string): string[] =>
    named(id)
      .faults.flatMap((f) => repairsFor(machine, f))
      .map((r) => r.id)

  it('are those of the suspects, the likeliest first, each once, without those that were closed', () => {
    const both = ['F1.motor:unplugged', 'F1.motor:loose'] as const
    expect(ids(dossier(), ...both)).toEqual([...new Set(both.flatMap(of))])
    const [first] = of('F1.motor:unplugged')
    expect(ids(dossier({ closed: new Set([first ?? '']) }), ...both)).not.toContain(first)
    expect(ids(dossier())).toEqual([])
  })

  it('need no hands in the case where nobody can switch off', () => {
    const shut = dossier({ toolsMissing: new Set([HANDS_IN]) })
    expect(ids(shut, 'F1.motor:unplugged', 'H1:hung')).toEqual([])
    expect(ids(shut, 'channels/H1/colours:wrong')).toEqual(of('channels/H1/colours:wrong'))
    // Nor to switch off in the course of setting something.
    const both = pairOf(named('H1:hung'), named('channels/H1/colours:wrong')) ?? expect.fail()
    expect(repairsOffered(known, shut, [{ h: both, p: 1 }]).map((r) => r.id)).toEqual(
      of('channels/H1/colours:wrong'),
    )
  })

  it('hold a look with nothing changed once something was done, twice after the same', () => {
    const again = (d: Dossier) => ids(d).filter((id) => id.startsWith('mend nothing'))
    const history = ['power off', 'reseat F1.motor', 'power on'].map(editOf)
    expect(again(dossier())).toEqual([])
    expect(again(dossier({ history }))).toEqual(['mend nothing, 1.1'])
    expect(again(dossier({ history, closed: new Set(['mend nothing, 1.1']) }))).toEqual(['mend nothing, 1.2'])
    expect(again(dossier({ history, closed: new Set(['mend nothing, 1.1', 'mend nothing, 1.2']) }))).toEqual(
      [],
    )
    // Not while something that was only tried is still in force.
    expect(again(dossier({ history, inForce: history.slice(1, 2) }))).toEqual([])
    expect(repairsOffered(known, dossier({ history }), [])).toMatchObject([
      { edits: [], power: 'on', hands: 'out', minutes: 1 },
    ])
  })

  it('hold both of a pair in one go, beside each by itself', () => {
    const pair = pairOf(named('F1.motor:unplugged'), named('H1.usb:unplugged'))
    if (!pair) throw new Error('no pair')
    const offered = repairsOffered(known, dossier(), [{ h: pair, p: 1 }])
    const edits = offered.map((r) => r.edits.map((e) => (e.do === 'reseat' ? e.plug : e.do)).join())
    expect(edits).toContain('F1.motor,H1.usb')
    expect(edits).toContain('F1.motor')
    expect(edits).toContain('H1.usb')
    // One that mends both by itself is not made twice.
    const hung = pairOf(named('H1:hung'), named('board.SYS1:tripped')) ?? expect.fail()
    const cycles = repairsOffered(known, dossier(), [{ h: hung, p: 1 }])
    expect(cycles.filter((r) => r.edits.some((e) => e.do === 'power')).map((r) => r.edits.length)).toEqual([
      2,
    ])
    // Two troubles of a plan are two repairs.
    const plan: Hypothesis = { ...pair, kind: 'as-planned' }
    const apart = repairsOffered(known, dossier(), [{ h: plan, p: 1 }])
    expect(apart.map((r) => r.id)).toEqual([...of('F1.motor:unplugged'), ...of('H1.usb:unplugged')])
    const single = repairsOffered(known, dossier(), alive('F1.motor:unplugged', 'H1.usb:unplugged'))
    expect(single.every((r) => r.edits.length < 2 || r.edits.some((e) => e.do === 'power'))).toBe(true)
  })

  it('start the host program first where they set what only it can set', () => {
    const wrong = 'channels/H1/colours:wrong'
    const plain = repairsOffered(known, dossier(), alive(wrong))[0]
    const silent = dossier({
      history: [editOf('set host/program = absent')],
      closed: new Set(['mend nothing, 1.1', 'mend nothing, 1.2']),
    })
    const late = repairsOffered(known, silent, alive(wrong))[0]
    expect(plain?.edits.map((e) => e.do === 'set' && e.setting)).toEqual(['channels/H1/colours'])
    expect(late?.edits).toEqual([editOf('set host/program = running'), ...(plain?.edits ?? [])])
    expect((late?.minutes ?? 0) - (plain?.minutes ?? 0)).toBe(8)
    const effect = repairsOffered(known, silent, alive('host/global_effect:left-on'))[0]
    expect(effect?.edits[0]).toEqual(editOf('set host/program = running'))
    const made = compile(
      build()
        .supply('SA')
        .usbHeader('U1')
        .plainFan('F1')
        .part('C1', { kind: 'controller', fan_ports: 2, light_ports: 1, power: 'sata', host: 'usb' })
        .lead('F1.motor', 'C1.fan1')
        .lead('C1.power', 'supply.SA.1')
        .lead('C1.usb', 'board.U1.a')
        .set('C1.fan1', { curve: [[0, 60]] })
        .host({ program: 'running' })
        .plan(),
    )
    const own = hypotheses(made, ({ at }) => at === 'headers/C1.fan1/curve', [])[0] ?? expect.fail()
    const set = repairsOffered(knowledgeOf(made, []), silent, [{ h: own, p: 1 }])[0]
    expect(set?.edits[0]).toEqual(editOf('set host/program = running'))
    // A fan's plug needs no program, nor does a board header, which the firmware sets.
    expect(repairsOffered(known, silent, alive('F1.motor:unplugged'))[0]?.edits[0]?.do).toBe('reseat')
    const curve = 'headers/SYS1/curve:flat-out'
    expect(ids(silent, curve)).toEqual(of(curve))
    expect(repairsOffered(known, silent, alive(curve))[0]?.edits).toHaveLength(1)
  })

  it('start no host program that the plan does not have', () => {
    const made = compile(
      build()
        .lightHeader('L1')
        .part('S1', { kind: 'strip', light: { leds: 8 } })
        .lead('S1.light', 'board.L1')
        .channel('L1', { profile: [8], colours: 'GRB' })
        .host({ program: 'absent' })
        .plan(),
    )
    const h = hypotheses(made, ({ at }) => at === 'channels/L1/colours', [])[0] ?? expect.fail()
    expect(repairsOffered(knowledgeOf(made, []), dossier(), [{ h, p: 1 }]).map((r) => r.edits)).toEqual([
      [editOf('set channels/L1/colours = GRB')],
    ])
  })

  it('are those of the fourteen likeliest', () => {
    const others = hypotheses(machine, ({ at }) => at.startsWith('F1'), []).slice(0, 14)
    const last = { h: named('channels/H1/colours:wrong'), p: 0.01 }
    const offered = (n: number) =>
      repairsOffered(known, dossier(), [...others.slice(0, n).map((h) => ({ h, p: 0.05 })), last]).map(
        (r) => r.id,
      )
    const [mine] = of('channels/H1/colours:wrong')
    expect([offered(13).includes(mine ?? ''), offered(14).includes(mine ?? '')]).toEqual([true, false])
  })
})

describe('checks', () => {
  const suspects = alive(
    'F1.motor:unplugged',
    'F1:motor-dead',
    'board.SYS1:dead',
    'channels/H1/colours:wrong',
    'none-of-these',
  )
  const offered = (d: Dossier) => whole(checksOffered(known, d, suspects))

  it('tell something, come by what they tell a minute, each once and no more than forty', () => {
    const checks = offered(dossier())
    const p = Float64Array.from(suspects, (s) => s.p)
    const rate = checks.map((c) => informationGainBits(p, c.table, c.answers.length) / c.check.minutes)
    expect(rate.length).toBeGreaterThan(3)
    expect(rate).toEqual([...rate].sort((a, b) => b - a))
    for (const [i, c] of checks.entries())
      expect((rate[i] ?? 0) * c.check.minutes, c.check.id).toBeGreaterThan(0.004)
    expect(new Set(checks.map((c) => c.check.id)).size).toBe(checks.length)
    expect(checks.length).toBeLessThanOrEqual(40)
    expect(checks.filter((c) => c.check.edits.length > 0).length).toBeLessThanOrEqual(6)
    expect(checks.some((c) => c.check.edits.length > 0)).toBe(true)
  })

  it('have odds for every suspect that sum to 1', () => {
    for (const { check, table } of offered(dossier())) {
      expect(table, check.id).toHaveLength(suspects.length)
      for (const row of table)
        expect(
          row.reduce((sum, x) => sum + x, 0),
          check.id,
        ).toBeCloseTo(1, 9)
    }
  })

  it('leave out what was closed, what needs hands that may not go in, and a tool that is not there', () => {
    const checks = offered(dossier())
    const first = checks[0]?.check.id ?? ''
    expect(offered(dossier({ closed: new Set([first]) })).map((c) => c.check.id)).not.toContain(first)
    const outside = offered(dossier({ toolsMissing: new Set([HANDS_IN]) }))
    expect(outside.length).toBeGreaterThan(0)
    expect(outside.every(({ check }) => !check.fit && check.edits.length === 0 && check.hands !== 'in')).toBe(
      true,
    )
    const tool = checks.flatMap((c) => c.check.tools)[0]
    expect(tool).toBeDefined()
    const without = offered(dossier({ toolsMissing: new Set([tool ?? '']) }))
    expect(without.length).toBeLessThan(checks.length)
    expect(without.every((c) => !c.check.tools.some((t) => t === tool))).toBe(true)
  })

  it('read no setting that only the host program shows while that does not speak', () => {
    const silent = dossier({ history: [editOf('set host/program = absent')] })
    const settings = (d: Dossier) =>
      offered(d)
        .filter((c) => c.check.observe[0]?.what === 'setting')
        .map((c) => c.check.id)
    expect(settings(dossier())).toContain('look setting channels/H1/colours')
    expect(settings(silent)).not.toContain('look setting channels/H1/colours')
    expect(offered(silent).map((c) => c.check.id)).toContain('look spins F1')
  })

  it('ask a second time only where the first answer may well have been a slip', () => {
    const seen = (chosen: string): Evidence => ({
      kind: 'one',
      seq: 1,
      id: 'look spins F1',
      history: [],
      error: 0.04,
      observe: [{ what: 'spins', at: 'F1' }],
      answers: ['no', 'normal'].map((id) => ({ id, means: [id] })),
      chosen,
    })
    /** Whether the fan is looked at again, with so much belief in each. */
    const again = (chosen: string, ...believed: (readonly [string, number])[]): boolean =>
      whole(
        checksOffered(
          known,
          dossier({ evidence: [seen(chosen)] }),
          believed.map(([id, p]) => ({ h: named(id), p })),
        ),
      ).some((c) => c.check.id === 'look spins F1')
    // Under the dead motor it would stand still again, under the open wire it would turn.
    const slip = (p: number) =>
      again('no', ['F1:motor-dead', 0.9 - p], ['F1.motor:open-TACH', p], ['none-of-these', 0.1])
    expect([slip(0.06), slip(0.04)]).toEqual([true, false])
    // Of a contact that comes and goes a second look often shows the same.
    expect(again('no', ['F1:motor-dead', 0.4], ['F1.motor:loose', 0.6])).toBe(false)
    expect(again('normal', ['F1.motor:open-TACH', 0.4], ['F1.motor:loose', 0.6])).toBe(true)
  })

  it('exchange a plug with a neighbour only where that was not seen to be wrong', () => {
    const two = compile(twoApart())
    const all = hypotheses(two, () => true, [])
    const likely = ['F1:motor-dead', 'board.SYS1:dead'].map((id) => ({
      h: all.find((h) => h.id === id) ?? expect.fail(id),
      p: 0.5,
    }))
    const swaps = (...chosen: string[]): boolean => {
      const map: Evidence = {
        kind: 'many',
        seq: 1,
        id: 'map',
        history: [],
        error: 0.03,
        marks: ['F1', 'F2'].map((at) => ({ id: `${at}:no`, observe: { what: 'spins', at }, value: 'no' })),
        chosen,
      }
      return whole(checksOffered(knowledgeOf(two, []), dossier({ evidence: [map] }), likely)).some((c) =>
        c.check.edits.some((e) => e.do === 'swap'),
      )
    }
    expect([swaps('F1:no'), swaps('F1:no', 'F2:no')]).toEqual([true, false])
  })
})
