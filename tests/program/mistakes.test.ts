/**
 * What a person may hand to the program by mistake: each time one clear message on standard error that says what, where,
 * what was expected and what to do, exit code 2, nothing on standard output, and no trace of the program's inside.
 */
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeAll, beforeEach, describe, expect, it } from 'vitest'
import { ownFolder } from '../support/own-folder.ts'
import { type Called, call, SMALL, TEN } from '../support/program.ts'
import { startHere } from '../support/start-here.ts'
import { widePlan } from '../support/wide-plan.ts'

let folder: string
beforeEach(() => {
  folder = ownFolder()
  mkdirSync(join(folder, 'drawer'))
  writeFileSync(join(folder, 'two.build.yaml'), TWO)
})

/** Each line names the one before nine times: 9^9 values if they are all written out. */
function aliasBomb(): string {
  const names = [...'abcdefghi']
  return names
    .map(
      (name, i) =>
        `${name}: &${name} [${Array(9)
          .fill(i === 0 ? 'x' : `*${names[i - 1]}`)
          .join(', ')}]`,
    )
    .join('\n')
}

const TWO = `build: Two fans on a shelf
board:
  fan_headers: { CPU: { amps: 1.0 A, drive: pwm }, SYS1: { amps: 1.0 A, drive: pwm } }
parts:
  F1: { kind: fan, motor: { pins: 4, amps: 0.2 A, rpm: [500, 1500] } }
  F2: { kind: fan, motor: { pins: 4, amps: 0.2 A, rpm: [500, 1500] } }
leads:
  - F1.motor -> board.CPU
  - F2.motor -> board.SYS1
`

const INSIDE = /^\s+at .+:\d+:\d+|node:internal|\bundefined\b|\[object|TypeError|ZodError/mu

describe.each(['diagnose', 'check', 'bench', 'draw'])('%s', (command) => {
  let bad: string
  beforeAll(() => {
    bad = mkdtempSync(join(tmpdir(), 'whichlead-'))
    const write = (name: string, text: string | Uint8Array) => writeFileSync(join(bad, name), text)
    mkdirSync(join(bad, 'drawer'))
    write('empty.build.yaml', '')
    write(
      'picture.build.yaml',
      Uint8Array.from({ length: 4096 }, (_, i) => (i * 37) % 256),
    )
    write('long.build.yaml', `build: Long\n${'# nothing here\n'.repeat(350_000)}`)
    write('broken.build.yaml', 'build: Broken\nparts:\n  F1: { kind: fan\n')
    write('aliases.build.yaml', aliasBomb())
  })
  afterAll(() => rmSync(bad, { recursive: true, force: true }))

  const rest = command === 'diagnose' ? ['--symptom', 'fan-still'] : []
  const expectTold = ({ code, out, err }: Called, file: string, what: string): void => {
    expect({ code, out }).toEqual({ code: 2, out: '' })
    expect(err).toContain(what)
    expect(err.slice(0, file.length)).toBe(file)
    expect(err.slice(file.length)).toMatch(/^:\d+:\d+: /u)
    expect(err).toContain('Expected:')
    expect(err).toContain('To do:')
    expect(err).not.toMatch(INSIDE)
    expect(existsSync(join(bad, 'state'))).toBe(false)
  }

  it.each([
    ['nothing.build.yaml', 'no such file'],
    ['drawer', 'a folder'],
    ['empty.build.yaml', 'an empty file'],
    ['picture.build.yaml', 'a binary file'],
    ['long.build.yaml', 'a file of 5'],
    ['broken.build.yaml', 'broken.build.yaml:'],
    ['aliases.build.yaml', 'aliases'],
  ])('says what is wrong with %s', async (file, what) => {
    expectTold(await startHere(bad, [command, file, ...rest]), join(bad, file), what)
  })

  it.each([
    ['picture.build.yaml', 'a binary file'],
    ['broken.build.yaml', 'broken.build.yaml:'],
  ])('says it as the built program too, of %s', (file, what) => {
    expectTold(call(bad, [command, file, ...rest]), file, what)
  })
})

describe('the command line', () => {
  it('names the nearest symptom and lists them all', () => {
    const { code, out, err } = call(folder, ['diagnose', SMALL, '--symptom', 'light-dark'])
    expect({ code, out }).toEqual({ code: 2, out: '' })
    expect(err).toContain('Did you mean "lights-dark"?')
    for (const id of ['lights-dark', 'fan-still', 'zero-rpm', 'lights-stuck']) expect(err).toContain(id)
  })

  it('asks by the guide where a program drives the job and names no symptom', () => {
    const { code, out } = call(folder, ['diagnose', SMALL, '--lines'])
    expect(code).toBe(0)
    expect(JSON.parse(out.split('\n')[0] ?? '')).toMatchObject({
      type: 'hello',
      symptom: 'which-symptom',
    })
  })

  it('names the nearest command and the nearest option', () => {
    expect(call(folder, ['diagnos', SMALL])).toMatchObject({ code: 2, out: '' })
    expect(call(folder, ['diagnos', SMALL]).err).toContain('Did you mean "diagnose"?')
    expect(call(folder, ['diagnose', SMALL, '--symtom', 'x']).err).toContain('Did you mean "--symptom"?')
  })
})

describe('a log that cannot be written', () => {
  const start = (log: string) =>
    call(folder, ['diagnose', SMALL, '--symptom', 'lights-dark', '--plain', '--log', log])

  it.each([
    ['in a folder that is not there', 'nowhere/job.ndjson'],
    ['which is a folder', 'drawer'],
    ['under a file', 'two.build.yaml/job.ndjson'],
  ])('%s is told before the first question', (_what, log) => {
    const { code, out, err } = start(log)
    expect(code).toBe(2)
    expect(out).toBe('')
    expect(err).not.toBe('')
    expect(err).not.toMatch(INSIDE)
  })

  it.skipIf(process.getuid?.() === 0)('in a folder that may not be written is told too', () => {
    chmodSync(join(folder, 'drawer'), 0o555)
    expect(start('drawer/job.ndjson')).toMatchObject({ code: 2, out: '' })
  })

  it('on a device that is always full is told, with nothing made', () => {
    if (!existsSync('/dev/full')) return
    const { code, err } = start('/dev/full')
    expect(code).toBe(2)
    expect(err).not.toMatch(INSIDE)
  })

  it('and a log that is there already is not touched', () => {
    writeFileSync(join(folder, 'old.ndjson'), 'mine\n')
    expect(start('old.ndjson').code).toBe(2)
    expect(readFileSync(join(folder, 'old.ndjson'), 'utf8')).toBe('mine\n')
  })

  it('is told where the folder for jobs cannot be made', () => {
    writeFileSync(join(folder, 'state'), 'a file')
    const { code, out, err } = call(folder, ['diagnose', SMALL, '--symptom', 'lights-dark', '--plain'])
    expect(code).toBe(2)
    expect(out).toBe('')
    expect(err).not.toMatch(INSIDE)
  })
})

describe('very small and very large builds', () => {
  it('does a job on a plan with two parts', () => {
    const { code, out, err } = call(
      folder,
      ['diagnose', 'two.build.yaml', '--symptom', 'fan-still', '--plain'],
      {
        input: 'F2\n',
      },
    )
    expect({ code, err }).toEqual({ code: 0, err: '' })
    expect(out).toContain('Step 2.')
  })

  it('does a job on a plan with a thousand fans', () => {
    writeFileSync(join(folder, 'wall.build.yaml'), widePlan(1000))
    expect(call(folder, ['check', 'wall.build.yaml']).err).toBe('')
    const said = ['{"answers":["F777:no"]}', '{"answer":"new"}', '{"unsure":true}']
    const { code, out, err } = call(
      folder,
      ['diagnose', 'wall.build.yaml', '--symptom', 'fan-still', '--lines', '--log', 'wall.ndjson'],
      { input: `${said.join('\n')}\n` },
    )
    expect({ code, err }).toEqual({ code: 0, err: '' })
    const lines = out
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as { type: string; stage?: string; outcome?: string })
    expect(lines.filter((l) => l.type === 'problem')).toEqual([])
    // Past the scoping, where the engine has chosen among the suspects of a thousand fans.
    expect(lines.some((l) => l.type === 'do' || l.stage === 'check')).toBe(true)
    expect(lines.at(-1)).toMatchObject({ type: 'end', outcome: 'left' })
  })
})

describe('input that ends', () => {
  it.each(['--plain', '--lines'])(
    '%s: leaves the job with its log kept, at the very first question',
    (form) => {
      const { code, err } = call(folder, ['diagnose', TEN, '--symptom', 'lights-dark', form])
      expect({ code, err }).toEqual({ code: 0, err: '' })
      const jobs = join(folder, 'state', 'whichlead', 'jobs')
      expect(readdirSync(jobs).filter((f) => f.endsWith('.ndjson'))).toHaveLength(1)
      expect(call(folder, ['resume', form]).code).toBe(0)
    },
  )

  it('takes what is no answer for no answer, and says what would be one', () => {
    const { code, out } = call(folder, ['diagnose', TEN, '--symptom', 'lights-dark', '--lines'], {
      input: 'perhaps\n{"answer":\n[]\n{"answers":["F99:dark"]}\n\u0000\n',
    })
    expect(code).toBe(0)
    const problems = out
      .trim()
      .split('\n')
      .map((line) => JSON.parse(line) as { type: string; text?: string; expected?: unknown[] })
      .filter((l) => l.type === 'problem')
    expect(problems).toHaveLength(5)
    for (const p of problems) expect(p.expected?.length).toBeGreaterThan(0)
    expect(problems[3]?.text).toContain('There is no such answer.')
  })
})
