/** The built program as it is called: exit codes, what goes to which stream, closed pipes. No terminal. */
import { spawn, spawnSync } from 'node:child_process'
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeEach, describe, expect, it } from 'vitest'
import { ownFolder } from '../support/own-folder.ts'
import { NODE, PROGRAM, SMALL } from '../support/program.ts'

let folder: string
const env = () => ({ PATH: process.env.PATH, HOME: folder, XDG_STATE_HOME: join(folder, 'state') })

function call(...args: string[]) {
  const { status, stdout, stderr } = spawnSync(NODE, [PROGRAM, ...args], {
    cwd: folder,
    env: env(),
    encoding: 'utf8',
    input: '',
  })
  return { code: status, out: stdout, err: stderr }
}

beforeEach(() => {
  folder = ownFolder()
})

describe('the program without a terminal', () => {
  it('tells its version and nothing else', () => {
    expect(call('--version')).toEqual({ code: 0, out: '0.1.0\n', err: '' })
    expect(call('-V').out).toBe('0.1.0\n')
    expect(call('jobs', '--version').out).toBe('0.1.0\n')
  })

  it('tells its help on standard output, a mistake on standard error with code 2', () => {
    const help = call('--help')
    expect(help).toMatchObject({ code: 0, err: '' })
    expect(help.out).toContain('Commands:')
    expect(call('help', 'bench').out).toContain('Usage: whichlead bench PLAN')
    const wrong = call('dignose', SMALL)
    expect(wrong).toMatchObject({ code: 2, out: '' })
    expect(wrong.err).toContain('Did you mean "diagnose"?')
    expect(wrong.err.trim().split('\n')).toHaveLength(1)
  })

  it.each([
    ['no file', 'nothing.build.yaml', 'no such file'],
    ['a folder', '.', 'a folder'],
    ['an empty file', 'empty.build.yaml', ''],
    ['no text', 'binary.build.yaml', 'binary'],
  ])('%s is a mistake with its place, what was expected and what to do', (_what, name, found) => {
    writeFileSync(join(folder, 'empty.build.yaml'), '')
    writeFileSync(join(folder, 'binary.build.yaml'), new Uint8Array([0, 1, 2, 255]))
    const { code, out, err } = call('bench', name)
    expect(code).toBe(2)
    expect(out).toBe('')
    expect(err).toContain(found)
    expect(err).toMatch(new RegExp(`^${name}:1:1: `, 'u'))
    expect(err).toContain('To do:')
    expect(err).not.toContain('    at ')
  })

  it('runs the bench with a fault and after an edit, as text and as JSON', () => {
    const seen = (...args: string[]) => {
      const { code, out } = call('bench', SMALL, '--json', ...args)
      expect(code).toBe(0)
      const { sight } = JSON.parse(out) as { sight: { what: string; at: string; value: string }[] }
      return new Map(sight.map((s) => [`${s.what} ${s.at}`, s.value]))
    }
    expect(seen().get('lit F2')).toBe('whole')
    expect(seen('--fault', 'F2.light:unplugged').get('lit F2')).toBe('dark')
    expect(seen('--fault', 'F2.light:unplugged', '--edit', 'reseat F2.light').get('lit F2')).toBe('whole')
    expect(seen('--edit', 'power off').has('rpm board.SYS1')).toBe(false)
    expect(call('bench', SMALL, '--fault', 'F2.light:unplugged').out).toContain(
      'F2.light:unplugged  The light plug of fan F2',
    )
  })

  it('shows both sights of a joint that makes contact only now and then', () => {
    const { out } = call('bench', SMALL, '--json', '--fault', 'F2.motor:loose')
    const { sight } = JSON.parse(out) as {
      sight: { what: string; at: string; value: string; contact?: string }[]
    }
    expect(sight.find((s) => s.what === 'spins' && s.at === 'F2')).toMatchObject({
      value: 'no',
      contact: 'normal',
    })
  })

  it('lists the faults of a plan with priors that sum to one', () => {
    const { faults } = JSON.parse(call('bench', SMALL, '--list-faults', '--json').out) as {
      faults: { at: string; mode: string; prior: number }[]
    }
    expect(faults.reduce((sum, f) => sum + f.prior, 0)).toBeCloseTo(1, 9)
    expect(faults).toContainEqual(expect.objectContaining({ at: 'F2.light', mode: 'unplugged' }))
    // Every fault listed can be planted by its name.
    const some = faults.filter((_, i) => i % 17 === 0).flatMap((f) => ['--fault', `${f.at}:${f.mode}`])
    expect(call('bench', SMALL, '--json', ...some).code).toBe(0)
  })

  it.each([
    [['--fault', 'F2.light'], 'AT:MODE'],
    [['--fault', 'F9.light:unplugged'], 'not a fault of this plan'],
    [['--fault', 'F2.light:unpluged'], 'Did you mean "F2.light:unplugged"'],
    [['--edit', 'push F2'], 'Edits are:'],
    [['--edit', 'unplug F9.motor'], 'does not have'],
    [['--edit', 'set headers/SYS1/drive = warp'], 'does not fit'],
  ])('bench %j is a mistake', (args, said) => {
    const { code, err } = call('bench', SMALL, ...args)
    expect(code).toBe(2)
    expect(err).toContain(said)
  })

  it('writes a plan to start from that can be read and run, and never over another', () => {
    expect(call('new', 'mine.build.yaml').code).toBe(0)
    expect(call('bench', 'mine.build.yaml')).toMatchObject({ code: 0, err: '' })
    const again = call('new', 'mine.build.yaml')
    expect(again.code).toBe(2)
    expect(again.err).toContain('exists already')
    expect(call('new', 'mine.build.yaml', '--force').code).toBe(0)
    expect(call('new', 'no/such/mine.build.yaml').err).toContain('no such folder')
  })

  it('prints a plan alone where no file is named, with the questions beside it', () => {
    const { code, out, err } = call('new')
    expect(code).toBe(0)
    expect(err).toContain('What is the build called?')
    writeFileSync(join(folder, 'piped.build.yaml'), out)
    expect(call('bench', 'piped.build.yaml')).toMatchObject({ code: 0, err: '' })
    expect(call('new', '--usual')).toEqual({ code: 0, out, err: '' })
  })

  it('writes into a plan what was changed at the bench, when told to, and never a plan that cannot be read', () => {
    const text = readFileSync(SMALL, 'utf8')
    writeFileSync(join(folder, 'mine.yaml'), text)
    const shown = call('edit', 'mine.yaml', 'set host/program = absent')
    expect(shown).toMatchObject({ code: 0, err: '' })
    expect(shown.out).toMatch(/^- .*program: running.*\n\+ .*program: absent/m)
    expect(readFileSync(join(folder, 'mine.yaml'), 'utf8')).toBe(text)
    expect(call('edit', 'mine.yaml', 'set host/program = absent', '--write').out).toContain(
      'Written: mine.yaml',
    )
    expect(readFileSync(join(folder, 'mine.yaml'), 'utf8')).toBe(
      text.replace('program: running', 'program: absent'),
    )
    expect(call('edit', 'mine.yaml', 'plug F1.motor -> board.NONE9').err).toContain(
      'Expected: a port of the board',
    )
    expect(call('edit', 'mine.yaml', 'power off').err).toContain('Changes are:')
    expect(call('edit', 'mine.yaml', 'reseat F1.motor').code).toBe(2)
  })

  it('prints a JSON Schema', () => {
    expect(JSON.parse(call('schema').out)).toMatchObject({ type: 'object' })
  })

  it('alone, offers the builds of the folder', () => {
    mkdirSync(join(folder, 'shelf'), { recursive: true })
    writeFileSync(join(folder, 'shelf', 'studio two.build.yaml'), '')
    const { stdout } = spawnSync(NODE, [PROGRAM], {
      cwd: join(folder, 'shelf'),
      env: env(),
      encoding: 'utf8',
    })
    expect(stdout).toContain("whichlead diagnose 'studio two.build.yaml'")
    mkdirSync(join(folder, 'bare'), { recursive: true })
    expect(
      spawnSync(NODE, [PROGRAM], { cwd: join(folder, 'bare'), env: env(), encoding: 'utf8' }).stdout,
    ).toContain('whichlead new')
  })

  it('ends quietly when the other end of a pipe has seen enough', async () => {
    const child = spawn(NODE, [PROGRAM, 'bench', SMALL, '--list-faults', '--json'], { env: env() })
    child.stdout.destroy()
    let err = ''
    child.stderr.on('data', (d) => {
      err += d
    })
    const code = await new Promise((resolve) => child.on('exit', resolve))
    expect({ code, err }).toEqual({ code: 0, err: '' })
  })

  it('speaks a language that is here, and says which there are', () => {
    expect(call('--help', '--lang', 'en').code).toBe(0)
    const { code, err } = call('--help', '--lang', 'xx')
    expect(code).toBe(2)
    expect(err).toContain('There is: en')
  })
})
