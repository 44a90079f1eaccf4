/** Which front end the built program takes at a real terminal; how the screen is left is in `../program/at-the-terminal.test.ts`. */
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { ownFolder } from '../support/own-folder.ts'
import { envIn, NODE, PROGRAM, SMALL } from '../support/program.ts'
import { openPty, type Pty } from '../support/pty.ts'

let folder: string
let pty: Pty | undefined
beforeEach(() => {
  folder = ownFolder()
})
afterEach(() => pty?.kill())

function open(
  args: readonly string[],
  more: { env?: Record<string, string>; columns?: number; rows?: number } = {},
): Pty {
  const { env, ...size } = more
  pty = openPty({
    // The emulator sets TERM itself; only a program in between can change it.
    command: 'env',
    arguments: [
      `TERM=${env?.TERM ?? 'xterm-256color'}`,
      NODE,
      PROGRAM,
      'diagnose',
      SMALL,
      '--log',
      join(folder, 'job.ndjson'),
      ...args,
    ],
    cwd: folder,
    env: { ...envIn(folder), LANG: 'C.UTF-8', ...env },
    ...size,
  })
  return pty
}

const lights = ['--symptom', 'lights-dark']

describe('at a terminal', () => {
  it('asks what is wrong from a menu, and goes on with what is highlighted', async () => {
    const at = open([])
    await at.until('Lights stuck in a default pattern')
    // Below the help to find a symptom and the first of them.
    at.write('\u001b[B\u001b[B\r')
    await at.until('Mind the blades')
    at.write('\u0003')
    expect((await at.ended).code).toBe(130)
  })

  it.each([
    ['--plain', ['--plain'], {}, {}],
    ['a setting for screen readers', [], { WHICHLEAD_PLAIN: '1' }, {}],
    ['a terminal that cannot move its cursor', [], { TERM: 'dumb' }, {}],
    ['too small a terminal', [], {}, { columns: 50, rows: 15 }],
  ] as const)('%s: goes line by line and only appends', async (_why, args, env, size) => {
    const at = open([...lights, ...args], { env, ...size })
    await at.until('for help)')
    // No escape sequence at all came out.
    expect(at.output()).not.toContain('\u001b')
    at.write('F2\r')
    await at.until('When did the lights go dark?')
    at.write('\u0004')
    expect((await at.ended).code).toBe(0)
    expect(at.output()).not.toContain('\u001b')
  })

  it('line by line, Ctrl+C ends with 130 and says how to go on', async () => {
    const at = open([...lights, '--plain'])
    await at.until('for help)')
    at.write('\u0003')
    expect((await at.ended).code).toBe(130)
    expect(at.output()).toContain('whichlead resume')
  })

  it('breaks lines between words at the width of the terminal', async () => {
    const at = open([...lights, '--plain'], { columns: 60 })
    const rows = await at.until('for help)')
    expect(rows.some((row) => row.includes('Each that you name is'))).toBe(true)
    for (const line of at.output().replaceAll('\r', '').split('\n'))
      if (!line.includes('job.ndjson')) expect(line.length).toBeLessThanOrEqual(60)
  })
})
