/** The component itself, on text: that it hears keys, splits what comes in one read, and draws what the screen holds. */
import { render } from 'ink-testing-library'
import { describe, expect, test } from 'vitest'
import { App } from '../../src/ui/app.tsx'
import { heldEnter } from '../../src/ui/keys/held-enter.ts'
import { createScreen } from '../../src/ui/screen.ts'
import { english } from '../../src/wording/en/english.ts'
import { askLit, askSince, fakeSession } from '../support/fake-session.ts'
import { waitFor } from '../support/wait-for.ts'

function app() {
  const session = fakeSession([{ prompt: askLit }, { prompt: askSince }])
  const ended: string[] = []
  const screen = createScreen(
    session,
    { columns: 80, rows: 24 },
    {
      language: english,
      ascii: false,
      settleMs: 1,
      held: heldEnter(() => performance.now()),
      leave: (how) => ended.push(how),
      suspend: () => ended.push('suspend'),
      redraw: () => ended.push('redraw'),
      failed: (error) => {
        throw error
      },
      fetch: async () => ({ ok: true, text: '' }),
    },
  )
  const shown = render(<App screen={screen} />)
  return { session, ended, screen, stdin: shown.stdin, text: () => shown.lastFrame() ?? '' }
}

describe('the component', () => {
  test('draws the power, the question, the answers and the keys', () => {
    const { text } = app()
    for (const part of [
      'POWER ON',
      'Look at the lights of fan F3',
      '▸ 1  Dark',
      'Enter answer',
      '? help',
      'q leave',
    ])
      expect(text()).toContain(part)
  })

  test('a row and Enter in one read record that row, and the next question comes', async () => {
    const { session, stdin, text } = app()
    await waitFor(() => {
      stdin.write('k')
      expect(text()).toContain('▸ 1')
    })
    stdin.write('jj\r')
    await waitFor(() => expect(text()).toContain('When did the lights go dark?'))
    expect(session.said).toEqual([{ say: 'answer', ids: ['whole'] }])
    expect(text()).toContain('Recorded: Lit all over')
  })

  test('two writes without waiting record what the second of them finds', async () => {
    const { session, stdin, text } = app()
    stdin.write('\x1b[B')
    stdin.write('\r')
    await waitFor(() => expect(text()).toContain('When did the lights go dark?'))
    expect(session.said).toEqual([{ say: 'answer', ids: ['part'] }])
  })

  test('Ctrl+C, Ctrl+Z and Ctrl+L are heard, also glued to other keys', () => {
    const { stdin, ended } = app()
    stdin.write('\x0c')
    stdin.write('\x1a')
    stdin.write('zz\x03')
    expect(ended).toEqual(['redraw', 'suspend', 'interrupt'])
  })

  test('a terminal that changes its size is drawn anew', async () => {
    const { screen, text } = app()
    screen.resize({ columns: 60, rows: 20 })
    await waitFor(() => expect(text()).toContain('hands out'))
    screen.resize({ columns: 40, rows: 9 })
    await waitFor(() => expect(text()).toContain('--plain'))
  })
})
