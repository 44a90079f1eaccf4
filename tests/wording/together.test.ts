/** What kind of part a name stands for is said once where names are read together, and not in every row. */
import { describe, expect, it } from 'vitest'
import type { Ask } from '../../src/core/checks/prompt.ts'
import type { Part } from '../../src/core/plan/part.ts'
import { english } from '../../src/wording/en/english.ts'
import { archivePlan } from '../support/archive-plan.ts'

const scene = { plan: archivePlan }

/** The same plan with its parts called otherwise. */
const renamed = (names: Readonly<Record<string, string>>) => ({
  ...scene,
  plan: { ...archivePlan, parts: archivePlan.parts.map((p): Part => ({ ...p, id: names[p.id] ?? p.id })) },
})

describe('names that stand together', () => {
  it('a part is named in full where it comes first, and by its id after that', () => {
    const lines = ['H1.3', 'H1.4', 'F3.light', 'F3.motor'].map((ref) => `${english.ref(ref, scene)} loose`)
    expect(english.fullOnce(lines, scene)).toEqual([
      'socket 3 of light hub H1 (behind the board tray) loose',
      'socket 4 of H1 loose',
      'the light plug of fan F3 (top-rear) loose',
      'the motor plug of F3 loose',
    ])
  })

  it('also where a sentence begins with it', () => {
    expect(english.fullOnce(['Fan F3 (top-rear): dark', 'fan F3 (top-rear)'], scene)).toEqual([
      'Fan F3 (top-rear): dark',
      'F3',
    ])
  })

  it('a name that begins like another is not taken for it', () => {
    const both = renamed({ Y1: 'Y', F4: 'Y4' })
    const said = [english.part('Y', both), 'fan splitter Y4', 'fan splitter Y-4', english.part('Y', both)]
    expect(english.fullOnce(said, both)).toEqual([
      'fan splitter Y',
      'fan splitter Y4',
      'fan splitter Y-4',
      'Y',
    ])
  })

  it('a name that says what it is says it once', () => {
    const own = renamed({ F1: 'fan-left', H1: 'Lighthub 2', Y1: 'SPLITTER' })
    expect(['fan-left', 'Lighthub 2', 'SPLITTER'].map((id) => english.part(id, own))).toEqual([
      'fan-left (front-bottom)',
      'Lighthub 2 (behind the board tray)',
      'SPLITTER',
    ])
  })

  it('several of one kind have it said once for all, in the plural', () => {
    const question: Ask = {
      show: 'ask',
      id: 'q',
      stage: 'check',
      power: 'on',
      hands: 'out',
      minutes: 1,
      tools: [],
      error: 0.05,
      many: false,
      observe: ['F1', 'F2'].map((at) => ({ what: 'spins', at })),
      answers: [],
    }
    expect(english.question(question, scene).title).toBe(
      'Look at fans F1 (front-bottom) and F2 (front-top). Which turn, and how?',
    )
  })

  it('a list of fans does not say in every row that it is of fans; what else is in it says so', () => {
    const rows = english.rows(['F1', 'F2', 'F3', 'H1', 'H1.1', 'board.SYS1'], scene)
    expect(rows.map((r) => r.short)).toEqual(['F1', 'F2', 'F3', 'light hub H1', 'H1.1', 'header SYS1'])
    expect(rows.map((r) => r.long)).toEqual([
      'F1 (front-bottom)',
      'F2 (front-top)',
      'F3 (top-rear)',
      'light hub H1 (behind the board tray)',
      'socket 1 of H1',
      'header SYS1 on the board',
    ])
  })

  it('a header of the board says what it is where it is met first, whatever parts are called like it', () => {
    const own = renamed({ F1: 'CPU' })
    const settings = ['headers/SYS1/drive', 'headers/SYS1/curve']
    expect(
      english.rows(['CPU', 'board.CPU', 'board.L1', 'board.U1.a', ...settings], own).map((r) => r.short),
    ).toEqual([
      'fan CPU',
      'header CPU',
      'light header L1',
      'USB header U1.a',
      'header SYS1/drive',
      'SYS1/curve',
    ])
  })

  it('on the run of a lead a header says what it is, since several kinds of them have codes alike', () => {
    const tags = ['board.SYS1', 'board.L1', 'board.U1.a'].map((ref) => english.screen.tag(ref, scene))
    expect(tags).toEqual(['header SYS1', 'light header L1', 'USB header U1 row a'])
  })

  it('where few are listed each says it', () => {
    expect(english.rows(['F1', 'H1'], scene).map((r) => r.short)).toEqual(['fan F1', 'light hub H1'])
  })
})
