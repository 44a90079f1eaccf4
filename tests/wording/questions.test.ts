import { describe, expect, it } from 'vitest'
import { valuesOf, type What } from '../../src/core/bench/observable.ts'
import type { Ask } from '../../src/core/checks/prompt.ts'
import { english } from '../../src/wording/en/english.ts'
import { archivePlan } from '../support/archive-plan.ts'
import { askLit, askMany, askSince } from '../support/fake-session.ts'

const scene = { plan: archivePlan }

const placeOf: Readonly<Record<What, string>> = {
  spins: 'F2',
  steady: 'F2',
  rpm: 'board.SYS1',
  lit: 'F2',
  flickers: 'F2',
  shows: 'F2',
  effect: 'H1',
  answers: 'H1.3',
  goes: 'F2.light',
  listed: 'H1',
  follows: 'board.SYS1',
  volts: 'board.SYS1/12V',
  seated: 'F2.light',
  'when-moved': 'F2.light',
  setting: 'headers/SYS1/drive',
  alarm: 'board.CPU',
}

const openValues: Readonly<Partial<Record<What, readonly string[]>>> = {
  answers: ['none', 'F1', 'F1+F2'],
  goes: ['none', 'H1.2', 'board.L1'],
  setting: ['pwm', 'dc', '[[30,40],[70,100]]', '[8,8]', 'running'],
}

const ask = (what: What, at: string, power: 'on' | 'off', values: readonly string[]): Ask => ({
  ...askLit,
  power,
  hands: power === 'off' ? 'in' : 'out',
  observe: [{ what, at }],
  answers: values.map((v) => ({ id: v, means: [v] })),
})

describe('questions in words', () => {
  it('a lead of the supply is pressed home at the supply, not somewhere along it', () => {
    expect(english.question(ask('seated', 'supply.SA', 'off', ['yes', 'no']), scene).title).toBe(
      'Look at the supply, where supply lead SA is plugged in, and press on that plug. Is it home in its socket?',
    )
  })

  it.each(Object.keys(valuesOf) as What[])(
    '%s is asked with its place, and every value reads differently',
    (what) => {
      const values = valuesOf[what] ?? openValues[what] ?? []
      for (const power of ['on', 'off'] as const) {
        const question = ask(what, placeOf[what], power, values)
        const { title } = english.question(question, scene)
        expect(title).toMatch(/[?]$/u)
        const named = english.ref(
          placeOf[what].split('/')[0] === 'headers' ? 'board.SYS1' : placeOf[what].split('/')[0]!,
          scene,
        )
        // A lead is asked for by its plug's part.
        expect(title).toContain(what === 'goes' ? 'F2 (front-top)' : named)
        const said = values.map((v) => english.answer(question, v, scene))
        for (const s of said) expect(s).toMatch(/^\S.*\S$/u)
        if (!(what === 'spins' && power === 'off')) expect(new Set(said).size).toBe(values.length)
      }
    },
  )

  it('with the mains off a fan is turned by hand, not watched', () => {
    const question = ask('spins', 'F2', 'off', ['no', 'twitches', 'normal'])
    expect(english.question(question, scene).title).toBe(
      'Turn the blades of fan F2 (front-top) with a finger. How do they go?',
    )
    expect(english.answer(question, 'no', scene)).toBe('Stiff: will not turn')
  })

  it('several things seen at once are told together where they look the same', () => {
    const question: Ask = {
      ...askLit,
      observe: ['F1', 'F2', 'F3'].map((at) => ({ what: 'lit', at })),
      answers: [
        { id: 'a', means: ['whole', 'dark', 'whole'] },
        { id: 'b', means: [null, 'dark', null] },
        { id: 'c', means: [null, null, null] },
      ],
    }
    expect(english.question(question, scene).title).toBe(
      'Look at the lights of fans F1 (front-bottom), F2 (front-top) and F3 (top-rear). What do you see?',
    )
    expect(english.answer(question, 'a', scene)).toBe(
      'Fans F1 (front-bottom) and F3 (top-rear): lit all over; fan F2 (front-top): dark',
    )
    expect(english.answer(question, 'b', scene)).toBe('Fan F2 (front-top): dark')
    expect(english.answer(question, 'c', scene)).toBe('Something else')
  })

  it('asks which of many hold, and names each with its state', () => {
    expect(english.question(askMany, scene).title).toBe('Which lights are dark, or lit only in part?')
    expect(english.answer(askMany, 'F2=dark', scene)).toBe('Fan F2 (front-top): dark')
  })

  it('asks about the past in words that a person would use', () => {
    expect(english.question(askSince, scene).title).toBe('When did the lights go dark?')
    expect(english.answer(askSince, 'new', scene)).toBe('It is a new build')
    for (const about of ['worked', 'comes-and-goes', 'spare', 'tool', 'consent'] as const)
      expect(english.question({ ...askSince, about, at: 'F2' }, scene).title).toMatch(/[?]$/u)
  })

  it('says why something is asked again, and that a proof is one', () => {
    expect(english.question({ ...askLit, again: 'conflict' }, scene).again).toContain('do not fit together')
    expect(english.question({ ...askLit, stage: 'proof' }, scene).hints[0]).toContain('proof')
  })

  it('leaves a part its own spelling at the start of a sentence', () => {
    const plan = {
      ...archivePlan,
      parts: archivePlan.parts.map((p) => (p.id === 'F2' ? { ...p, id: 'fan2' } : p)),
    }
    expect(english.sighting({ what: 'lit', at: 'fan2' }, 'dark', 'on', { plan })).toBe(
      'fan2 (front-top): dark',
    )
  })

  it('says what a look over several kinds goes over, and that it is the proof', () => {
    const marks = [
      { id: 'F1:dark', observe: { what: 'lit', at: 'F1' }, value: 'dark' },
      { id: 'SYS1:zero', observe: { what: 'rpm', at: 'board.SYS1' }, value: 'zero' },
      { id: 'F1:stored', observe: { what: 'shows', at: 'F1' }, value: 'stored' },
    ] as const
    const { title, hints } = english.question({ ...askMany, stage: 'proof', marks }, scene)
    expect(title).toBe('Which lights, speeds and patterns are not right?')
    expect(hints[0]).toBe('This is the proof: is all of this right now?')
    const watched = [
      { id: 'F1:flicker', observe: { what: 'flickers', at: 'F1' }, value: 'yes' },
      ...marks.slice(0, 1),
    ] as const
    expect(english.question({ ...askMany, stage: 'proof', marks: watched }, scene).title).toBe(
      'Which lights (watched for a minute) and lights at a glance are not right?',
    )
  })
})
