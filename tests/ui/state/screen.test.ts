import { describe, expect, test } from 'vitest'
import { english } from '../../../src/wording/en/english.ts'
import {
  askLit,
  askMany,
  askSeated,
  askSince,
  doPowerOff,
  doReseat,
  type ScriptStep,
  verdict,
} from '../../support/fake-session.ts'
import fc from '../../support/fast-check.ts'
import { waitFor } from '../../support/wait-for.ts'
import { screenAt } from './screen-at.ts'

const one: readonly ScriptStep[] = [{ prompt: askLit }, { prompt: askSince }]
const many: readonly ScriptStep[] = [{ prompt: askMany }, { prompt: askSince }]
const gate: readonly ScriptStep[] = [{ prompt: { ...doPowerOff, cautions: [] } }, { prompt: askSeated }]

describe('a question with one answer', () => {
  test('what is highlighted is what is recorded, in a burst as one by one', async () => {
    const moves = fc.array(
      fc.constantFrom('↓', '↑', 'j', 'k', '1', '2', '3', '4', '5', '6', '7', '9', '0', ' '),
      {
        maxLength: 12,
      },
    )
    await fc.assert(
      fc.asyncProperty(moves, async (keys) => {
        const slow = screenAt(one)
        await slow.type(keys.join(''))
        const shown = slow.pointed()
        await slow.type('⏎')
        const fast = screenAt(one)
        fast.burst(`${keys.join('')}⏎`)
        await fast.settle()
        expect(fast.session.said).toEqual(slow.session.said)
        const [said] = slow.session.said
        const words: Readonly<Record<string, string>> = {
          dark: 'Dark',
          part: 'Lit in part',
          whole: 'Lit all over',
          flicker: 'Flickers',
          unsure: "Can't tell  (c)",
          cannot: "Can't do this here  (x)",
        }
        const id = said?.say === 'answer' ? said.ids[0] : said?.say
        expect(shown).toMatch(new RegExp(`^▸ \\d {2}${words[id ?? '']?.replace(/[()]/g, '\\$&')}$`))
      }),
      { numRuns: 60 },
    )
  })

  test('a digit only highlights', async () => {
    const at = screenAt(one)
    await at.type('3')
    expect(at.pointed()).toBe('▸ 3  Lit all over')
    expect(at.session.said).toEqual([])
  })

  test('keys typed before the next question is on the screen are not answers to it', async () => {
    const at = screenAt(one)
    at.burst('2⏎3⏎2⏎')
    await at.settle()
    expect(at.session.said).toEqual([{ say: 'answer', ids: ['part'] }])
    expect(at.text()).toContain('When did the lights go dark?')
    await at.type('3⏎')
    expect(at.session.said).toHaveLength(2)
  })

  test('a held Enter does not answer questions that nobody has read', async () => {
    let clock = 0
    const at = screenAt([{ prompt: askLit }, { prompt: askSince }, { prompt: askLit }], { now: () => clock })
    for (let i = 0; i < 8; i++) {
      await at.type('⏎')
      clock += 33
    }
    expect(at.text()).toContain('Recorded: Dark – u takes it back; second Enter not taken')
    expect(at.session.said).toHaveLength(1)
    clock += 2000
    await at.type('⏎')
    expect(at.session.said).toHaveLength(2)
  })

  test('nor does its first repeat, which comes late; by itself an Enter as late counts', async () => {
    let clock = 0
    const at = screenAt([{ prompt: askLit }, { prompt: askSince }, { prompt: askLit }], { now: () => clock })
    await at.type('⏎')
    clock += 500
    await at.type('⏎')
    clock += 33
    await at.type('⏎')
    expect(at.text()).toContain('Recorded: Dark – u takes it back; second Enter not taken')
    expect(at.session.said).toHaveLength(1)
    clock += 500
    await at.type('⏎')
    await waitFor(() => expect(at.session.said).toHaveLength(2))
  })

  test.each([1, 60, 130, 200])(
    'nor does one tapped twice, %i ms apart; other keys between are meant',
    async (gap) => {
      let clock = 0
      const at = screenAt([{ prompt: askLit }, { prompt: askSince }, { prompt: askLit }], {
        now: () => (clock += gap),
      })
      await at.type('2⏎⏎')
      expect(at.session.said).toEqual([{ say: 'answer', ids: ['part'] }])
      expect(at.text()).toContain('Recorded: Lit in part – u takes it back; second Enter not taken')
      await at.type('3⏎2⏎')
      expect(at.session.said.slice(1)).toEqual([
        { say: 'answer', ids: ['suddenly'] },
        { say: 'answer', ids: ['part'] },
      ])
    },
  )

  test('what a page of remarks covers is not answered by the tap that closes the page', async () => {
    let clock = 0
    const told = [verdict]
    const at = screenAt([{ prompt: askLit }, { told, prompt: doReseat }], { now: () => (clock += 100) })
    await at.type('⏎↓⏎')
    expect(at.text()).not.toContain('Remarks')
    await at.type('⏎')
    expect(at.session.said).toHaveLength(1)
    clock += 1000
    await at.type('⏎')
    expect(at.session.said.at(-1)).toEqual({ say: 'done' })
  })

  test('on the smallest screen too it is said what the first tap recorded, and that the second was not taken', async () => {
    const at = screenAt([{ prompt: askLit }, { prompt: askSince }], { columns: 60, rows: 20, now: () => 0 })
    await at.type('2⏎⏎')
    expect(at.lines()).toContain('Recorded: Lit in part; second Enter not taken')
  })

  test('that nothing is marked is not confirmed by a key tapped twice, but by one pressed once more', async () => {
    let clock = 0
    const at = screenAt([{ prompt: askMany }, { prompt: askSince }], { now: () => clock })
    for (let i = 0; i < 8; i++) {
      await at.type('⏎')
      clock += 33
    }
    expect(at.text()).toContain('Nothing is marked')
    expect(at.session.said).toEqual([])
    clock += 1000
    await at.type('⏎')
    expect(at.session.said).toEqual([{ say: 'answer', ids: [] }])
  })

  test('a step that is read over two pages is not done by the tap that turns the page', async () => {
    const long = { ...doPowerOff, purpose: 'repair' as const }
    let clock = 0
    const at = screenAt([{ prompt: long }, { prompt: askSince }], { columns: 60, rows: 20, now: () => clock })
    await at.type('⏎⏎')
    expect(at.session.said).toEqual([])
    for (let i = 0; i < 4 && at.session.said.length === 0; i++) {
      clock += 1000
      await at.type('⏎')
    }
    expect(at.session.said).toEqual([{ say: 'done' }])
  })

  test('remarks that were read are offered to be read again, not as new', async () => {
    const at = screenAt([{ prompt: askLit }, { told: [verdict], prompt: doReseat }], {
      columns: 60,
      rows: 20,
    })
    await at.type('⏎')
    expect(at.text()).toContain('Remarks')
    await at.type('⏎')
    expect(at.text()).toContain('1 remark read – m shows it again')
  })

  test('one key says that it cannot be told, one that it cannot be done here', async () => {
    const at = screenAt(one)
    await at.type('cx')
    expect(at.session.said).toEqual([{ say: 'unsure' }, { say: 'cannot' }])
  })

  test('one key takes the last answer back, and the question stands again', async () => {
    const at = screenAt(one)
    await at.type('1⏎u')
    expect(at.session.said.at(-1)).toEqual({ say: 'undo' })
    expect(at.text()).toContain('Look at the lights of fan F3')
    expect(at.text()).toContain('1 answer taken back')
  })

  test('with nothing to take back it says so', async () => {
    const at = screenAt(one)
    await at.type('u')
    expect(at.text()).toContain('There is nothing to take back.')
    expect(at.session.said).toEqual([])
  })

  test('answers are narrowed by typing; the highlighted one is still the recorded one', async () => {
    const at = screenAt(one)
    await at.type('/lit⏎')
    expect(at.text()).toContain('Lit in part')
    expect(at.text()).not.toContain('Dark')
    expect(at.pointed()).toBe('▸ 1  Lit in part')
    await at.type('↓⏎')
    expect(at.session.said).toEqual([{ say: 'answer', ids: ['whole'] }])
  })

  test('letters of a filter or a note are text, not keys', async () => {
    const at = screenAt(one)
    await at.type('nquick xcu⌫w⏎')
    expect(at.session.said).toEqual([{ say: 'note', text: 'quick xcw' }])
    expect(at.text()).toContain('Note kept.')
    await at.type('/q⎋')
    expect(at.text()).toContain('Dark')
  })
})

describe('a question with several', () => {
  test('places are marked one after the other and recorded together', async () => {
    const at = screenAt(many)
    await at.type('1 3  ⏎')
    expect(at.session.said).toEqual([{ say: 'answer', ids: ['F1=dark', 'F3=part'] }])
  })

  test('marks go round: dark, in part, none', async () => {
    const at = screenAt(many)
    await at.type(' ')
    expect(at.text()).toMatch(/1 \[●\] F1: dark/u)
    await at.type(' ')
    expect(at.text()).toContain('[◐] F1: in part')
    await at.type(' ')
    expect(at.text()).toContain('[ ] F1 ')
  })

  test('on the map the arrows go where they point', async () => {
    const at = screenAt(many)
    await at.type('1')
    expect(at.pointed()).toContain('F1')
    await at.type('↑')
    expect(at.pointed()).toContain('F2')
    await at.type('←')
    expect(at.pointed()).toContain('F4')
    await at.type('↑')
    expect(at.pointed()).toContain('F3')
  })

  test('none is an answer, but Enter must be pressed twice for it', async () => {
    const at = screenAt(many)
    await at.type('⏎')
    expect(at.session.said).toEqual([])
    expect(at.text()).toContain('if all is right, Enter again')
    await at.type('↓⏎')
    expect(at.session.said).toEqual([])
    await at.type('⏎')
    expect(at.session.said).toEqual([{ say: 'answer', ids: [] }])
  })

  test('what is marked on the screen is what is recorded, in bursts too', async () => {
    const keys = fc.array(fc.constantFrom('1', '2', '3', '4', ' ', '↓', '↑', '←', '→', 'j', 'k'), {
      maxLength: 20,
    })
    await fc.assert(
      fc.asyncProperty(keys, async (pressed) => {
        const slow = screenAt(many)
        await slow.type(pressed.join(''))
        const shown = [...slow.text().matchAll(/\[([●◐])\] (F\d)/gu)].map(
          ([, mark, at]) => `${at}=${mark === '●' ? 'dark' : 'part'}`,
        )
        const fast = screenAt(many)
        fast.burst(`${pressed.join('')}⏎`)
        await fast.settle()
        if (shown.length === 0) expect(fast.session.said).toEqual([])
        else {
          const [said] = fast.session.said
          expect(said?.say === 'answer' && [...said.ids].sort()).toEqual(shown.sort())
        }
      }),
      { numRuns: 60 },
    )
  })
})

describe('a power gate', () => {
  test('takes no key before the keyboard has been quiet, and shows nothing to take', async () => {
    const at = screenAt(gate, { settleMs: 60_000 })
    at.burst('j⏎2⏎⏎')
    await at.settle()
    expect(at.text()).toContain('Read this first')
    expect(at.text()).not.toContain('All of this is done')
    expect(at.session.said).toEqual([])
  })

  test('Enter alone passes no gate: done has to be chosen', async () => {
    const at = screenAt(gate)
    await waitFor(() => expect(at.text()).toContain('All of this is done'))
    await at.type('⏎')
    expect(at.session.said).toEqual([])
    expect(at.text()).toContain('Do what it says first')
    await at.type('↓⏎')
    expect(at.session.said).toEqual([{ say: 'done' }])
    expect(at.text()).toContain('POWER OFF')
  })

  test('a gate is not passed by what was typed ahead at the question before it', async () => {
    await fc.assert(
      fc.asyncProperty(
        fc.array(fc.constantFrom('⏎', '↓', 'j', '1', '2', ' ', 'y'), { maxLength: 20 }),
        async (keys) => {
          const at = screenAt([{ prompt: askLit }, ...gate], { settleMs: 60_000 })
          at.burst(`⏎${keys.join('')}`)
          await at.settle()
          at.burst(keys.join(''))
          expect(at.session.said).toEqual([{ say: 'answer', ids: ['dark'] }])
        },
      ),
      { numRuns: 40 },
    )
  })

  test('its cautions are read to the end before it can be passed', async () => {
    const at = screenAt([{ prompt: doPowerOff }, { prompt: askSeated }], { columns: 60, rows: 20 })
    await waitFor(() => expect(at.text()).toContain('All of this is done'))
    const seen = new Set(at.lines())
    await at.type('2⏎')
    expect(at.session.said).toEqual([])
    for (let i = 0; i < 9 && at.session.said.length === 0; i++) {
      for (const line of at.lines()) seen.add(line)
      await at.type('⏎')
    }
    expect(at.session.said).toEqual([{ say: 'done' }])
    const all = [...seen].join('\n')
    for (const title of [
      'Before your hands go into the case',
      'Never plug live',
      'The supply stays shut',
      'manuals',
    ])
      expect(all).toContain(title)
  })
})

describe('what lies over the question', () => {
  test('each opens with its key and closes with Escape, and no answer is lost or given', async () => {
    const heads: Readonly<Record<string, string>> = {
      '?': 'Words and keys here',
      w: 'Why this step',
      p: 'So far',
      n: 'A note for the log',
      r: 'Hand in a reading',
      d: 'Wiring of the build',
      e: 'Seen, and what the plan says',
      q: 'Leave?',
      h: 'Hand over?',
    }
    for (const [key, head] of Object.entries(heads)) {
      const at = screenAt(many)
      await at.type(`2 ${key}`)
      expect(at.text()).toContain(head)
      await at.type('⎋')
      expect(at.text()).toContain('Which lights are dark')
      expect(at.text()).toContain('[●] F2: dark')
      expect(at.session.said).toEqual([])
    }
  })

  test('the path so far lists each answer, and any of them can be taken back with what came after', async () => {
    const at = screenAt()
    await at.type('1 ⏎2⏎1⏎')
    await at.type('pk')
    expect(at.text()).toContain('2. When did the lights go dark?')
    await at.type('u')
    const asked = at.text()
    expect(asked).toContain('are taken back')
    expect(asked).not.toContain('1. Which lights')
    expect(asked).toContain('2. When did the lights go dark?')
    expect(asked).toContain('3. Look at the lights of fan F3')
    await at.type('⏎')
    expect(at.session.said.filter((s) => s.say === 'undo')).toEqual([{ say: 'undo', seq: 2 }])
    expect(at.text()).toContain('2 answers taken back')
    expect(at.text()).toContain('When did the lights go dark?')
  })

  test('before an answer is taken back it is shown what that does to the suspects', async () => {
    const at = screenAt()
    await at.type('1 ⏎1⏎')
    await at.type('pu')
    expect(at.text()).toContain('What it does to the suspects')
    expect(at.text()).toMatch(/62 % → under 1 %: The light plug of fan F3/u)
    await at.type('⎋')
    expect(at.text()).toContain('So far')
    expect(at.session.said.some((s) => s.say === 'undo')).toBe(false)
  })

  test('after a step the remark says that undo takes back the answer before it, not the step', async () => {
    const at = screenAt([{ prompt: askLit }, { prompt: doReseat }, { prompt: askSeated }])
    await at.type('1⏎')
    expect(at.text()).toContain('u takes it back')
    await at.type('⏎')
    expect(at.text()).toContain('Recorded: Done – u takes the last answer back, not this')
  })

  test('a verdict is read before the step that follows it', async () => {
    const at = screenAt()
    await at.type('1 ⏎1⏎1⏎')
    await waitFor(() => expect(at.text()).toContain('All of this is done'))
    await at.type('2')
    while (!at.text().includes('press on it')) await at.type('⏎')
    await at.type('2⏎')
    expect(at.text()).toContain('Likely cause')
    await at.type('⏎')
    expect(at.text()).toContain('Repair:')
    await at.type('m')
    expect(at.text()).toContain('Likely cause')
  })

  test('leaving and handing over ask first', async () => {
    const stays = screenAt(one)
    await stays.type('qnh⎋')
    expect(stays.session.said).toEqual([])
    const leaves = screenAt(one)
    await leaves.type('q')
    expect(leaves.text()).toContain('whichlead resume archive-lights-dark.job.ndjson')
    await leaves.type('⏎')
    expect(leaves.session.said).toEqual([{ say: 'leave' }])
    expect(leaves.ended).toEqual(['end'])
    const hands = screenAt(one)
    await hands.type('h⏎')
    expect(hands.session.said).toEqual([{ say: 'hand-over' }])
    expect(hands.text()).toContain('Handed over')
  })

  test('after the end Enter ends, the path can still be read', async () => {
    const at = screenAt([{ prompt: askLit }])
    await at.type('3⏎')
    expect(at.text()).toContain('Fixed, and proven')
    await at.type('p')
    expect(at.text()).toContain('1. Look at the lights of fan F3')
    await at.type('⎋⏎')
    expect(at.ended).toEqual(['end'])
  })

  test('a reply that is refused is said, and the question stands', async () => {
    const at = screenAt(one)
    at.session.reply = async () => ({ ok: false, refusal: { problem: 'unknown-answer', expected: ['dark'] } })
    await at.type('2⏎')
    expect(at.text()).toContain(
      english.refusal({ problem: 'unknown-answer', expected: ['dark'] }).slice(0, 40),
    )
    expect(at.pointed()).toBe('▸ 2  Lit in part')
  })

  test('what was seen is laid beside what the plan says', async () => {
    const at = screenAt(one)
    await at.type('1⏎e')
    expect(at.text()).toContain('F3 (top-rear): dark – unlike the plan, which says: lit all over')
  })

  test('the wiring can be narrowed by typing, and marks the place in question', async () => {
    const at = screenAt(one)
    await at.type('d')
    expect(at.text()).toContain('»F3.light«')
    expect(at.text()).toContain('F4.motor')
    await at.type('/f3')
    expect(at.text()).toContain('»F3.light«')
    expect(at.text()).not.toContain('F4.motor')
  })

  test('in the wiring a hub that is unplugged keeps what hangs on it, and the loose plug is named', async () => {
    const at = screenAt(one, { over: { done: [{ do: 'unplug', plug: 'Y1.in' }] }, rows: 40 })
    await at.type('d')
    expect(at.text()).toContain('Y1.in: pulled out')
    expect(at.text()).toMatch(/^fan splitter Y1$\n.*Y1\.1 ─●─ F1\.motor/mu)
  })

  test('Ctrl+C ends from everywhere, also in the middle of a note', async () => {
    for (const before of ['', 'n', '/', 'q', '?', 'p']) {
      const at = screenAt(one)
      await at.type(before)
      at.burst([{ key: 'char', char: 'a' }, { key: 'interrupt' }])
      expect(at.ended).toEqual(['interrupt'])
    }
  })
})
