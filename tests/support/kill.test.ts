/** The tool that kills a program in tests, tried on a small stand-in that writes a line a reply and goes on. */
import { writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { runLines, wholeLines } from './kill.ts'
import { ownFolder } from './own-folder.ts'

const STAND_IN = `
import { appendFileSync } from 'node:fs'
import { createInterface } from 'node:readline'
const say = (m) => process.stdout.write(JSON.stringify(m) + '\\n')
let n = 0
say({ type: 'ask', n })
createInterface({ input: process.stdin }).on('line', (line) => {
  appendFileSync('log', line + '\\n')
  n++
  if (n === 5) { say({ type: 'end' }); process.exit(3) }
  say({ type: 'ask', n })
})
`

function standIn() {
  const cwd = ownFolder()
  const program = join(cwd, 'stand-in.mjs')
  writeFileSync(program, STAND_IN)
  const reply = (m: { readonly type: string }) => (m.type === 'ask' ? { done: true } : undefined)
  return { args: [], program, cwd, reply }
}

test('without a kill it runs to the end and says how it ended', async () => {
  const run = standIn()
  const result = await runLines(run)
  expect(result).toMatchObject({ code: 3, signal: null, stderr: '' })
  expect(result.messages.map((m) => m.type)).toEqual(['ask', 'ask', 'ask', 'ask', 'ask', 'end'])
  expect(wholeLines(join(run.cwd, 'log'))).toBe(5)
})

test('it kills at a message, after a reply, and at a length of the log', async () => {
  const first = standIn()
  const atMessage = await runLines({ ...first, kill: { atMessage: 3 } })
  expect(atMessage.signal).toBe('SIGKILL')
  expect(wholeLines(join(first.cwd, 'log'))).toBe(2)
  const second = standIn()
  const afterReply = await runLines({ ...second, kill: { afterReply: 2 } })
  expect(afterReply.signal).toBe('SIGKILL')
  expect([1, 2]).toContain(wholeLines(join(second.cwd, 'log')))
  const third = standIn()
  const slow = {
    ...third,
    reply: (m: { readonly type: string; readonly n?: unknown }) => (m.n === 3 ? undefined : { done: true }),
  }
  const atLines = await runLines({ ...slow, kill: { atLogLines: 3, log: join(third.cwd, 'log') } })
  expect(atLines.signal).toBe('SIGKILL')
  expect(wholeLines(join(third.cwd, 'log'))).toBe(3)
})
