/**
 * A key that is pressed the moment a question has been painted is meant for it and must count: also where the same question
 * stands again because its answer was taken back. No person is as quick, but a terminal that shows late is.
 */
import { EventEmitter } from 'node:events'
import { expect, test } from 'vitest'
import { runUi } from '../../src/ui/run.tsx'
import { english } from '../../src/wording/en/english.ts'
import { askLit, askSince, doPowerOff, fakeSession, type ScriptStep } from '../support/fake-session.ts'

interface Press {
  readonly sees: RegExp
  readonly key: string
}

/** Presses each key in the turn in which what it waits for is written to the terminal, and never again. */
async function press(script: readonly ScriptStep[], presses: readonly Press[]) {
  const session = fakeSession(script)
  const stdin = Object.assign(new EventEmitter(), {
    setEncoding: () => {},
    setRawMode: () => {},
    resume: () => {},
    pause: () => {},
  })
  let at = 0
  const write = (text: string): boolean => {
    const next = presses[at]
    if (next?.sees.test(text)) {
      at++
      queueMicrotask(() => stdin.emit('data', next.key))
    }
    return true
  }
  const stdout = Object.assign(new EventEmitter(), { columns: 80, rows: 24, write })
  const code = await runUi(session, {
    language: english,
    ascii: false,
    stdout: stdout as unknown as NodeJS.WriteStream,
    stdin: stdin as unknown as NodeJS.ReadStream,
    settleMs: 5,
    fetch: async () => ({ ok: true, text: '' }),
  })
  return { code, said: session.said }
}

const LEAVE = '\x03'

test('each of them counts, however often an answer is taken back', async () => {
  const again = [
    { sees: /Look at the lights/u, key: '3' },
    { sees: /▸ 3 {2}Lit all over/u, key: '\r' },
    { sees: /When did the lights/u, key: 'u' },
  ]
  const { code, said } = await press(
    [{ prompt: askLit }, { prompt: askSince }],
    [...Array.from({ length: 8 }, () => again).flat(), { sees: /Look at the lights/u, key: LEAVE }],
  )
  expect(code).toBe(130)
  const whole = { say: 'answer', ids: ['whole'] }
  expect(said).toEqual(Array.from({ length: 8 }, () => [whole, { say: 'undo' }]).flat())
})

test('a gate opens by itself where a reading that answers nothing was handed in before it', async () => {
  const gate = [
    { sees: /All of this is done/u, key: 'r' },
    { sees: /Hand in a reading/u, key: 'fans.json\r' },
    { sees: /All of this is done/u, key: LEAVE },
  ]
  expect((await press([{ prompt: { ...doPowerOff, cautions: [] } }], gate)).code).toBe(130)
})
