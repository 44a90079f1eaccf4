/** The manual page: fresh, complete, and in a form that roff reads. */
import { spawnSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { describe, expect, it } from 'vitest'
import { COMMANDS, COMMON } from '../../src/cli/commands.ts'
import { manPage } from '../../src/cli/man-page.ts'
import { program } from '../../src/wording/en/program.ts'

const path = fileURLToPath(new URL('../../docs/whichlead.1', import.meta.url))
const page = manPage(program)

describe('the manual page', () => {
  it('in the package is the one that the program prints now (npm run docs writes it anew)', () => {
    expect(readFileSync(path, 'utf8')).toBe(`${page.join('\n')}\n`)
  })

  it('has the sections of man-pages(7) that apply, in its order', () => {
    const heads = page.filter((l) => l.startsWith('.SH ')).map((l) => l.slice(4))
    expect(heads).toEqual([
      'NAME',
      'SYNOPSIS',
      'DESCRIPTION',
      'COMMANDS',
      'OPTIONS OF ALL COMMANDS',
      'EXIT STATUS',
      'ENVIRONMENT',
      'FILES',
    ])
  })

  it('names every command that the help lists, and every option', () => {
    const text = page.join('\n')
    for (const command of COMMANDS.filter((c) => !c.hidden)) {
      expect(text).toContain(`.SS whichlead ${command.name.replaceAll('-', '\\-')}`)
      for (const { name } of [...command.options, ...COMMON])
        expect(text, command.name).toContain(`\\-\\-${name.replaceAll('-', '\\-')}`)
    }
  })

  it('begins no line of text with what roff takes for a request', () => {
    const requests = ['.TH', '.SH', '.SS', '.TP', '.PP', '.nf', '.fi', '.B', '.RI']
    for (const line of page) if (/^[.']/.test(line)) expect(requests, line).toContain(line.split(' ')[0])
  })

  const groff = spawnSync('groff', ['--version']).status === 0
  it.skipIf(!groff)('is read by groff without a warning', () => {
    const { stderr, status } = spawnSync('groff', ['-man', '-Tutf8', '-ww', path], { encoding: 'utf8' })
    expect(stderr).toBe('')
    expect(status).toBe(0)
  })
})
