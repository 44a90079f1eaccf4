/**
 * The program as it is called: exit codes, what goes to which stream, closed pipes. No terminal. Each command is called once as it
 * was built; what else it says is asked without a process.
 */
import { spawn, spawnSync } from 'node:child_process'
import { mkdirSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeEach, describe, expect, it } from 'vitest'
import { ownFolder } from '../support/own-folder.ts'
import { call, envIn, NODE, PROGRAM, SMALL } from '../support/program.ts'
import { startHere } from '../support/start-here.ts'

let folder: string
beforeEach(() => {
  folder = ownFolder()
})

const built = (...args: string[]) => call(folder, args)
const here = (...args: string[]) => startHere(folder, args)

describe('the program without a terminal', () => {
  it('tells its version and nothing else', () => {
    expect(built('--version')).toEqual({ code: 0, out: '0.1.0\n', err: '' })
    expect(built('-V').out).toBe('0.1.0\n')
    expect(built('jobs', '--version').out).toBe('0.1.0\n')
  })

  it('tells its help on standard output, a mistake on standard error with code 2', async () => {
    const help = built('--help')
    expect(help).toMatchObject({ code: 0, err: '' })
    expect(help.out).toContain('Commands:')
    expect((await here('help', 'bench')).out).toContain('Usage: whichlead bench PLAN')
    const wrong = built('dignose', SMALL)
    expect(wrong).toMatchObject({ code: 2, out: '' })
    expect(wrong.err).toContain('Did you mean "diagnose"?')
    expect(wrong.err.trim().split('\n')).toHaveLength(1)
  })

  it('runs the bench with a fault and after an edit, as text and as JSON', async () => {
    const seen = async (...args: string[]) => {
      const { code, out } = await here('bench', SMALL, '--json', ...args)
      expect(code).toBe(0)
      const { sight } = JSON.parse(out) as { sight: { what: string; at: string; value: string }[] }
      return new Map(sight.map((s) => [`${s.what} ${s.at}`, s.value]))
    }
    expect((await seen()).get('lit F2')).toBe('whole')
    expect((await seen('--fault', 'F2.light:unplugged')).get('lit F2')).toBe('dark')
    expect((await seen('--fault', 'F2.light:unplugged', '--edit', 'reseat F2.light')).get('lit F2')).toBe(
      'whole',
    )
    expect((await seen('--edit', 'power off')).has('rpm board.SYS1')).toBe(false)
    expect(built('bench', SMALL, '--fault', 'F2.light:unplugged').out).toContain(
      'F2.light:unplugged  The light plug of fan F2',
    )
  })

  it('shows both sights of a joint that makes contact only now and then', async () => {
    const { out } = await here('bench', SMALL, '--json', '--fault', 'F2.motor:loose')
    const { sight } = JSON.parse(out) as {
      sight: { what: string; at: string; value: string; contact?: string }[]
    }
    expect(sight.find((s) => s.what === 'spins' && s.at === 'F2')).toMatchObject({
      value: 'no',
      contact: 'normal',
    })
  })

  it('lists the faults of a plan with priors that sum to one', async () => {
    const { faults } = JSON.parse((await here('bench', SMALL, '--list-faults', '--json')).out) as {
      faults: { at: string; mode: string; prior: number }[]
    }
    expect(faults.reduce((sum, f) => sum + f.prior, 0)).toBeCloseTo(1, 9)
    expect(faults).toContainEqual(expect.objectContaining({ at: 'F2.light', mode: 'unplugged' }))
    // Every fault listed can be planted by its name.
    const some = faults.filter((_, i) => i % 17 === 0).flatMap((f) => ['--fault', `${f.at}:${f.mode}`])
    expect((await here('bench', SMALL, '--json', ...some)).code).toBe(0)
  })

  it.each([
    [['--fault', 'F2.light'], 'AT:MODE'],
    [['--fault', 'F9.light:unplugged'], 'not a fault of this plan'],
    [['--fault', 'F2.light:unpluged'], 'Did you mean "F2.light:unplugged"'],
    [['--edit', 'push F2'], 'Edits are:'],
    [['--edit', 'unplug F9.motor'], 'does not have'],
    [['--edit', 'set headers/SYS1/drive = warp'], 'does not fit'],
  ])('bench %j is a mistake', async (args, said) => {
    const { code, err } = await here('bench', SMALL, ...args)
    expect(code).toBe(2)
    expect(err).toContain(said)
  })

  it('writes a plan to start from that can be read and run, and never over another', async () => {
    expect(built('new', 'mine.build.yaml').code).toBe(0)
    expect(await here('bench', 'mine.build.yaml')).toMatchObject({ code: 0, err: '' })
    const again = await here('new', 'mine.build.yaml')
    expect(again.code).toBe(2)
    expect(again.err).toContain('exists already')
    expect((await here('new', 'mine.build.yaml', '--force')).code).toBe(0)
    expect((await here('new', 'no/such/mine.build.yaml')).err).toContain('no such folder')
  })

  it('prints a plan alone where no file is named, with the questions beside it', async () => {
    const { code, out, err } = built('new')
    expect(code).toBe(0)
    expect(err).toContain('What is the build called?')
    writeFileSync(join(folder, 'piped.build.yaml'), out)
    expect(await here('bench', 'piped.build.yaml')).toMatchObject({ code: 0, err: '' })
    expect(await here('new', '--usual')).toEqual({ code: 0, out, err: '' })
  })

  it('writes into a plan what was changed at the bench, when told to, and never a plan that cannot be read', async () => {
    const text = readFileSync(SMALL, 'utf8')
    writeFileSync(join(folder, 'mine.yaml'), text)
    const shown = await here('edit', 'mine.yaml', 'set host/program = absent')
    expect(shown).toMatchObject({ code: 0, err: '' })
    expect(shown.out).toMatch(/^- .*program: running.*\n\+ .*program: absent/m)
    expect(readFileSync(join(folder, 'mine.yaml'), 'utf8')).toBe(text)
    expect(built('edit', 'mine.yaml', 'set host/program = absent', '--write').out).toContain(
      'Written: mine.yaml',
    )
    expect(readFileSync(join(folder, 'mine.yaml'), 'utf8')).toBe(
      text.replace('program: running', 'program: absent'),
    )
    expect((await here('edit', 'mine.yaml', 'plug F1.motor -> board.NONE9')).err).toContain(
      'Expected: a port of the board',
    )
    expect((await here('edit', 'mine.yaml', 'power off')).err).toContain('Changes are:')
    expect((await here('edit', 'mine.yaml', 'reseat F1.motor')).code).toBe(2)
  })

  it('prints a JSON Schema', () => {
    expect(JSON.parse(built('schema').out)).toMatchObject({ type: 'object' })
  })

  it('alone, offers the builds of the folder', () => {
    mkdirSync(join(folder, 'shelf'), { recursive: true })
    writeFileSync(join(folder, 'shelf', 'studio two.build.yaml'), '')
    const { stdout } = spawnSync(NODE, [PROGRAM], {
      cwd: join(folder, 'shelf'),
      env: envIn(folder),
      encoding: 'utf8',
    })
    expect(stdout).toContain("whichlead diagnose 'studio two.build.yaml'")
    mkdirSync(join(folder, 'bare'), { recursive: true })
    expect(
      spawnSync(NODE, [PROGRAM], { cwd: join(folder, 'bare'), env: envIn(folder), encoding: 'utf8' }).stdout,
    ).toContain('whichlead new')
  })

  it.each([
    ['bench', SMALL, '--list-faults', '--json'],
    // For a reader that stays this is code 2.
    ['check', 'nothing.build.yaml', '--json'],
  ])('ends quietly when the other end of a pipe has seen enough: %s', async (...args) => {
    const child = spawn(NODE, [PROGRAM, ...args], { env: envIn(folder) })
    child.stdout.destroy()
    let err = ''
    child.stderr.on('data', (d) => {
      err += d
    })
    const code = await new Promise((resolve) => child.on('exit', resolve))
    expect({ code, err }).toEqual({ code: 0, err: '' })
  })

  // More than the 64 KiB that a pipe holds on Linux (pipe(7)).
  it('waits for a reader that takes its time', () => {
    const line = '"$0" "$1" schema | { sleep 0.3; cat; }'
    const { stdout } = spawnSync('sh', ['-c', line, NODE, PROGRAM], { env: envIn(folder), encoding: 'utf8' })
    expect(stdout.length).toBeGreaterThan(100_000)
    expect(JSON.parse(stdout)).toMatchObject({ type: 'object' })
  })

  it('speaks a language that is here, and says which there are', async () => {
    expect((await here('--help', '--lang', 'en')).code).toBe(0)
    const { code, err } = await here('--help', '--lang', 'xx')
    expect(code).toBe(2)
    expect(err).toContain('There is: en')
  })
})
