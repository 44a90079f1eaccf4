import { describe, expect, it } from 'vitest'
import { terminalFacts } from '../../src/io/terminal.ts'

const facts = (env: Record<string, string>, over: { tty?: boolean; platform?: string } = {}) =>
  terminalFacts({
    stdin: { isTTY: over.tty ?? true },
    stdout: { isTTY: over.tty ?? true, columns: 100, rows: 30 },
    env: { TERM: 'xterm-256color', LANG: 'en_GB.UTF-8', ...env },
    platform: over.platform ?? 'linux',
  })

describe('facts about the terminal', () => {
  it('a pipe at either end is no screen', () => {
    expect(facts({}).screen).toBe(true)
    expect(facts({}, { tty: false }).screen).toBe(false)
    expect(
      terminalFacts({ stdin: { isTTY: false }, stdout: { isTTY: true }, env: {}, platform: 'linux' }).screen,
    ).toBe(false)
    expect(facts({ TERM: 'dumb' }).screen).toBe(false)
  })

  // no-color.org: "when present and not an empty string (regardless of its value), prevents the addition of ANSI color".
  it.each([
    [{ NO_COLOR: '1' }, false],
    [{ NO_COLOR: '0' }, false],
    [{ NO_COLOR: '' }, true],
    [{ NO_COLOR: '1', FORCE_COLOR: '1' }, true],
    [{ FORCE_COLOR: '0' }, false],
    [{}, true],
  ])('%j gives colour %s', (env, colour) => {
    expect(facts(env as unknown as Record<string, string>).colour).toBe(colour)
  })

  it('the locale decides on letters beyond ASCII, the first of LC_ALL, LC_CTYPE, LANG that is set', () => {
    expect(facts({}).unicode).toBe(true)
    expect(facts({ LC_ALL: 'C' }).unicode).toBe(false)
    expect(facts({ LC_ALL: '', LC_CTYPE: 'C.utf8', LANG: 'C' }).unicode).toBe(true)
    expect(facts({ TERM: 'linux' }).unicode).toBe(false)
  })

  it('a screen reader user sets one variable', () => {
    expect(facts({ WHICHLEAD_PLAIN: '1' }).spoken).toBe(true)
    expect(facts({ WHICHLEAD_PLAIN: '0' }).spoken).toBe(false)
    expect(facts({}).spoken).toBe(false)
  })
})
