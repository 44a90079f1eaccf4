/** What will have been done by the time of a look and seen then under each suspect, and where the symptom is looked for. */
import { describe, expect, it } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import type { Edit } from '../../../src/core/bench/edit.ts'
import type { Observable } from '../../../src/core/bench/observable.ts'
import type { CheckDef } from '../../../src/core/checks/step.ts'
import { knowledgeOf } from '../../../src/core/infer/assess.ts'
import type { Dossier } from '../../../src/core/infer/dossier.ts'
import type { Evidence } from '../../../src/core/infer/evidence.ts'
import { historyFor, plannedCheck, scopeAfter } from '../../../src/core/infer/foresee.ts'
import { hypotheses } from '../../../src/core/infer/hypothesis.ts'
import { oddsUnder } from '../../../src/core/infer/likelihood.ts'
import { editOf } from '../../support/bench-look.ts'
import { build } from '../../support/build.ts'

const machine = compile(
  build()
    .supply('SA')
    .header('SYS1')
    .header('SYS2')
    .header('SYS3')
    .usbHeader('U1')
    .fan('F1..F2')
    .lightHub('H1', ['F1', 'F2'])
    .lead('F1.motor', 'board.SYS1')
    .lead('F2.motor', 'board.SYS2')
    .lead('H1.power', 'supply.SA.1')
    .lead('H1.usb', 'board.U1.a')
    .channel('H1', { profile: [8, 8], colours: 'GRB' })
    .plan(),
)
const dossier = (change: Partial<Dossier> = {}): Dossier => ({
  evidence: [],
  history: [],
  inForce: [],
  power: 'on',
  scope: [],
  closed: new Set(),
  toolsMissing: new Set(),
  ...change,
})
const edits = (...texts: string[]): Edit[] => texts.map(editOf)

describe('what will have been done by the time of a look', () => {
  const doneBy = (d: Dossier, done: readonly Edit[], power: 'on' | 'off') =>
    historyFor(machine, d, done, power)

  it('is what was done so far, with a switch only where the look wants another power', () => {
    const d = dossier({ history: edits('reseat F1.motor') })
    expect(doneBy(d, [], 'on')).toEqual(edits('reseat F1.motor'))
    expect(doneBy(d, [], 'off')).toEqual(edits('reseat F1.motor', 'power off'))
    expect(doneBy(dossier({ power: 'off' }), [], 'on')).toEqual(edits('power on'))
    expect(doneBy(dossier({ power: 'off' }), [], 'off')).toEqual([])
  })

  it('has power off while hands are in, and what was tried before put back first, last first', () => {
    const d = dossier({
      inForce: edits('swap F1.motor F2.motor', 'plug F1.light -> H1.2', 'set host/program = absent'),
    })
    expect(doneBy(d, edits('plug F2.motor -> board.SYS3'), 'on')).toEqual(
      edits(
        'power off',
        'plug F1.light -> H1.1',
        'swap F1.motor F2.motor',
        'plug F2.motor -> board.SYS3',
        'power on',
      ),
    )
    expect(doneBy(dossier({ power: 'off' }), edits('unplug F1.motor'), 'off')).toEqual(
      edits('unplug F1.motor'),
    )
  })

  it('sets what is set with power on, and leaves what was tried', () => {
    const d = dossier({ inForce: edits('swap F1.motor F2.motor') })
    expect(doneBy(d, edits('set host/program = running'), 'on')).toEqual(edits('set host/program = running'))
  })

  it('counts the switches that the edits make themselves', () => {
    expect(doneBy(dossier(), edits('power off', 'power on'), 'on')).toEqual(edits('power off', 'power on'))
    expect(doneBy(dossier(), edits('power off'), 'off')).toEqual(edits('power off'))
    expect(doneBy(dossier(), edits('power off'), 'on')).toEqual(edits('power off', 'power on'))
  })
})

describe('a reading', () => {
  const rpm: Observable = { what: 'rpm', at: 'board.SYS1' }

  it('is looked for where its plug was moved to last', () => {
    const moved = edits(
      'plug F1.motor -> board.SYS3',
      'plug F2.motor -> board.SYS1',
      'plug F1.motor -> board.SYS2',
    )
    expect(scopeAfter(machine, [rpm], moved)).toEqual([{ what: 'rpm', at: 'board.SYS2' }])
  })

  it('stays where it was when another plug moves, and only readings move', () => {
    expect(scopeAfter(machine, [rpm], edits('plug F2.motor -> board.SYS3'))).toEqual([rpm])
    const others: Observable[] = [
      { what: 'spins', at: 'F1' },
      { what: 'alarm', at: 'board.SYS1' },
      { what: 'rpm', at: 'board.SYS3' },
    ]
    expect(scopeAfter(machine, others, edits('plug F1.motor -> board.SYS2', 'unplug F2.motor'))).toEqual(
      others,
    )
  })
})

describe('what a check would tell', () => {
  const known = knowledgeOf(machine, [])
  const all = hypotheses(machine, () => true, [])
  const alive = (...ids: string[]) =>
    ids.map((id) => ({ h: all.find((h) => h.id === id) ?? expect.fail(`no ${id}`), p: 0.1 }))
  const check = (observe: readonly Observable[], done: readonly Edit[] = []): CheckDef => ({
    id: 'c',
    edits: done,
    observe,
    power: 'on',
    hands: 'out',
    minutes: 1,
    error: 0.06,
    tools: [],
    fit: false,
  })
  const spins: Observable = { what: 'spins', at: 'F1' }
  const planned = (of: CheckDef, ids: readonly string[], d = dossier()) =>
    plannedCheck(known, d, alive(...ids), of)
  const rows = (table: readonly Float64Array[]) => table.map((row) => [...row])

  it('is of a loose contact either of two sights, and at a single look that of the broken one', () => {
    const { answers, table, broken } = planned(check([spins]), ['F1.motor:loose', 'F1:motor-dead'])
    const no = oddsUnder(answers, [['no']], 0.06)
    expect(rows(broken)).toEqual(rows([no, no]))
    expect(rows(table)).toEqual(rows([oddsUnder(answers, [['no'], ['normal']], 0.06), no]))
  })

  it('is of what is not known what it has left as usual by then, and what it keeps to', () => {
    // Nothing seen yet: usual in half or in nine tenths, so 0.7 × 0.94 + 0.3 / 5 for a fan that turns.
    const { answers, table } = planned(check([spins]), ['none-of-these'])
    const normal = answers.findIndex((a) => a.id === 'normal')
    expect(table[0]?.[normal]).toBeCloseTo(0.7 * 0.94 + 0.3 / 5, 12)
    // It stood still before a plug was pushed home: it shows anything anew, or keeps to what it is.
    const before: Evidence = {
      kind: 'one',
      seq: 1,
      id: 'look spins F1',
      history: [],
      error: 0.06,
      observe: [spins],
      answers,
      chosen: 'no',
    }
    const after = dossier({ evidence: [before], history: edits('reseat F1.motor') })
    const still = planned(check([spins]), ['none-of-these'], after).table[0]!
    const slip = 0.06 / 4
    const each = [0.5, 0.9].map((u) => {
      const once = u * slip + (1 - u) / 5
      return { once, anew: once ** 2, kept: u * slip ** 2 + ((1 - u) / 5) * (0.94 ** 2 + 4 * slip ** 2) }
    })
    const sum = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0)
    const twice = sum(each.map((e) => (e.anew + e.kept) / 2)) / sum(each.map((e) => e.once))
    expect(still[answers.findIndex((a) => a.id === 'no')]).toBeCloseTo(twice, 12)
  })

  it('has what is right among its answers, also where no suspect foresees it', () => {
    const goes = planned(check([{ what: 'goes', at: 'F1.motor' }]), ['F1.motor:unplugged'])
    expect(goes.answers.map((a) => a.id)).toEqual(['none', 'board.SYS1', 'other'])
  })

  it('is worked out for the sixteen likeliest where something is tried, for all where one only looks', () => {
    const ids = all.filter((h) => h.id.startsWith('F1')).map((h) => h.id)
    expect(ids.length).toBeGreaterThan(17)
    const even = (of: CheckDef): boolean[] =>
      planned(of, ids).table.map((row) => row.every((p) => Math.abs(p - 1 / row.length) < 1e-12))
    expect(even(check([spins])).includes(true)).toBe(false)
    expect(even(check([spins], edits('swap F1.motor F2.motor')))).toEqual(ids.map((_, i) => i >= 16))
  })

  it('says the same again half of the time where the same look was made before, and nothing of other looks', () => {
    const seen: Evidence = {
      kind: 'one',
      seq: 1,
      id: 'look spins F1',
      history: [],
      error: 0.06,
      observe: [spins],
      answers: ['no', 'normal'].map((id) => ({ id, means: [id] })),
      chosen: 'normal',
    }
    const again = dossier({ evidence: [seen] })
    const { answers, table, same } = planned(check([spins]), ['F1:motor-dead'], again)
    expect(same).toEqual(answers.map((a) => a.id === 'normal'))
    // Of the five answers normal is a slip: a quarter of 6 %. A half for the mix-up, of the other half as ever.
    const normal = answers.findIndex((a) => a.id === 'normal')
    expect(table[0]?.[normal]).toBeCloseTo(0.5 + 0.5 * (0.06 / 4), 12)
    const turned: Observable = { what: 'spins', at: 'F2' }
    for (const other of [check([turned]), check([spins, turned]), check([spins], edits('unplug F2.motor'))]) {
      const fresh = planned(other, ['F1:motor-dead'], again)
      expect(fresh.same).toBeUndefined()
      expect(rows(fresh.table)).toEqual(rows(planned(other, ['F1:motor-dead']).table))
    }
    // What is seen after a trial is a look of its own, even where nothing but the power was tried.
    expect(planned(check([spins], edits('power off')), ['F1:motor-dead'], again).same).toBeUndefined()
  })
})
