/** A little program for the pseudo-terminal tests: the scripted job on the screen, what was said written to a file. */
import { appendFileSync } from 'node:fs'
import { runUi } from '../../../src/ui/run.tsx'
import { english } from '../../../src/wording/en/english.ts'
import { fakeSession } from '../../support/fake-session.ts'

const { SAID, ASCII, SETTLE, BREAKS } = process.env
const session = fakeSession()
const reply = session.reply
const told = {
  ...session,
  reply: async (said: Parameters<typeof reply>[0]) => {
    if (BREAKS) throw new Error('the disk is full')
    if (SAID) appendFileSync(SAID, `${JSON.stringify(said)}\n`)
    return reply(said)
  },
}
const running = runUi(told, {
  language: english,
  ascii: ASCII === '1',
  stdout: process.stdout,
  stdin: process.stdin,
  settleMs: Number(SETTLE ?? 150),
  fetch: async () => ({ ok: true, text: '' }),
})
process.exitCode = await running.catch((error: Error) => {
  process.stdout.write(`told: ${error.message}\n`)
  return 70
})
