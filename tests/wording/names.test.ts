import { describe, expect, it } from 'vitest'
import { allPorts, pinsOf } from '../../src/core/plan/ports.ts'
import { clean, LONGEST_NAME } from '../../src/wording/clean.ts'
import { english } from '../../src/wording/en/english.ts'
import { archivePlan, fan } from '../support/archive-plan.ts'
import fc from '../support/fast-check.ts'

const scene = { plan: archivePlan }
const name = (ref: string) => english.ref(ref, scene)

describe('names of things', () => {
  it.each([
    ['F2', 'fan F2 (front-top)'],
    ['F2.motor', 'the motor plug of fan F2 (front-top)'],
    ['H1.3', 'socket 3 of light hub H1 (behind the board tray)'],
    ['H1.power', 'the supply plug of light hub H1 (behind the board tray)'],
    ['Y1.in', 'the input plug of fan splitter Y1'],
    ['board.SYS1', 'header SYS1 on the board'],
    ['board.L2', 'light header L2 on the board'],
    ['board.U1.a', 'row a of USB header U1 on the board'],
    ['supply.SA.1', 'plug 1 of supply lead SA'],
    ['supply.SA', 'supply lead SA'],
    ['board.SYS1/12V', 'the 12 V contact of header SYS1 on the board'],
    ['F1.motor/TACH', 'the speed (tach) contact of the motor plug of fan F1 (front-bottom)'],
    ['headers/SYS1/drive', 'the drive mode of header SYS1 on the board'],
    ['channels/H1/profile', 'the LED counts of light hub H1 (behind the board tray)'],
    ['host/program', "the vendor's lighting program"],
    ['ports/board.U1.a/enabled', 'the switch in the firmware of row a of USB header U1 on the board'],
  ])('%s is %s', (ref, words) => {
    expect(name(ref)).toBe(words)
  })

  it('every port and pin of a build has a name, and no two the same', () => {
    const ports = allPorts(archivePlan)
    const refs = ports.flatMap((p) => [p.ref, ...pinsOf[p.connector].map((c) => `${p.ref}/${c}`)])
    const said = refs.map(name)
    expect(new Set(said).size).toBe(refs.length)
    for (const s of said) expect(s).not.toContain('undefined')
  })

  it('an unknown reference is named as it stands', () => {
    expect(name('X9')).toBe('X9')
    expect(name('X9.light')).toBe('the light plug of X9')
  })

  it('lists with commas and an and', () => {
    expect(english.list([])).toBe('')
    expect(english.list(['F1'])).toBe('F1')
    expect(english.list(['F1', 'F2', 'F3'])).toBe('F1, F2 and F3')
  })
})

describe('names from outside', () => {
  // ECMA-48 control functions start with a byte of C0 or C1; none of those may reach a terminal.
  const control = /[\p{Cc}\u202a-\u202e\u2066-\u2069\u200b-\u200f]/u

  it('carries no control byte of a plan to the terminal, whatever stands in it', () => {
    fc.assert(
      fc.property(
        fc.string({ unit: 'binary', maxLength: 80 }),
        fc.string({ unit: 'binary', maxLength: 200 }),
        (id, at) => {
          const plan = { ...archivePlan, parts: [fan(`F${id}`, at)] }
          const said = [
            english.part(`F${id}`, { plan }),
            english.fault({ at: `F${id}`, mode: id }, { plan }).is,
            english.edit({ do: 'free', part: `F${id}` }, { plan }),
          ]
          for (const s of said) expect(control.test(s)).toBe(false)
        },
      ),
      {
        numRuns: 300,
        examples: [
          ['\u001b[31m', '\u001b]0;owned\u0007'],
          ['\u009b2J', 'a\u202eb'],
        ],
      },
    )
  })

  it('cuts endless names with an ellipsis, between characters as a person counts them', () => {
    const plan = { ...archivePlan, parts: [fan('F1', 'e\u0301'.repeat(100))] }
    const said = english.part('F1', { plan })
    expect(said).toBe(`fan F1 (${'e\u0301'.repeat(LONGEST_NAME - 1)}…)`)
  })

  it('keeps wide and right-to-left letters', () => {
    expect(clean('前面 上')).toBe('前面 上')
    expect(clean('מאוורר')).toBe('מאוורר')
  })
})
