import { describe, expect, it } from 'vitest'
import { audit } from '../../src/core/audit/audit.ts'
import type { Note } from '../../src/core/checks/prompt.ts'
import { findingNote } from '../../src/job/drive/cross-check.ts'
import { english } from '../../src/wording/en/english.ts'
import { archivePlan } from '../support/archive-plan.ts'
import { planOf } from '../support/build.ts'
import {
  askLit,
  askMany,
  doReseat,
  fakeSession,
  suspectPort,
  suspectUnplugged,
} from '../support/fake-session.ts'

const scene = { plan: archivePlan }
const say = (kind: Note['kind'], facts: Note['facts']) =>
  english.note({ show: 'note', kind, facts }, scene).join('\n')

describe('notes', () => {
  it('a finding that bears on an answer is told in its own words, where those of the plan are at hand', () => {
    const plan = planOf(`
board: { fan_headers: { S1: { drive: pwm } } }
parts: { F1: { kind: fan, motor: { pins: 3 } } }
leads: [F1.motor -> board.S1]`)
    const findings = audit(plan).filter((f) => f.rule === 'three-pin-on-pwm')
    const [note] = findings.map(findingNote)
    const told = english.note(note!, { plan, findings } as Parameters<typeof english.note>[1])
    expect(told[0]).toMatch(/^From the plan: may not work: fan F1 has 3 pins and header S1 controls by PWM/)
    expect(told[1]).toMatch(/^ {2}To do: use a 4-pin fan/)
  })

  it('cross-checks are said with the names of the things', () => {
    expect(say('cross-check', { what: 'shared', parts: ['F1', 'F2'], at: 'H1' })).toBe(
      'By the plan: Fans F1 (front-bottom) and F2 (front-top) share light hub H1 (behind the board tray), and nothing else does.',
    )
    const also = (parts: readonly string[]) =>
      say('cross-check', { what: 'shared-too', parts: ['F1', 'F2'], at: 'H1', also: [...parts] })
    expect(also(['F3'])).toMatch(/; fan F3 \(top-rear\) hangs there too and is right\.$/)
    expect(also(['F3', 'F4'])).toMatch(/F4 \([a-z-]+\) hang there too and are right\.$/)
    expect(say('cross-check', { what: 'fed', at: 'F3', from: 'supply.SA.1' })).toContain(
      'is fed from plug 1 of supply lead SA',
    )
    expect(say('cross-check', { what: 'usb-path', at: 'H1', from: ['board.U1.a'] })).toBe(
      'By the plan: Light hub H1 (behind the board tray) is connected through row a of USB header U1 on the board.',
    )
    expect(say('cross-check', { what: 'speed-from', at: 'board.SYS1', from: 'F1' })).toContain(
      'counts the speed of fan F1',
    )
  })

  it('the wiring sheet is explained where it is first met, and not again', () => {
    const leads = (n: number) =>
      say('expect', {
        what: 'leads',
        stage: 'before-power',
        n,
        of: 9,
        like: 1,
        numbers: ['1'],
        refs: ['F1.motor'],
        sockets: ['SYS1'],
        ends: [],
        seconds: 0,
      })
    expect(leads(1)).toContain(
      'The wiring sheet has all leads by number; "whichlead draw PLAN --sheet" prints it.',
    )
    expect(leads(2)).not.toContain('prints it')
  })

  it('cautions are told in full, one or several', () => {
    expect(say('caution', { id: 'five-volt-on-twelve' })).toContain('destroys the lights')
    expect(say('caution', { ids: ['live-plugging', 'manuals-first'] })).toMatch(/live[\s\S]*manual/u)
  })

  it('what has no sentence of its own is still told, never dropped, with its figures and units', () => {
    const said = say('finding', {
      rule: 'header-over-current',
      refs: ['board.SYS1'],
      figure: 1.3,
      limit: 1,
      unit: 'A',
    })
    for (const part of ['eader over current', 'header SYS1 on the board', '1.3 A', '1 A'])
      expect(said).toContain(part)
    expect(say('restored', { 'of-another-kind': 'F2' })).toContain('f another kind fan F2 (front-top)')
  })

  it('answers at odds are named with the steps as a person counts them', async () => {
    const view = {
      ...fakeSession().view(),
      trail: [7, 12, 19].map((seq) => ({ seq, prompt: askLit, reply: ['dark'], undone: false, notes: [] })),
    }
    const note = (what: string): Note => ({
      show: 'note',
      kind: 'conflict',
      facts: { what, refs: ['F3'], seqs: ['12', '19'] },
    })
    expect(english.note(note('disagree'), view)[0]).toBe(
      'At odds: What was answered about fan F3 (top-rear) (steps 2 and 3) does not fit the rest. It is looked at by another route.',
    )
    expect(english.note(note('nothing-fits'), view)[0]).toContain('No single cause')
    expect(english.trail(view.trail[2]!, view)).toMatch(/^3[.] /u)
  })

  it('facts from a plan bring no control bytes', () => {
    expect(say('finding', { rule: 'x', note: '\u001b[2Jgone\nnext' })).not.toMatch(/\p{Cc}/u)
  })
})

describe('reasons, the path so far, and handing over', () => {
  const at = async (replies: number) => {
    const session = fakeSession()
    const say = [['F3=dark'], ['new'], ['dark']]
    for (const ids of say.slice(0, replies)) await session.reply({ say: 'answer', ids })
    return session
  }

  it('why names minutes, what each answer would mean, and the evidence with its step', async () => {
    const session = await at(2)
    const said = english.why(session.why(), session.view()).join('\n')
    expect(said).toContain('a proven fix takes 7 minutes more')
    expect(said).toContain('Dark (expected 70 %): then 62 % for: The light plug of F3 not plugged in')
    expect(said).toContain('for, strongly: step 1.')
    expect(said).toContain('against, clearly: step 1.')
  })

  it('a step taken back is still there, and said to be', async () => {
    const session = await at(2)
    await session.reply({ say: 'undo' })
    const lines = session.view().trail.map((e) => english.trail(e, scene))
    expect(lines[0]).toBe('1. Which lights are dark, or lit only in part? – Fan F3 (top-rear): dark')
    expect(lines[1]).toBe('2. When did the lights go dark? – It is a new build (taken back)')
  })

  it('tells ways not to answer apart', () => {
    const entry = { seq: 1, prompt: askLit, undone: false, notes: [] }
    expect(english.trail({ ...entry, reply: 'unsure' }, scene)).toContain("– can't tell")
    expect(english.trail({ ...entry, reply: 'cannot' }, scene)).toContain("– can't do this here")
    expect(english.trail({ ...entry, prompt: doReseat, reply: 'done' }, scene)).toContain('– done')
    expect(english.trail({ ...entry, prompt: askMany, reply: [] }, scene)).toContain('– none of them')
  })

  it('what was marked alike is said together, and each in its own words where it is alone', () => {
    const entry = { seq: 1, prompt: askMany, undone: false, notes: [] }
    const said = (reply: readonly string[]) => english.trail({ ...entry, reply }, scene).split(' – ')[1]
    expect(said(['F1=dark', 'F2=dark', 'F4=part'])).toMatch(
      /^Dark: fans F1 \(front-bottom\) and F2 \(front-top\); Fan F4 \(.*\): lit in part$/u,
    )
    expect(said(['F1=dark'])).toBe('Fan F1 (front-bottom): dark')
  })

  it('the next person is told what is still changed on the build, and the notes', () => {
    const session = fakeSession(undefined, {
      inForce: [{ do: 'swap', a: 'F2.light', b: 'F3.light' }],
      suspects: [suspectUnplugged, suspectPort],
      trail: [{ seq: 1, prompt: askLit, reply: ['dark'], undone: false, notes: ['seen with a torch'] }],
    })
    const said = english.handingOver(session.view()).join('\n')
    expect(said).toContain(
      'Still changed on the build:\n  Exchange the light plugs of fans F2 (front-top) and F3 (top-rear)',
    )
    expect(said).toContain('Note: seen with a torch')
    expect(said).toContain('62 %  The light plug of fan F3 (top-rear) not plugged in')
  })

  it('never claims certainty, however sure it is', () => {
    expect(english.labels.percent(1)).toBe('over 99 %')
    expect(english.labels.percent(0)).toBe('under 1 %')
    expect(english.labels.minutes(0.5)).toBe('half a minute')
    expect(english.labels.minutes(1)).toBe('1 minute')
    expect(english.labels.minutes(7.4)).toBe('7 minutes')
  })

  it('marks the place in question on its path without colour', () => {
    const path = english.path(fakeSession().view().path, scene)
    expect(path).toBe(
      'plug 1 of supply lead SA > light hub H1 (behind the board tray) > >> the light plug of fan F3 (top-rear) [suspect] << > fan F3 (top-rear)',
    )
  })
})
