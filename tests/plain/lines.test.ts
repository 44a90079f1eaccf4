import { describe, expect, it } from 'vitest'
import * as z from 'zod/mini'
import { runLines } from '../../src/plain/lines.ts'
import type { InputLine } from '../../src/plain/lines-in.ts'
import { toolLine } from '../../src/plain/protocol.ts'
import {
  askLit,
  askMany,
  doPowerOff,
  fakeSession,
  lightsScript,
  type ScriptStep,
} from '../support/fake-session.ts'

type Line = Record<string, unknown> & { type: string }

async function drive(lines: readonly (string | object)[], script: readonly ScriptStep[] = lightsScript) {
  const session = fakeSession(script)
  const out: Line[] = []
  const ended = await runLines(
    session,
    {
      lines: (async function* (): AsyncGenerator<InputLine> {
        for (const line of lines) yield { text: typeof line === 'string' ? line : JSON.stringify(line) }
      })(),
      write: (text) => {
        expect(text.endsWith('\n')).toBe(true)
        expect(text.indexOf('\n')).toBe(text.length - 1)
        out.push(JSON.parse(text) as Line)
      },
    },
    'archive.build.yaml',
  )
  return { out, said: session.said, ended, session }
}

const ofType = (out: readonly Line[], type: string) => out.filter((l) => l.type === type)

const answersOf = (line: Line | undefined) => (line?.answers ?? []) as { id: string }[]

const wholeJob = [
  { answers: ['F3=dark'] },
  { answer: 'new' },
  { answer: 'dark' },
  { done: true },
  { answer: 'no' },
  { done: true },
  { done: true },
  { answer: 'whole' },
]

describe('the line protocol', () => {
  it('runs a job from hello to end, every line as its schema says', async () => {
    const { out, ended } = await drive(wholeJob)
    expect(ended).toBe('fixed')
    expect(out[0]).toMatchObject({
      type: 'hello',
      protocol: 1,
      plan: 'archive.build.yaml',
      symptom: 'lights-dark',
    })
    expect(out.at(-1)).toMatchObject({ type: 'end', outcome: 'fixed', log: 'archive-lights-dark.job.ndjson' })
    for (const line of out) z.strictObject(toolLine[line.type as keyof typeof toolLine].shape).parse(line)
    expect(out.map((l) => l.type)).toEqual([
      'hello',
      'ask',
      'ask',
      'note',
      'ask',
      'do',
      'ask',
      'verdict',
      'do',
      'do',
      'ask',
      'end',
    ])
  })

  it('asks with what is looked at and what each answer means', async () => {
    const { out } = await drive([], [{ prompt: askLit }])
    expect(out[1]).toMatchObject({
      type: 'ask',
      id: 'lit-F3',
      many: false,
      observe: [{ what: 'lit', at: 'F3' }],
      power: 'on',
      hands: 'out',
      minutes: 1,
    })
    expect(out[1]?.answers).toEqual([
      { id: 'dark', text: 'Dark', means: ['dark'] },
      { id: 'part', text: 'Lit in part', means: ['part'] },
      { id: 'whole', text: 'Lit all over', means: ['whole'] },
      { id: 'flicker', text: 'Flickers', means: ['flicker'] },
    ])
  })

  it('with many, each answer names its observable and value, and the question names each observable once', async () => {
    const { out } = await drive([], [{ prompt: askMany }])
    expect(out[1]).toMatchObject({
      many: true,
      observe: ['F1', 'F2', 'F3', 'F4'].map((at) => ({ what: 'lit', at })),
    })
    expect(answersOf(out[1])[1]).toEqual({
      id: 'F1=part',
      text: 'Fan F1 (front-bottom): lit in part',
      observe: { what: 'lit', at: 'F1' },
      means: ['part'],
    })
  })

  it('asks about the past with nothing to observe', async () => {
    const { out } = await drive([{ answers: [] }])
    expect(out[2]).toMatchObject({ type: 'ask', about: 'since', observe: [], many: false })
    expect(answersOf(out[2]).map((a) => a.id)).toEqual(['new', 'changed', 'suddenly'])
  })

  it('writes edits in the words of the protocol; power off is a do of its own', async () => {
    const { out } = await drive(wholeJob)
    const steps = ofType(out, 'do')
    expect(steps.map((s) => s.edits)).toEqual([['power off'], ['reseat F3.light'], ['power on']])
    expect(steps.map((s) => [s.power, s.hands])).toEqual([
      ['off', 'out'],
      ['off', 'in'],
      ['on', 'out'],
    ])
  })

  it('gives suspects with those that cannot be told from them, and the repair', async () => {
    const { out } = await drive(wholeJob)
    expect(ofType(out, 'verdict')[0]).toMatchObject({
      suspects: [
        { faults: [{ at: 'F3.light', mode: 'unplugged' }], p: 0.62, alike: [] },
        {
          faults: [{ at: 'H1.3', mode: 'dead' }],
          p: 0.24,
          alike: [{ faults: [{ at: 'F3.light', mode: 'open-DATA' }] }],
        },
      ],
      repair: { edits: ['reseat F3.light'] },
    })
  })

  it.each([
    ['not json', 'not a JSON object'],
    ['[]', 'not a JSON object'],
    ['"dark"', 'not a JSON object'],
    ['{}', 'none of the known words'],
    ['{"answer":5}', 'the value of "answer" does not fit'],
    ['{"unsure":false}', 'the value of "unsure" does not fit'],
    ['{"answer":"dark","unsure":true}', 'one word at a time'],
    ['{"answer":"purple"}', 'no such answer'],
    ['{"answers":["dark","part"]}', 'One answer is wanted'],
    ['{"done":true}', 'a question, not a thing to do'],
    ['{"note":"  "}', 'the value of "note" does not fit'],
    ['{"undo":true}', 'nothing to take back'],
    ['{"toString":true}', 'none of the known words'],
  ])('answers %s with a problem, and the question stands', async (line, text) => {
    const { out, said } = await drive([line, { answer: 'dark' }], [{ prompt: askLit }])
    expect(ofType(out, 'problem')).toHaveLength(1)
    expect(ofType(out, 'problem')[0]?.text).toContain(text)
    // It is not asked a second time: what stands is what was asked last.
    expect(ofType(out, 'ask')).toHaveLength(1)
    expect(said).toEqual([{ say: 'answer', ids: ['dark'] }])
    expect(out.at(-1)).toMatchObject({ type: 'end', outcome: 'fixed' })
  })

  it('does not take an answer for a thing to do', async () => {
    const { out } = await drive(
      [{ answer: 'dark' }, { unsure: true }, { done: true }],
      [{ prompt: doPowerOff }],
    )
    expect(ofType(out, 'problem').map((p) => (p.expected as string[])[0])).toEqual([
      '{"done":true}',
      '{"done":true}',
    ])
    expect(out.at(-1)).toMatchObject({ outcome: 'fixed' })
  })

  it('ignores unknown fields, blank lines, a byte order mark and carriage returns', async () => {
    const { said } = await drive(
      ['', '\ufeff{"answer":"dark","thought":"it is dark"} '],
      [{ prompt: askLit }],
    )
    expect(said).toEqual([{ say: 'answer', ids: ['dark'] }])
  })

  it('numbers what is asked and done, and takes an earlier answer back by that number', async () => {
    const { out, said } = await drive([
      { answers: ['F3=dark'] },
      { answer: 'new' },
      { without: 1 },
      { undo: 1 },
      { answers: [] },
      { leave: true },
    ])
    expect(ofType(out, 'ask').map((a) => a.step)).toEqual([1, 2, 3, 3, 4])
    const taken = ofType(out, 'take-back')
    expect(taken).toMatchObject([
      { step: 1, takes: [1, 2] },
      { step: 1, takes: [1, 2] },
    ])
    for (const line of taken) expect(toolLine['take-back'].safeParse(line).error).toBeUndefined()
    expect(taken[0]?.text).toContain('These answers are taken back')
    expect(said.map((s) => s.say)).toEqual(['answer', 'answer', 'undo', 'answer', 'leave'])
    // It is said before the question that follows, not after it.
    expect(out.indexOf(taken[1] as Line)).toBe(out.findLastIndex((l) => l.id === 'which-dark') - 1)
  })

  it('says which answers stand where the step named has none', async () => {
    const { out } = await drive([{ answers: ['F3=dark'] }, { undo: 9 }, { without: 2 }, { leave: true }])
    const problems = ofType(out, 'problem')
    expect(problems.map((p) => p.expected)).toEqual([['{"undo":1}'], ['{"undo":1}']])
  })

  it('takes unsure, cannot, undo, a note and leave at any time', async () => {
    const { out, said } = await drive([
      { unsure: true },
      { cannot: true },
      { undo: true },
      { note: 'hard to see' },
      { leave: true },
    ])
    expect(said.map((s) => s.say)).toEqual(['unsure', 'cannot', 'undo', 'note', 'leave'])
    expect(out.at(-1)).toMatchObject({ type: 'end', outcome: 'left' })
    expect(ofType(out, 'problem')).toEqual([])
    expect(ofType(out, 'ask').map((a) => a.id)).toEqual(['which-dark', 'since', 'lit-F3', 'since'])
  })

  it('says why in figures and in words, and the question stands', async () => {
    const { out } = await drive([{ why: true }, { answer: 'dark' }], [{ prompt: askLit }])
    const [why] = ofType(out, 'why')
    expect(why).toMatchObject({
      minutes: 6.5,
      replies: [
        { id: 'dark', p: 0.7 },
        { id: 'whole', p: 0.3 },
      ],
    })
    expect(ofType(out, 'ask')).toHaveLength(1)
  })

  it('leaves the job when the input ends, with an end of its own', async () => {
    const { out, said } = await drive([{ answers: [] }])
    expect(said.at(-1)).toEqual({ say: 'leave' })
    expect(out.at(-1)).toMatchObject({ type: 'end', outcome: 'left' })
  })
})
