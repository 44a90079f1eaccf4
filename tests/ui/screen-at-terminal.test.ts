/** The screen at a real pseudo-terminal: what a person would see, at three sizes, and how it is left. */
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterAll, afterEach, beforeAll, describe, expect, test } from 'vitest'
import { openPty, type Pty, type PtyOptions } from '../support/pty.ts'
import { type Bundle, bundle } from './support/bundle.ts'

let program: Bundle
const open: Pty[] = []
let count = 0

beforeAll(async () => {
  program = await bundle('lights-job.ts')
})
afterEach(async () => {
  for (const pty of open.splice(0)) {
    pty.kill()
    await pty.ended
    pty.screen.dispose()
  }
})
afterAll(() => program.remove())

interface Job {
  readonly pty: Pty
  /** What was said to the job, in order. */
  readonly said: () => unknown[]
  /** What was wrong with any frame that was drawn, if anything. */
  readonly flaws: () => string[]
}

function start(columns: number, rows: number, options: Partial<PtyOptions> = {}): Job {
  const file = join(program.folder, `said-${count++}.ndjson`)
  const pty = openPty({
    command: process.execPath,
    arguments: [program.file],
    columns,
    rows,
    ...options,
    env: { SAID: file, ...options.env },
  })
  open.push(pty)
  const flaws: string[] = []
  pty.onDrawn(() => {
    if (!pty.screen.alternate()) return
    const seen = pty.screen.rows()
    // Between a resize and the program's next frame the old one stands there, cut.
    if (seen[1]?.length !== pty.screen.columns()) return
    if (pty.screen.wrapped() > 0) flaws.push(`a line was longer than the terminal: ${seen.join('\n')}`)
    if ((seen.at(-1) ?? '') !== '') flaws.push(`a frame was as tall as the terminal: ${seen.join('\n')}`)
  })
  const said = (): unknown[] => {
    try {
      return readFileSync(file, 'utf8')
        .trim()
        .split('\n')
        .map((line) => JSON.parse(line))
    } catch {
      return []
    }
  }
  return { pty, said, flaws: () => flaws }
}

const FIRST = 'Which lights are dark'
/** Enter sooner after the last one than a person could be: another key between says that it is meant. */
const AFRESH = 'k\r'
const answer = (...ids: string[]) => ({ say: 'answer', ids })

/** The whole job, each key waited for; the question of each step must be on the screen. */
async function wholeJob({ pty }: Job): Promise<void> {
  await pty.until(FIRST)
  pty.write('3')
  await pty.until(/▸ *3 \[ \] F3/u)
  pty.write(' ')
  await pty.until('F3: dark')
  pty.write('\r')
  await pty.until('When did the lights go dark?')
  pty.write('\x1b[B')
  await pty.until(/▸ 2/u)
  pty.write('\r')
  await pty.until('How are they?')
  pty.write(AFRESH)
  await pty.until('Shut the machine down')
  await pty.until('All of this is done')
  pty.write('G')
  await pty.until(/they come first/u)
  pty.write('2')
  await pty.until(/▸ 2 {2}All/u)
  pty.write('\r')
  await pty.until(/POWER OFF[\s\S]*press on it/u)
  pty.write('j')
  await pty.until(/▸ 2 {2}Not home/u)
  pty.write('\r')
  await pty.until('Likely cause')
  pty.write(AFRESH)
  await pty.until('Repair:')
  pty.write(AFRESH)
  await pty.until('Take your hands out')
  await pty.until('All of this is done')
  pty.write('j')
  await pty.until(/▸ 2 {2}All/u)
  pty.write('\r')
  await pty.until(/POWER ON[\s\S]*This is the proof/u)
  pty.write('3')
  await pty.until(/▸ 3/u)
  pty.write('\r')
  await pty.until('Fixed, and proven')
  pty.write(AFRESH)
}

const SAID = [
  answer('F3=dark'),
  answer('changed'),
  answer('dark'),
  { say: 'done' },
  answer('no'),
  { say: 'done' },
  { say: 'done' },
  answer('whole'),
]

describe.each([
  [80, 24],
  [60, 20],
  [132, 43],
])('at %i columns and %i rows', (columns, rows) => {
  test('the whole job runs, nothing is cut off, the record stays in the scrollback', async () => {
    const job = start(columns, rows)
    await wholeJob(job)
    expect((await job.pty.ended).code).toBe(0)
    expect(job.said()).toEqual(SAID)
    expect(job.flaws()).toEqual([])
    expect(job.pty.screen.alternate()).toBe(false)
    const left = job.pty.screen.history().join('\n').replace(/\s+/g, ' ')
    expect(left).toContain('Record of the job: Radio archive workstation, Lights dead on some fans')
    expect(left).toContain('2. When did the lights go dark? – After something was changed')
    expect(left).toContain('Fixed, and proven')
    expect(left).toContain('Log: archive-lights-dark.job.ndjson')
    expect(job.pty.output()).toContain('\x1b[?25h')
  })
})

describe('bursts', () => {
  test('keys in one write pick what they would pick one by one', async () => {
    const job = start(80, 24)
    await job.pty.until(FIRST)
    job.pty.write('3 1  \r')
    await job.pty.until('When did the lights go dark?')
    job.pty.write('\x1b[B\x1b[B\x1b[A\r')
    await job.pty.until('How are they?')
    job.pty.write('jjj\r')
    await job.pty.until('Shut the machine down')
    expect(job.said()).toEqual([answer('F3=dark', 'F1=part'), answer('changed'), answer('flicker')])
    expect(job.flaws()).toEqual([])
  })

  test('down and Enter, however close, record the row that was highlighted', async () => {
    const job = start(80, 24)
    await job.pty.until(FIRST)
    job.pty.write(' \r')
    const wanted: unknown[] = [answer('F1=dark')]
    const rounds = ['new', 'changed', 'suddenly', 'changed', 'suddenly', 'new', 'suddenly', 'changed']
    for (const [i, id] of rounds.entries()) {
      await job.pty.until(
        (seen) => /▸ 1/u.test(seen.join('\n')) && seen.join('\n').includes('When did the lights go dark?'),
      )
      const downs = ['new', 'changed', 'suddenly'].indexOf(id)
      // All in one write, or a write a key: the terminal joins and parts them as it likes.
      const moves = Array.from({ length: downs }, () => (i % 2 === 0 ? 'j' : '\x1b[B'))
      const keys = downs === 0 ? [AFRESH] : [...moves, '\r']
      if (i % 3 === 0) job.pty.write(keys.join(''))
      else for (const key of keys) job.pty.write(key)
      await job.pty.until('How are they?')
      job.pty.write('u')
      wanted.push(answer(id), { say: 'undo' })
    }
    await job.pty.until('When did the lights go dark?')
    expect(job.said()).toEqual(wanted)
  })

  test('what is typed ahead of a gate does not pass it', async () => {
    const job = start(80, 24, { env: { SETTLE: '300' } })
    await job.pty.until(FIRST)
    job.pty.write(' \r')
    await job.pty.until('When did the lights go dark?')
    job.pty.write(AFRESH)
    await job.pty.until('How are they?')
    job.pty.write(AFRESH)
    // In one write: between two of them a busy machine may leave the keyboard quiet for as long as a gate asks.
    job.pty.write('G2\rj\r'.repeat(12))
    await job.pty.until('All of this is done')
    expect(job.said()).toHaveLength(3)
    expect(job.pty.rows().join('\n')).toContain('POWER ON')
  })
})

describe('how it is left', () => {
  test.each(['\x1b[200~pasted\x1b[201~\x03', 'n a note\x03'])(
    'Ctrl+C in %j ends with 130, the log closed, the terminal as it was',
    async (keys) => {
      const { pty } = start(80, 24)
      await pty.until(FIRST)
      pty.write(keys)
      expect(await pty.ended).toEqual({ code: 130, signal: 0 })
      expect(pty.screen.alternate()).toBe(false)
      expect(pty.output().endsWith('\n')).toBe(true)
      const left = pty.screen.history().join('\n')
      expect(left).toContain('whichlead resume archive-lights-dark.job.ndjson')
    },
  )

  test('an exception of the job gives the terminal back before it is told', async () => {
    const { pty } = start(80, 24, { env: { BREAKS: '1' } })
    await pty.until(FIRST)
    pty.write(' \r')
    expect((await pty.ended).code).toBe(70)
    expect(pty.screen.alternate()).toBe(false)
    expect(pty.screen.history().join('\n')).toContain('told: the disk is full')
  })

  test('keys that mean nothing here, function keys with Ctrl among them, do no harm', async () => {
    const { pty, said } = start(80, 24)
    await pty.until(FIRST)
    pty.write('\x1b[1;5P\x1b[25;5~\x1bOP\x1b[I\x1b[<0;4;4M\x04\x01%$Z')
    pty.write(' \r')
    await pty.until('When did the lights go dark?')
    expect(said()).toEqual([answer('F1=dark')])
  })

  test('q asks, Enter leaves, and how to go on stands below the prompt', async () => {
    const { pty, said } = start(80, 24)
    await pty.until(FIRST)
    pty.write('q')
    await pty.until('Leave?')
    pty.write('\r')
    expect((await pty.ended).code).toBe(0)
    expect(said()).toEqual([{ say: 'leave' }])
    expect(pty.screen.history().join('\n')).toContain('Take it up again with: whichlead resume')
  })

  test('Ctrl+Z stops it with the terminal restored, fg brings the same question back', async () => {
    const { pty } = start(80, 24, {
      command: 'bash',
      arguments: ['--norc', '--noprofile', '-i'],
      env: { PS1: 'shell> ', PROGRAM: program.file, NODE: process.execPath },
    })
    await pty.until('shell>')
    pty.write('"$NODE" "$PROGRAM"\r')
    await pty.until(FIRST)
    pty.write('2 ')
    await pty.until('F2: dark')
    pty.write('\x1a')
    await pty.until((seen) => !pty.screen.alternate() && /Stopped/.test(seen.join('\n')))
    pty.write('fg\r')
    await pty.until((seen) => pty.screen.alternate() && seen.join('\n').includes('F2: dark'))
    pty.write('\r')
    await pty.until('When did the lights go dark?')
    pty.write('\x03')
    await pty.until((seen) => !pty.screen.alternate() && seen.join('\n').includes('shell>'))
    pty.write('exit 0\r')
    await pty.ended
  })
})

describe('sizes that change', () => {
  test('a resize in the middle redraws without scraps, with the same row highlighted', async () => {
    const { pty, flaws } = start(132, 43)
    await pty.until(FIRST)
    pty.write(' \r')
    await pty.until('When did the lights go dark?')
    pty.write('j')
    await pty.until(/▸ 2/u)
    for (const [columns, rows] of [
      [60, 20],
      [200, 60],
      [80, 24],
      [61, 33],
    ] as const) {
      pty.resize(columns, rows)
      const seen = await pty.until(
        (lines) =>
          (lines[1] ?? '').length === columns &&
          /When did the lights go dark\?[\s\S]*▸ 2/u.test(lines.join('\n')),
      )
      expect(seen.filter((l) => l.includes('POWER ON'))).toHaveLength(1)
      expect(seen.filter((l) => l.includes('▸'))).toHaveLength(1)
    }
    pty.resize(40, 10)
    await pty.until('--plain')
    pty.resize(80, 24)
    await pty.until(/▸ 2/u)
    pty.write('\r')
    await pty.until('How are they?')
    expect(flaws()).toEqual([])
  })
})

describe('surroundings', () => {
  test('no colour is set, and what is to be read is never dimmed, so that it is read on any ground', async () => {
    const { pty } = start(80, 24, { env: { FORCE_COLOR: '3' } })
    await pty.until(FIRST)
    pty.write(' d')
    await pty.until('Wiring of the build')
    pty.write('d\r')
    await pty.until('When did the lights go dark?')
    pty.write('w')
    await pty.until('Why this step')
    const looks = [...pty.output().matchAll(new RegExp(`${String.fromCharCode(27)}\\[([0-9;]*)m`, 'gu'))]
    expect(looks.length).toBeGreaterThan(0)
    // ECMA-48, 8.3.117: 1 bold, 2 faint, 7 inverse, and their ends; 30 to 49 and 90 to 107 would be colours.
    const allowed = ['0', '1', '2', '7', '22', '27']
    for (const [, set = ''] of looks) for (const one of set.split(';')) expect(allowed).toContain(one)
    const dim = pty.screen.runs().flatMap((runs) => runs.filter((run) => run.dim))
    expect(dim.length).toBeGreaterThan(0)
    for (const { text } of dim) expect(text).not.toMatch(/[\p{L}\p{N}]/u)
  })

  test('in plain ASCII every byte of the screen is one', async () => {
    const { pty } = start(80, 24, { env: { ASCII: '1' } })
    await pty.until(FIRST)
    pty.write(' \r')
    await pty.until(/> 1/u)
    expect(pty.output()).toMatch(/^\p{ASCII}*$/u)
  })
})
