/** What a repair cures: what it touches and what the bench shows to be mended by it. */
import { describe, expect, it } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import type { Edit } from '../../../src/core/bench/edit.ts'
import type { Observable } from '../../../src/core/bench/observable.ts'
import type { RepairDef } from '../../../src/core/checks/step.ts'
import { knowledgeOf } from '../../../src/core/infer/assess.ts'
import { fixesOf } from '../../../src/core/infer/cures.ts'
import type { Dossier } from '../../../src/core/infer/dossier.ts'
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
    .fan('F1..F3')
    .lightHub('H1', ['F1', 'F2'])
    .lightHub('H2', ['F3'])
    .lead('F1.motor', 'board.SYS1')
    .lead('F2.motor', 'board.SYS2')
    .lead('H1.power', 'supply.SA.1')
    .lead('H1.usb', 'board.U1.a')
    .lead('H2.power', 'supply.SA.2')
    .lead('H2.usb', 'board.U1.b')
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
    const pair = pairOf(suspect('H1:hung').h, suspect('F2.motor:unplugged').h) ?? expect.fail()
    const def = { edits: cycle }
    expect([...fixesOf(known, dossier({ scope: shown }), [{ h: pair, p: 1 }], def)]).toEqual([1])
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
    const suspects = ['F1.motor:unplugged', 'F1:motor-dead', 'none-of-these'].map(suspect)
    expect([...fixesOf(known, done, suspects, again)]).toEqual([1, 0, 0])
  })

  it('nothing that it does not touch, even where that shows nothing of the symptom', () => {
    const reseat = (plug: string) => cured(edits(`reseat ${plug}`), spins, 'F1.motor:open-TACH')
    expect([reseat('F1.motor'), reseat('F2.motor')]).toEqual([[1], [0]])
    // Two plugs on the board, or on the supply, have nothing else in common.
    expect(cured(edits('plug F2.motor -> board.SYS3'), spins, 'F1.motor:open-TACH')).toEqual([0])
    expect(cured(edits('reseat H1.power'), spins, 'H2.power:loose')).toEqual([0])
  })

  it('what sits across from the plug it touches, and on the part of that', () => {
    const touched = (edit: string, id: string) => cured(edits(edit), spins, id)
    expect(touched('reseat H1.usb', 'board.U1.a:dead')).toEqual([1])
    expect(touched('reseat F2.light', 'H1:dead')).toEqual([1])
    expect(touched('reseat F2.light', 'H2:dead')).toEqual([0])
    expect(touched('reseat F2.motor', 'board.SYS2:tach-dead')).toEqual([1])
    // Of a swap the other plug too, and of a plug in a wrong socket that socket.
    expect(touched('reseat F2.motor', 'F1.motor:swapped-with-F2.motor')).toEqual([1])
    expect(touched('plug F3.motor -> board.SYS3', 'F2.motor:in-board.SYS3')).toEqual([1])
  })

  it('a blade that catches by freeing it', () => {
    expect(cured(edits('free F1'), spins, 'F1:blocked', 'F1:motor-dead')).toEqual([1, 0])
  })

  it('a header that nothing reports to by the plug that is moved there', () => {
    const made = compile(
      build()
        .header('CPU', { role: 'cpu', drive: 'pwm' })
        .header('W1', { role: 'pump', drive: 'pwm' })
        .pump('P1')
        .lead('P1.motor', 'board.W1')
        .plan(),
    )
    const asPlanned = hypotheses(made, () => true, []).find((h) => h.kind === 'as-planned') ?? expect.fail()
    expect(asPlanned.faults).toEqual([{ at: 'board.CPU', mode: 'nothing-reports' }])
    const move: RepairDef = {
      id: 'r',
      edits: edits('plug P1.motor -> board.CPU'),
      power: 'on',
      hands: 'in',
      minutes: 1,
      spare: null,
    }
    const scope: Observable[] = [{ what: 'alarm', at: 'board.CPU' }]
    expect([...fixesOf(knowledgeOf(made, []), dossier({ scope }), [{ h: asPlanned, p: 1 }], move)]).toEqual([
      1,
    ])
  })
})
