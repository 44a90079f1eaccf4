/** `whichlead` alone: what the built program offers at a real terminal, and that taking a row does what typing would. */
import { copyFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { ownFolder } from '../support/own-folder.ts'
import { call, envIn, NODE, PROGRAM, SMALL } from '../support/program.ts'
import { openPty, type Pty } from '../support/pty.ts'

let folder: string
let pty: Pty | undefined
beforeEach(() => {
  folder = ownFolder()
})
afterEach(() => pty?.kill())

function open(columns = 80, rows = 24): Pty {
  pty = openPty({
    command: NODE,
    arguments: [PROGRAM],
    cwd: folder,
    env: { ...envIn(folder), LANG: 'C.UTF-8' },
    columns,
    rows,
  })
  return pty
}

const TITLE = 'What do you want to do?'

describe('the first screen at a terminal', () => {
  it.each([
    [60, 20],
    [80, 24],
    [100, 30],
    [200, 60],
  ])('in an empty folder, at %i by %i: the demo, a new plan, help', async (columns, rows) => {
    const at = open(columns, rows)
    const shown = (await at.until('3  Show all commands')).join('\n')
    expect(shown).toContain('1  Try the demo build')
    expect(shown).toContain('2  Write a new plan')
    expect(shown.replace(/\s+/gu, ' ')).toContain('There is none in this folder.')
    expect(at.screen.wrapped()).toBe(0)
    at.write('q')
    expect((await at.ended).code).toBe(0)
    expect(at.screen.alternate()).toBe(false)
  })

  it('the demo leads on to a job on the build that came with the program', async () => {
    const at = open()
    await at.until('1  Try the demo build')
    at.write('\r')
    await at.until('Something is wrong: find it')
    // Enter right after the last one is a key tapped twice, unless another key comes between.
    at.write('k\r')
    await at.until('What is wrong?')
    at.write('k\r')
    await at.until('POWER ON')
    at.write('\u0003')
    expect((await at.ended).code).toBe(130)
  })

  it('Escape leads one level back, and leaves from the first', async () => {
    const at = open()
    await at.until('1  Try the demo build')
    at.write('\r')
    await at.until('Draw the wiring')
    at.write('\u001b')
    await at.until(TITLE)
    at.write('\u001b')
    expect((await at.ended).code).toBe(0)
  })

  it('a new plan is begun by questions, and what is typed after the menu is heard', async () => {
    const at = open()
    await at.until('2  Write a new plan')
    at.write('2\r')
    await at.until('What is the build called?')
    at.write('Desk one\r')
    await at.until('How many fans does it have')
    at.write('leave\r')
    await at.ended
  })

  it('offers the builds in this folder, and what is done with one is as if typed', async () => {
    copyFileSync(SMALL, join(folder, 'desk.build.yaml'))
    const at = open()
    await at.until('1  desk.build.yaml')
    at.write('\r')
    await at.until('What is to be done with desk.build.yaml?')
    at.write('/wiring\r\r')
    await at.ended
    const typed = call(folder, ['draw', 'desk.build.yaml', '--width', '80'], { env: { LANG: 'C.UTF-8' } })
    const seen = at.screen.history().join('\n')
    for (const line of typed.out.split('\n').filter((l) => l.trim() !== '' && l.length < 80))
      expect(seen).toContain(line.trimEnd())
  })

  it('offers jobs that were left first, and goes on with them', async () => {
    copyFileSync(SMALL, join(folder, 'desk.build.yaml'))
    const left = call(folder, ['diagnose', 'desk.build.yaml', '--symptom', 'lights-dark'], { input: 'F2\n' })
    expect(left.code).toBe(0)
    const at = open()
    await at.until(/1 {2}Go on with [^:]+: Lights dead on some fans/u)
    at.write('\r')
    await at.until('When did the lights go dark?')
    at.write('\u0003')
    expect((await at.ended).code).toBe(130)
  })
})

it('jobs that were left and read alike are told apart by when they were begun', async () => {
  copyFileSync(SMALL, join(folder, 'desk.build.yaml'))
  for (const symptom of ['lights-dark', 'lights-dark', 'fan-still'])
    call(folder, ['diagnose', 'desk.build.yaml', '--symptom', symptom], { input: 'F2\n' })
  const at = open(100, 30)
  const rows = await at.until((seen) => seen.filter((row) => row.includes('Go on with')).length === 3)
  const jobs = rows.filter((row) => row.includes('Go on with'))
  expect(jobs.filter((row) => /of \d{4}-\d\d-\d\d \d\d:\d\d: Lights dead/u.test(row))).toHaveLength(2)
  expect(jobs.filter((row) => /Go on with [^:]+: A fan/u.test(row))).toHaveLength(1)
  at.write('q')
  await at.ended
})

describe('the first screen in a pipe', () => {
  it('says in text what can be done, and ends', () => {
    const { code, out } = call(folder, [])
    expect(code).toBe(0)
    expect(out).toContain('whichlead new my.build.yaml')
    expect(out).not.toContain('\u001b')
  })
})
