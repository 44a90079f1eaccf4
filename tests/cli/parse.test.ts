import { describe, expect, it } from 'vitest'
import { COMMANDS, COMMON } from '../../src/cli/commands.ts'
import { commandHelp, overview } from '../../src/cli/help-text.ts'
import { loadCommand } from '../../src/cli/load.ts'
import { near } from '../../src/cli/near.ts'
import { parse } from '../../src/cli/parse.ts'
import { english } from '../../src/wording/en/english.ts'

const mistake = (...argv: string[]) => {
  const parsed = parse(argv)
  return parsed.ok ? undefined : parsed.mistake
}

const given = (...argv: string[]) => {
  const parsed = parse(argv)
  if (!parsed.ok) throw new Error(JSON.stringify(parsed.mistake))
  return parsed
}

describe('the command line', () => {
  it('finds command, arguments, flags, values and repeated values', () => {
    const { command, given: g } = given(
      'bench',
      'a.yaml',
      '--fault',
      'F1:seized',
      '--fault=F2:dead',
      '--edit',
      'swap F1.motor F2.motor',
      '--json',
    )
    expect(command?.name).toBe('bench')
    expect(g.arguments).toEqual(['a.yaml'])
    expect(g.lists.get('fault')).toEqual(['F1:seized', 'F2:dead'])
    expect(g.lists.get('edit')).toEqual(['swap F1.motor F2.motor'])
    expect([...g.flags]).toEqual(['json'])
  })

  it('takes options before and after the arguments, and a file whose name begins with a hyphen after two', () => {
    expect(given('diagnose', '--plain', 'a.yaml', '--symptom', 'lights-dark').given.arguments).toEqual([
      'a.yaml',
    ])
    expect(given('diagnose', '--', '-odd.yaml').given.arguments).toEqual(['-odd.yaml'])
    expect(given('--lang', 'en', 'jobs').command?.name).toBe('jobs')
  })

  it.each([
    [['dignose', 'a.yaml'], { what: 'unknown-command', given: 'dignose', near: ['diagnose'] }],
    [['diag'], { what: 'unknown-command', given: 'diag', near: ['diagnose'] }],
    [['xyzzy'], { what: 'unknown-command', given: 'xyzzy', near: [] }],
    [
      ['bench', 'a.yaml', '--falt', 'F1:x'],
      { what: 'unknown-option', command: 'bench', given: '--falt', near: ['--fault'] },
    ],
    [['--hepl'], { what: 'unknown-option', command: '', given: '--hepl', near: ['--help'] }],
    [['diagnose', 'a.yaml', '--log'], { what: 'option-needs-value', option: 'log' }],
    [['diagnose', 'a.yaml', '--log', '--plain'], { what: 'option-needs-value', option: 'log' }],
    [['diagnose', 'a.yaml', '--plain=yes'], { what: 'option-takes-none', option: 'plain' }],
    [['diagnose'], { what: 'missing-argument', command: 'diagnose', name: 'PLAN' }],
    [['diagnose', 'a.yaml', 'b.yaml'], { what: 'too-many', command: 'diagnose', extra: 'b.yaml' }],
  ])('%j is a mistake with what was meant', (argv, what) => {
    expect(mistake(...argv)).toEqual(what)
  })

  it('asking for help is never a mistake, whatever is missing', () => {
    expect(mistake('diagnose', '--help')).toBeUndefined()
    expect(mistake('-h')).toBeUndefined()
    expect(mistake()).toBeUndefined()
  })

  it('suggests by slips and by beginnings, the nearest first', () => {
    expect(near('lights', ['lights-dark', 'lights-stuck', 'fan-still'])).toEqual([
      'lights-dark',
      'lights-stuck',
    ])
    expect(near('fan-stil', ['lights-dark', 'fan-still'])).toEqual(['fan-still'])
    expect(near('q', ['lights-dark'])).toEqual([])
  })
})

describe('help', () => {
  it.each(COMMANDS.map((c) => c.name))(
    '%s has a loader, a summary, and a text for each option',
    async (name) => {
      const command = COMMANDS.find((c) => c.name === name)
      const text = english.program.commands[name]
      expect(await loadCommand(name)).toBeTypeOf('function')
      expect(text?.summary).toMatch(/^\S/u)
      for (const option of command?.options ?? [])
        expect(text?.options[option.name], option.name).toBeTruthy()
      for (const option of Object.keys(text?.options ?? {}))
        expect(
          command?.options.some((o) => o.name === option),
          option,
        ).toBe(true)
    },
  )

  it.each(COMMANDS.filter((c) => !c.hidden).map((c) => c.name))(
    '%s has examples that can be typed as they stand',
    (name) => {
      const examples = english.program.commands[name]?.examples ?? []
      expect(examples.length).toBeGreaterThan(0)
      for (const [line] of examples) {
        const words = (line.replace(/ > (?!.*").*/u, '').match(/"[^"]*"|\S+/gu) ?? []).map((word) =>
          word.replaceAll('"', ''),
        )
        expect(words[0]).toBe('whichlead')
        expect(mistake(...words.slice(1)), line).toBeUndefined()
      }
    },
  )

  it('fits eighty columns and names every command and common option', () => {
    const text = overview(english.program)
    for (const line of text) expect(line.length, line).toBeLessThanOrEqual(80)
    for (const c of COMMANDS.filter((c) => !c.hidden)) expect(text.join('\n')).toContain(`  ${c.name}`)
    for (const o of COMMON) expect(text.join('\n')).toContain(`--${o.name}`)
    for (const command of COMMANDS) {
      const help = commandHelp(command, english.program)
      expect(help.join('\n')).toContain(`whichlead ${command.name}`)
      for (const line of help) expect(line.length, line).toBeLessThanOrEqual(80)
    }
  })
})
