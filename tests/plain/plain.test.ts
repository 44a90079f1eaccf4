import { describe, expect, it } from 'vitest'
import { audit } from '../../src/core/audit/audit.ts'
import type { InputLine } from '../../src/plain/lines-in.ts'
import { runPlain } from '../../src/plain/plain.ts'
import { archivePlan } from '../support/archive-plan.ts'
import { askLit, askMany, doPowerOff, doReseat, fakeSession, lightsScript } from '../support/fake-session.ts'

/** A 5 V light lead in a 12 V header: 12 V on a chip whose limit is 5.3 V (data sheet of the common addressable LED, absolute ratings). */
const onTwelveVolts = {
  ...archivePlan,
  leads: archivePlan.leads.map((l) => (l.plug === 'F4.light' ? { ...l, socket: 'board.L2' } : l)),
}

async function* typed(...lines: string[]): AsyncGenerator<InputLine> {
  for (const text of lines) yield { text }
}

/** Runs a job on what is typed; gives what was written and what was said to the job. */
async function talk(lines: string[], session = fakeSession(), columns?: number) {
  const written: string[] = []
  const ended = await runPlain(session, {
    lines: typed(...lines),
    write: (text) => void written.push(text),
    ...(columns === undefined ? {} : { columns }),
  })
  return { text: written.join(''), said: session.said, ended, session }
}

const lastAnswer = (said: readonly { say: string; ids?: readonly string[] }[]) =>
  said.findLast((s) => s.say === 'answer')?.ids

describe('the job line by line', () => {
  it('goes from the first question to the proof', async () => {
    const { text, said, ended } = await talk(['F3', 'new', 'dark', 'done', 'no', 'done', 'done', 'whole'])
    expect(ended).toBe('fixed')
    expect(said.map((s) => s.say)).toEqual([
      'answer',
      'answer',
      'answer',
      'done',
      'answer',
      'done',
      'done',
      'answer',
    ])
    const order = [
      'Radio archive workstation. Lights dead on some fans.',
      'Which lights are dark',
      'Noted: Fan F3 (top-rear): dark.',
      'When did the lights go dark?',
      'Before your hands go into the case',
      'Likely cause (62 %)',
      'Repair: push the light plug of fan F3',
      'Fixed, and proven',
    ].map((s) => text.indexOf(s))
    expect(order.every((o) => o >= 0)).toBe(true)
    expect(order).toEqual([...order].sort((a, b) => a - b))
  })

  it('says power, hands, minutes and what is left before each question', async () => {
    const { text } = await talk(['F3', 'new'])
    expect(text).toContain(
      'Step 3. Power on, hands out of the case; it takes 1 minute. 2 causes still to tell apart.',
    )
  })

  it('says before a first boot that the power is not known, and offers nothing that a step does not take', async () => {
    const { text } = await talk(['?'], fakeSession([{ prompt: { ...doPowerOff, task: 'never-on' } }]))
    expect(text).toContain('Step 1. Power not known, hands')
    expect(text).toContain("can't do         this cannot be done here")
    expect(text).not.toContain("can't tell")
  })

  it('marks headers by their own names, and never all of the board by one word', async () => {
    const headers = {
      ...askMany,
      marks: ['board.CPU', 'board.SYS1', 'C1.fan1'].map((at) => ({
        id: `${at}=zero`,
        observe: { what: 'rpm' as const, at },
        value: 'zero',
      })),
    }
    const marked = async (line: string) =>
      lastAnswer((await talk([line], fakeSession([{ prompt: headers }]))).said)
    expect(await marked('SYS1')).toEqual(['board.SYS1=zero'])
    expect(await marked('cpu..sys1')).toEqual(['board.CPU=zero', 'board.SYS1=zero'])
    expect(await marked('C1')).toEqual(['C1.fan1=zero'])
    expect(await marked('board')).toBeUndefined()
  })

  it('lists things to mark one a line, and once how they can be marked', async () => {
    const { text } = await talk([])
    expect(text).toContain('  3. F3 (top-rear)\n  4. F4 (rear)\n')
    expect(text).toContain(
      'Each that you name is: dark; or, with the word after its name: part (lit in part).',
    )
  })

  it('only appends: no control byte ever', async () => {
    const { text } = await talk(['F3', 'new', 'why', 'path', '?', 'where'])
    expect(text.replace(/\n/g, '')).not.toMatch(/\p{Cc}/u)
  })

  it.each([
    ['F2 F3', ['F2=dark', 'F3=dark']],
    ['f2,f3', ['F2=dark', 'F3=dark']],
    ['F3 part', ['F3=part']],
    ['F1 F3 part', ['F1=dark', 'F3=part']],
    ['F1..F3', ['F1=dark', 'F2=dark', 'F3=dark']],
    ['1 3 part', ['F1=dark', 'F3=part']],
    ['2', ['F2=dark']],
    ['F2=part F4', ['F2=part', 'F4=dark']],
    ['F4 and F1', ['F1=dark', 'F4=dark']],
    ['none', []],
  ])('marks "%s"', async (line, ids) => {
    const { said } = await talk([line])
    expect(lastAnswer(said)).toEqual(ids)
  })

  it.each([
    ['F2 X9', '"x9" is not one of the answers'],
    ['F2 F2=part', '"F2" is marked in two ways'],
    ['99', 'There is no answer 99; they go from 1 to 4'],
    ['F2 99', 'There is no answer 99; they go from 1 to 4'],
    ['F2 whole', '"whole" is not one of the answers'],
  ])('takes nothing from "%s" and asks back', async (line, back) => {
    const { said, text } = await talk([line])
    expect(said.filter((s) => s.say === 'answer')).toEqual([])
    expect(text).toContain(back)
  })

  const asking = () => fakeSession([{ prompt: askLit }, { prompt: askLit }])

  it.each([
    ['1', 'dark'],
    ['dark', 'dark'],
    ['DARK', 'dark'],
    ['d', 'dark'],
    ['lit in', 'part'],
    ['lit all over', 'whole'],
    ['whole', 'whole'],
    ['fl', 'flicker'],
  ])('takes "%s" as the answer %s', async (line, id) => {
    const { said } = await talk([line], asking())
    expect(lastAnswer(said)).toEqual([id])
  })

  it('asks back where a beginning fits two, and where it fits none', async () => {
    const two = await talk(['lit'], asking())
    expect(lastAnswer(two.said)).toBeUndefined()
    expect(two.text).toContain('"lit" may be: Lit in part; Lit all over. Which one?')
    const none = await talk(['purple', '7'], asking())
    expect(lastAnswer(none.said)).toBeUndefined()
    expect(none.text).toContain('"purple" is not one of the answers')
    expect(none.text).toContain('There is no answer 7')
  })

  it.each([
    ["can't tell", 'unsure'],
    ['can’t tell', 'unsure'],
    ['unsure', 'unsure'],
    ["can't do", 'cannot'],
    ['skip', 'cannot'],
    ['hand over', 'hand-over'],
    ['leave', 'leave'],
    ['quit', 'leave'],
  ])('understands "%s"', async (line, say) => {
    const { said } = await talk([line], asking())
    expect(said[0]?.say).toBe(say)
  })

  it('takes an answer back, and says when there is none', async () => {
    const { text, session } = await talk(['undo', 'dark', 'undo', 'whole'], asking())
    expect(text).toContain('There is nothing to take back.')
    expect(text).toContain('Taken back.')
    expect(session.view().trail.map((e) => [e.reply, e.undone])).toEqual([
      [['dark'], true],
      [['whole'], false],
    ])
  })

  it('takes an earlier answer back by its step, after saying what goes with it, and only on a yes', async () => {
    const no = await talk(['F3', 'new', 'undo 1', 'no'])
    expect(no.text).toContain('These answers are taken back')
    expect(no.text).toContain('1. Which lights')
    expect(no.text).toContain('Nothing was taken back.')
    expect(no.said.map((s) => s.say)).toEqual(['answer', 'answer', 'leave'])
    const yes = await talk(['F3', 'new', 'take back 2', 'yes', 'new', 'undo 1', 'YES'])
    expect(yes.said.filter((s) => s.say === 'undo')).toEqual([
      { say: 'undo', seq: 2 },
      { say: 'undo', seq: 1 },
    ])
  })

  it('says which answers stand where the step named has none', async () => {
    const { text, said } = await talk(['F3', 'undo 7', 'undo 0', 'new'])
    expect(text).toContain('The answer of step 7 cannot be taken back now. Answers that stand: step 1')
    expect(text).toContain('The answer of step 0')
    expect(said.map((s) => s.say)).toEqual(['answer', 'answer', 'leave'])
  })

  it('keeps notes as they were typed', async () => {
    const { said, text } = await talk(['note Behind the  cover, "tight"', 'note'], asking())
    expect(said[0]).toEqual({ say: 'note', text: 'Behind the  cover, "tight"' })
    expect(text).toContain('Write the note after the word')
  })

  it('shows why, the path so far and where, and the question stands', async () => {
    const { text, said } = await talk(['F3', 'new', 'why', 'path', 'where'])
    expect(said.filter((s) => s.say === 'answer')).toHaveLength(2)
    expect(text).toContain('What each answer would mean:')
    expect(text).toContain('for, strongly: step 1. Which lights')
    expect(text).toContain('2. When did the lights go dark? – It is a new build')
    expect(text).toContain('>> the light plug of fan F3 (top-rear) [suspect] <<')
  })

  it('does not take an answer for a thing to do, nor "done" for a question', async () => {
    const { said, text } = await talk(['done'], asking())
    expect(said.some((s) => s.say === 'done')).toBe(false)
    expect(text).toContain('"done" is not one of the answers')
    const step = await talk(['dark', "can't tell", '2'], fakeSession([{ prompt: doReseat }]))
    expect(step.said.map((s) => s.say)).toEqual(['leave'])
  })

  it('the end of the input leaves the job and says how to take it up again', async () => {
    const { ended, text, said } = await talk(['F3'])
    expect(ended).toBe('left')
    expect(said.at(-1)?.say).toBe('leave')
    expect(text).toContain('whichlead resume archive-lights-dark.job.ndjson')
  })

  it('tells a thing once, also when the job is left right after it', async () => {
    const note = { show: 'note', kind: 'cross-check', facts: { what: 'fed', at: 'F3', from: 'H1' } } as const
    const told = [note]
    const { text } = await talk(['leave'], fakeSession([{ told, prompt: askLit }], { told }))
    expect(text.split('is fed from')).toHaveLength(2)
  })

  it('tells before the first question what would damage parts, and the rest when asked', async () => {
    const session = () => fakeSession([{ prompt: askLit }], { findings: audit(onTwelveVolts) })
    const { text } = await talk([], session())
    expect(text.indexOf('will damage')).toBeGreaterThan(0)
    expect(text.indexOf('will damage')).toBeLessThan(text.indexOf('Step 1.'))
    expect(text).toContain('Switch the machine off now')
    expect(text).toMatch(/To do: .*\n(?:.*\n)*Step 1\. Power not known,/u)
    const all = await talk(['findings'], session())
    expect(all.text.split('To do:').length).toBeGreaterThan(text.split('To do:').length)
    expect((await talk(['findings'], fakeSession())).text).toContain('The audit of the plan found nothing.')
  })

  it('hands over with a page for the next person', async () => {
    const { text, ended } = await talk(['F3', 'new', 'hand over'])
    expect(ended).toBe('handed-over')
    expect(text).toContain('Handing over: Radio archive workstation, lights dead on some fans')
    expect(text).toContain('1. Which lights are dark, or lit only in part? – F3: dark')
  })

  it('says that a line is no text or has no end, and goes on', async () => {
    const session = asking()
    const written: string[] = []
    await runPlain(session, {
      lines: (async function* (): AsyncGenerator<InputLine> {
        yield { trouble: 'not-text' }
        yield { trouble: 'too-long' }
        yield { text: 'dark' }
      })(),
      write: (t) => void written.push(t),
    })
    expect(written.join('')).toContain('That line is not text.')
    expect(written.join('')).toContain('That line is too long.')
    expect(lastAnswer(session.said)).toEqual(['dark'])
  })

  it('tells the cautions with the step, in full', async () => {
    const { text } = await talk([], fakeSession([{ prompt: doPowerOff }]))
    for (const id of ['Never plug live', 'The supply stays shut', '5 V lights', 'manuals come first'])
      expect(text).toContain(id)
  })

  it.each([60, 80])('breaks lines between words at %i columns', async (columns) => {
    const { text } = await talk(['F3', 'new', 'why', 'dark', 'done'], fakeSession(lightsScript), columns)
    for (const line of text.split('\n')) expect(line.length).toBeLessThanOrEqual(columns)
  })
})
