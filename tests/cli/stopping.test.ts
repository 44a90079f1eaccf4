/** The built program line by line, and whatever can stop it: the end of the input, signals, a kill, a full or closed disk. */
import { type ChildProcess, spawn } from 'node:child_process'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { ownFolder } from '../support/own-folder.ts'
import { call as called, envIn, NODE, PROGRAM, SMALL } from '../support/program.ts'

let folder: string
let log: string
let child: ChildProcess | undefined

beforeEach(() => {
  folder = ownFolder()
  log = join(folder, 'job.ndjson')
})
afterEach(() => {
  child?.kill('SIGKILL')
})

/** The program with an open input; `until` waits for a text on its output, `end` for its exit. */
function begin(...args: string[]) {
  const started = spawn(NODE, [PROGRAM, ...args], { cwd: folder, env: envIn(folder) })
  child = started
  let out = ''
  let err = ''
  let heard: () => void = () => {}
  started.stdout.on('data', (chunk) => {
    out += chunk
    heard()
  })
  started.stderr.on('data', (chunk) => {
    err += chunk
  })
  const gone = new Promise<{ code: number | null; signal: string | null }>((resolve) =>
    started.on('close', (code, signal) => resolve({ code, signal })),
  )
  const until = async (text: string) => {
    while (!out.includes(text)) {
      await Promise.race([
        new Promise<void>((resolve) => {
          heard = resolve
        }),
        gone.then(() => {
          if (!out.includes(text)) throw new Error(`ended without "${text}":\n${out}\n${err}`)
        }),
      ])
    }
  }
  return {
    type: (line: string) => started.stdin.write(`${line}\n`),
    until,
    kill: (signal: NodeJS.Signals) => started.kill(signal),
    end: async () => ({ ...(await gone), out, err }),
  }
}

const diagnose = (...more: string[]) =>
  begin('diagnose', SMALL, '--symptom', 'lights-dark', '--log', log, '--plain', ...more)

const call = (input: string, ...args: string[]) => called(folder, args, { input })

describe('a job that is stopped', () => {
  it.each([
    ['SIGINT', 130],
    ['SIGTERM', 143],
    ['SIGHUP', 129],
  ] as const)('%s ends it with %i, says where the log is, and loses no answer', async (signal, code) => {
    const job = diagnose()
    await job.until('Step 1.')
    job.type('F2')
    await job.until('When did the lights go dark?')
    job.kill(signal)
    const ended = await job.end()
    expect(ended.code).toBe(code)
    expect(ended.err).toContain(`whichlead resume ${log}`)
    expect(ended.err).not.toContain('    at ')
    const again = call('path\n', 'resume', log, '--plain')
    expect(again.code).toBe(0)
    expect(again.out).toContain('When did the lights go dark?')
    expect(again.out).toMatch(/1[.] Which lights .* F2 \(rear\): dark/u)
  })

  it('a kill in the middle loses no answer that was taken', async () => {
    const job = diagnose()
    await job.until('Step 1.')
    job.type('F2')
    await job.until('When did the lights go dark?')
    job.type('new')
    await job.until('Are the lights dark all the time')
    job.kill('SIGKILL')
    expect((await job.end()).signal).toBe('SIGKILL')
    const again = call('', 'resume', log, '--plain')
    expect(again.err).toBe('')
    expect(again.out).toContain('Are the lights dark all the time')
  })

  it('the end of the input leaves it, and it can be taken up without naming its log', () => {
    const first = call('F2\n', 'diagnose', SMALL, '--symptom', 'lights-dark')
    expect(first.code).toBe(0)
    expect(first.out).toContain('whichlead resume ')
    const again = call('', 'resume')
    expect(again.out).toContain('When did the lights go dark?')
    expect(call('', 'jobs').out).toContain('Listening desk')
    expect(call('').out).toContain('Jobs to take up again:')
  })

  it('a job that has ended is not taken up again', () => {
    call('F2\nhand over\n', 'diagnose', SMALL, '--symptom', 'lights-dark', '--log', log)
    const again = call('', 'resume', log)
    expect(again.code).toBe(2)
    expect(again.err).toContain('This job has ended')
    expect(call('', 'resume').err).toContain('There is no job to take up again.')
  })

  it('hands over with 1: it ended without a fix', () => {
    const { code, out } = call('F2\nhand over\n', 'diagnose', SMALL, '--symptom', 'lights-dark', '--log', log)
    expect(code).toBe(1)
    expect(out).toContain('Handing over: Listening desk')
  })
})

describe('a job that cannot be opened', () => {
  it('asks for the symptom when it was not given, and takes it from the same input', () => {
    const { code, out } = call('purple\n4\nCPU\n', 'diagnose', SMALL, '--log', log)
    expect(code).toBe(0)
    expect(out).toContain('"purple" is not one of the answers')
    expect(out).toContain('Listening desk. A header reports 0 RPM.')
    expect(out).toContain('Noted: Speed shown for header CPU on the board')
  })

  it.each([
    [['--symptom', 'light-dark'], 'Did you mean "lights-dark"'],
    [['--symptom', 'lights-dark', '--log', 'no/such/job.ndjson'], 'no such folder'],
    [['--symptom', 'lights-dark', '--log', '.'], 'Name another'],
  ])('%j is a mistake, told with what to do', (args, said) => {
    const { code, out, err } = call('', 'diagnose', SMALL, ...args)
    expect(code).toBe(2)
    expect(out).toBe('')
    expect(err).toContain(said)
    expect(err).not.toContain('    at ')
  })

  it('tells a program at the other end by a problem line too', () => {
    for (const args of [
      [SMALL, '--symptom', 'purple'],
      [join(folder, 'nothing.yaml'), '--symptom', 'lights-dark'],
      [SMALL, '--symptom', 'lights-dark', '--log', 'no/such/job.ndjson'],
    ]) {
      const { code, out, err } = call('', 'diagnose', '--lines', ...args)
      expect(code).toBe(2)
      expect(JSON.parse(out)).toMatchObject({ type: 'problem', expected: [] })
      expect(err).not.toBe('')
    }
  })
})
