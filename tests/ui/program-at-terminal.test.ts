/** The built program at a pseudo-terminal: the menu, then the job in the same run, left and taken up again. */
import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, expect, test } from 'vitest'
import { ownFolder } from '../support/own-folder.ts'
import { envIn, NODE, PROGRAM, SMALL } from '../support/program.ts'
import { openPty, type Pty } from '../support/pty.ts'

const open: Pty[] = []
afterEach(async () => {
  for (const pty of open.splice(0)) {
    pty.kill()
    await pty.ended
  }
})

function start(folder: string, ...args: string[]): Pty {
  const pty = openPty({
    command: NODE,
    arguments: [PROGRAM, ...args],
    cwd: folder,
    env: { ...envIn(folder), LANG: 'C.UTF-8' },
  })
  open.push(pty)
  return pty
}

test('a symptom is chosen, questions answered, the job broken off with Ctrl+C and taken up at the same question', async () => {
  const folder = ownFolder()
  const log = join(folder, 'job.ndjson')
  const first = start(folder, 'diagnose', SMALL, '--log', log)
  await first.until('What is wrong?')
  first.write('2\r')
  await first.until('Which lights are dark')
  first.write('1 ')
  await first.until(/1 marked/)
  first.write('\r')
  await first.until('When did the lights go dark?')
  first.write('2\r')
  const next = await first.until(/▸ 1[\s\S]*Recorded: After something[\s\S]*hand over/u)
  const top = next.findIndex((row) => row.includes('▸ 1'))
  const answers = next.slice(top, top + 3).join('\n')
  first.write('zz\x03')
  expect((await first.ended).code).toBe(130)
  expect(first.screen.alternate()).toBe(false)
  expect(first.screen.history().join('\n')).toContain('whichlead resume')
  expect(readFileSync(log, 'utf8')).toContain('"changed"')
  expect(readdirSync(folder)).toContain('job.ndjson')

  const again = start(folder, 'resume', log)
  await again.until('POWER')
  await again.until(answers)
  again.write('p')
  await again.until(/2\. When did the lights go dark\? – After something/)
  again.write('\x1b')
  await again.until(answers)
  again.write('q')
  await again.until('Leave?')
  again.write('\r')
  expect((await again.ended).code).toBe(0)
})
