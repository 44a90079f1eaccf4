/** A little program for the pseudo-terminal tests: the scripted job on the screen, what was said written to a file. */
import { appendFileSync } from 'node:fs'
import { runUi } from '../../../src/ui/run.tsx'
import { english } from '../../../src/wording/en/english.ts'
import { fakeSession } from '../../support/fake-session.ts'

const { SAID, ASCII, SETTLE } = process.env
const session = fakeSession()
const reply = session.reply
const told = {
  ...session,
  reply: async (said: Parameters<typeof reply>[0]) => {
    if (SAID) appendFileSync(SAID, `${JSON.stringify(said)}\n`)
    return reply(said)
  },
}
process.exitCode = await runUi(told, {
  language: english,
  ascii: ASCII === '1',
  colour: process.env.NO_COLOR === undefined,
  stdout: process.stdout,
  stdin: process.stdin,
  settleMs: Number(SETTLE ?? 150),
})
