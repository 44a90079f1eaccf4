/** The built program at a pseudo-terminal: how it comes up, what it makes of the terminal, and how it is stopped. */
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { ownFolder } from '../support/own-folder.ts'
import { call, envIn, NODE, PROGRAM, TEN } from '../support/program.ts'
import { openPty, type Pty, type PtyOptions } from '../support/pty.ts'
import { eventsIn, standing } from '../support/terminal-person.ts'

let folder: string
let log: string
const open: Pty[] = []

beforeEach(() => {
  folder = ownFolder()
  log = join(folder, 'job.ndjson')
})
afterEach(async () => {
  for (const pty of open.splice(0)) {
    pty.kill()
    await pty.ended
    pty.screen.dispose()
  }
})

function start(
  options: Partial<PtyOptions> & {
    readonly more?: readonly string[]
    readonly first?: readonly string[]
  } = {},
): Pty {
  const { more = [], first = [], env, ...rest } = options
  const pty = openPty({
    command: NODE,
    arguments: [...first, PROGRAM, 'diagnose', TEN, '--symptom', 'lights-dark', '--log', log, ...more],
    cwd: folder,
    ...rest,
    env: { ...envIn(folder), LANG: 'C.UTF-8', ...env },
  })
  open.push(pty)
  return pty
}

/** Past the remarks and the first question, so that there is an answer to lose. */
async function answerOne(pty: Pty): Promise<void> {
  await pty.until(/Which/u)
  pty.write('2')
  await pty.until(/[▸>] *2 /u)
  pty.write(' ')
  await pty.until('1 marked')
  pty.write('\r')
  await pty.until('When did the lights go dark?')
}

const answers = () => eventsIn(log).filter((e) => e.e === 'replied').length
const noStack = (pty: Pty) => expect(pty.output()).not.toMatch(/^\s+at .+:\d+:\d+/mu)

describe('a job at a terminal that is stopped', () => {
  it('ends with 130 at Ctrl+C, gives the terminal back, and keeps every answer', async () => {
    const pty = start()
    await answerOne(pty)
    pty.write('\x03')
    expect(await pty.ended).toMatchObject({ code: 130 })
    expect(pty.screen.alternate()).toBe(false)
    expect(pty.output()).toContain('\x1b[?25h')
    expect(answers()).toBe(1)
    expect(pty.screen.history().join(' ')).toContain('resume')
    noStack(pty)
  })

  it('takes Ctrl+C that is glued to other keys', async () => {
    const pty = start()
    await answerOne(pty)
    pty.write('jjk\x03')
    expect(await pty.ended).toMatchObject({ code: 130 })
    expect(answers()).toBe(1)
  })

  it('ends with 130 at Ctrl+C before there is a job', async () => {
    const pty = openPty({
      command: NODE,
      arguments: [PROGRAM, 'diagnose', TEN],
      cwd: folder,
      env: { ...envIn(folder), LANG: 'C.UTF-8' },
    })
    open.push(pty)
    await pty.until('What is wrong?')
    pty.write('\x03')
    expect(await pty.ended).toMatchObject({ code: 130 })
    expect(pty.screen.alternate()).toBe(false)
    noStack(pty)
  })

  it.each([
    ['SIGTERM', 143],
    ['SIGHUP', 129],
    ['SIGINT', 130],
  ])('at %s gives the terminal back and keeps every answer', async (signal, code) => {
    const pty = start()
    await answerOne(pty)
    process.kill(pty.pid, signal)
    expect(await pty.ended).toMatchObject({ code })
    expect(pty.screen.alternate()).toBe(false)
    expect(answers()).toBe(1)
    noStack(pty)
  })

  it('stands at the same question when it is taken up again, at another size of terminal', async () => {
    const first = start()
    await answerOne(first)
    first.kill('SIGKILL')
    await first.ended
    const before = standing(eventsIn(log))
    const pty = openPty({
      command: NODE,
      arguments: [PROGRAM, 'resume', log],
      columns: 60,
      rows: 20,
      cwd: folder,
      env: { ...envIn(folder), LANG: 'C.UTF-8' },
    })
    open.push(pty)
    await pty.until('When did the lights go dark?')
    expect(standing(eventsIn(log))?.prompt).toEqual(before?.prompt)
    pty.write('3')
    await pty.until(/[▸>] *3 /u)
    pty.write('\r')
    await pty.until((rows) => !rows.join(' ').includes('When did the lights go dark?'))
    expect(answers()).toBe(2)
    pty.write('q')
    await pty.until('Leave?')
    pty.write('y')
    expect(await pty.ended).toMatchObject({ code: 0 })
  })
})

describe('the terminal as it is', () => {
  it('draws the screen with CI set, since a person sits there', async () => {
    const pty = start({ env: { CI: 'true', CONTINUOUS_INTEGRATION: '1' } })
    await pty.until(/Which/u)
    expect(pty.screen.alternate()).toBe(true)
  })

  it('draws the screen with DEV set, where others look for their tools', async () => {
    const pty = start({ env: { DEV: 'true' } })
    await pty.until(/Which/u)
    expect(pty.screen.alternate()).toBe(true)
  })

  it('shows the same text without a single colour where NO_COLOR is set', async () => {
    const plain = start({ env: { NO_COLOR: '1' } })
    await plain.until(/Which[\s\S]*Enter/u)
    const rows = plain.rows()
    // SGR 30 to 38, 40 to 48, 90 to 97 and 100 to 107 are colours (ECMA-48 and common practice).
    const [, ...sequences] = plain.output().split('\x1b[')
    for (const s of sequences) expect(s).not.toMatch(/^(?:\d+;)*(?:3[0-8]|4[0-8]|9[0-7]|10[0-7])[;m]/u)
    plain.kill()
    await plain.ended
    log = join(folder, 'other.ndjson')
    const coloured = start({ env: { FORCE_COLOR: '1' } })
    await coloured.until(/Which[\s\S]*Enter/u)
    expect(coloured.rows()).toEqual(rows)
  })

  it.each([
    ['too narrow', 59, 24],
    ['too low', 80, 19],
  ])('goes on line by line in a terminal that is %s, and says why', async (_what, columns, rows) => {
    const pty = start({ columns, rows })
    await pty.until('Step 1.')
    expect(pty.screen.alternate()).toBe(false)
    expect(pty.screen.history().join('\n')).toMatch(/the screen needs\s+60\s+by\s+20/u)
  })

  it('says so while the terminal is made too small, and comes back with the question', async () => {
    const pty = start()
    await pty.until(/Which/u)
    pty.resize(40, 10)
    await pty.until(/60/u)
    pty.resize(80, 24)
    await pty.until(/Which/u)
  })

  it('leaves at the end of what is typed, line by line, with everything kept', async () => {
    const pty = start({ more: ['--plain'] })
    await pty.until('Step 1.')
    pty.write('\x04')
    expect(await pty.ended).toMatchObject({ code: 0 })
    expect(pty.screen.history().join(' ')).toContain('resume')
    expect(call(folder, ['resume', log, '--plain']).out).toContain('Step 1.')
  })
})

it('loads nothing for the network, and tables for splitting text into characters only where Ink does', async () => {
  const told = join(folder, 'loaded.json')
  const hook = join(folder, 'hook.cjs')
  writeFileSync(
    hook,
    `const fs = require('node:fs')
    let made = 0
    Intl.Segmenter = class extends Intl.Segmenter { constructor(...given) { super(...given); made++ } }
    process.on('exit', () => fs.writeFileSync(${JSON.stringify(told)}, JSON.stringify({ modules: process.moduleLoadList, made })))`,
  )
  const pty = start({ first: ['--require', hook] })
  await answerOne(pty)
  pty.write('\x03')
  await pty.ended
  const { modules, made } = JSON.parse(readFileSync(told, 'utf8')) as { modules: string[]; made: number }
  expect(modules.filter((name) => /undici|http|tls/u.test(name))).toEqual([])
  // The two libraries with which Ink cuts and paints lines make one each.
  expect(made).toBeLessThanOrEqual(2)
})
