/** What will have been done by the time of a look, where the symptom is looked for then, and what a repair cures. */
import { describe, expect, it } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import type { Edit } from '../../../src/core/bench/edit.ts'
import type { Observable } from '../../../src/core/bench/observable.ts'
import type { RepairDef } from '../../../src/core/checks/step.ts'
import { knowledgeOf } from '../../../src/core/infer/assess.ts'
import { fixesOf } from '../../../src/core/infer/cures.ts'
import type { Dossier } from '../../../src/core/infer/dossier.ts'
import { historyFor, scopeAfter } from '../../../src/core/infer/foresee.ts'
import { hypotheses, pairOf } from '../../../src/core/infer/hypothesis.ts'
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

describe('a repair cures', () => {
  const known = knowledgeOf(machine, [])
  const all = hypotheses(machine, () => true, [])
  const suspect = (id: string) => {
    const found = all.find((h) => h.id === id)
    if (!found) throw new Error(`no suspect ${id}`)
    return { h: found, p: 0.1 }
  }
  const cured = (repair: readonly Edit[], scope: readonly Observable[], ...ids: string[]): number[] => {
    const def: RepairDef = { id: 'r', edits: repair, power: 'on', hands: 'in', minutes: 1, spare: null }
    return [...fixesOf(known, dossier({ scope }), ids.map(suspect), def)]
  }
  const spins: Observable[] = [{ what: 'spins', at: 'F1' }]
  const lit: Observable[] = [{ what: 'lit', at: 'F1' }]

  it('what it mends, not what it leaves as it is, and never what is not known', () => {
    expect(
      cured(
        edits('reseat F1.motor'),
        spins,
        'F1.motor:unplugged',
        'F1.motor:loose',
        'F1:motor-dead',
        'none-of-these',
      ),
    ).toEqual([1, 1, 0, 0])
    expect(
      cured(edits('substitute F1'), spins, 'F1.motor:unplugged', 'F1:motor-dead', 'board.SYS1:dead'),
    ).toEqual([1, 1, 0])
  })

  it('a bad header by moving the plug, a swap by swapping back', () => {
    expect(cured(edits('plug F1.motor -> board.SYS3'), spins, 'board.SYS1:dead', 'F1:motor-dead')).toEqual([
      1, 0,
    ])
    const both: Observable[] = ['F1', 'F2'].map((at) => ({
      what: 'answers',
      at: at === 'F1' ? 'H1.1' : 'H1.2',
    }))
    // Exchanging what was not exchanged makes it wrong.
    expect(cured(edits('swap F1.light F2.light'), both, 'F1.light:swapped-with-F2.light', 'H1:hung')).toEqual(
      [1, 0],
    )
    // Hands are in with power off, and that is all a hung hub needs.
    expect(cured(edits('reseat F1.light'), both, 'F1.light:swapped-with-F2.light', 'H1:hung')).toEqual([0, 1])
    expect(
      cured(edits('plug F2.light -> H1.2', 'plug F1.light -> H1.1'), both, 'F1.light:swapped-with-F2.light'),
    ).toEqual([1])
  })

  it('what power alone clears, whatever else it touches; nothing else is cured by power alone', () => {
    const cycle = edits('power off', 'power on')
    const shown: Observable[] = [{ what: 'shows', at: 'F1' }]
    expect(cured(cycle, shown, 'H1:hung', 'channels/H1/colours:wrong')).toEqual([1, 0])
    expect(cured(cycle, spins, 'board.SYS1:tripped', 'board.SYS1:dead')).toEqual([1, 0])
  })

  it('a setting by setting it right', () => {
    const shown: Observable[] = [{ what: 'shows', at: 'F1' }]
    expect(cured(edits('set channels/H1/colours = GRB'), shown, 'channels/H1/colours:wrong')).toEqual([1])
    expect(
      cured(edits('set host/program = running'), shown, 'host/program:not-running', 'H1.usb:unplugged'),
    ).toEqual([1, 0])
  })

  it('two faults only where neither is left', () => {
    const pair = pairOf(suspect('F1.light:unplugged').h, suspect('F1.motor:unplugged').h)
    if (!pair) throw new Error('no pair')
    const fixes = (repair: readonly Edit[], scope: readonly Observable[]): number[] => {
      const def: RepairDef = { id: 'r', edits: repair, power: 'on', hands: 'in', minutes: 1, spare: null }
      return [...fixesOf(known, dossier({ scope }), [{ h: pair, p: 1 }], def)]
    }
    expect(fixes(edits('reseat F1.motor'), [...spins, ...lit])).toEqual([0])
    expect(fixes(edits('reseat F1.motor'), spins)).toEqual([1])
    expect(fixes(edits('reseat F1.motor', 'reseat F1.light'), [...spins, ...lit])).toEqual([1])
  })

  it('in what was done before, too: nothing is left to mend where it was mended', () => {
    const done = dossier({ scope: spins, history: edits('power off', 'reseat F1.motor'), power: 'off' })
    const again: RepairDef = { id: 'again', edits: [], power: 'on', hands: 'out', minutes: 1, spare: null }
    expect([
      ...fixesOf(known, done, [suspect('F1.motor:unplugged'), suspect('F1:motor-dead')], again),
    ]).toEqual([1, 0])
  })
})
