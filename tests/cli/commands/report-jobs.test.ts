/**
 * `report` and `jobs` as they are called, on a folder of logs: one job fixed, one left, one file damaged, one that is
 * no log. No terminal; the world is handed in.
 */
import { mkdirSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { beforeEach, describe, expect, test } from 'vitest'
import type { Given, Run, Shell } from '../../../src/cli/command.ts'
import { run as jobs } from '../../../src/cli/commands/jobs.ts'
import { run as report } from '../../../src/cli/commands/report.ts'
import type { LogBody, Opened } from '../../../src/job/log/event.ts'
import type { Summary } from '../../../src/job/report/summary.ts'
import { english } from '../../../src/wording/en/english.ts'
import { jobBodies, writtenJob } from '../../support/job-log.ts'
import { ownFolder } from '../../support/own-folder.ts'

let state: string
let folder: string
const FIXED = '2026-03-03-093000-reading-room.ndjson'
const LEFT = '2026-03-04-080000-map-room.ndjson'
const DAMAGED = '2026-03-02-080000-reading-room.ndjson'

beforeEach(() => {
  state = ownFolder()
  folder = join(state, 'whichlead', 'jobs')
  mkdirSync(folder, { recursive: true })
})

const inMapRoom = jobBodies.slice(0, 15).map((body): LogBody => {
  return body.e === 'opened' ? { ...body, build: 'Map room, =2nd "floor"', who: 'late shift' } : body
})

function fill(): void {
  const { lines } = writtenJob()
  writeFileSync(join(folder, FIXED), writtenJob().text)
  writeFileSync(join(folder, LEFT), writtenJob(inMapRoom).text)
  writeFileSync(join(folder, DAMAGED), `${lines.map((l, i) => (i === 9 ? `${l} ` : l)).join('\n')}\n`)
  writeFileSync(join(folder, 'shopping.ndjson'), 'bread\n')
}

interface Called {
  readonly code: number
  readonly out: string
  readonly err: string
}

async function call(
  run: Run,
  args: readonly string[] = [],
  values: Record<string, string> = {},
  flags: readonly string[] = [],
): Promise<Called> {
  let out = ''
  let err = ''
  const stdout = {
    write: (text: string) => {
      out += text
      return true
    },
  }
  const shell = {
    language: english,
    cwd: state,
    env: { XDG_STATE_HOME: state },
    stdout,
    job: {},
    out: (line: string) => void stdout.write(`${line}\n`),
    err: (line: string) => {
      err += `${line}\n`
    },
  } as unknown as Shell
  const given: Given = {
    arguments: args,
    flags: new Set(flags),
    values: new Map(Object.entries(values)),
    lists: new Map(),
  }
  return { code: await run(given, shell), out, err }
}

describe('whichlead report', () => {
  test('without a log takes the newest job', async () => {
    fill()
    const found = await call(report)
    expect(found).toMatchObject({ code: 0, err: '' })
    expect(found.out).toMatch(/^# Map room, =2nd "floor": lights dead on some fans\n/)
  })

  test('says what there is where there is no job at all', async () => {
    expect(await call(report)).toMatchObject({ code: 2, out: '', err: expect.stringContaining('no job yet') })
  })

  test('writes a file by its ending, private, and replaces one only when told', async () => {
    fill()
    const log = join('whichlead', 'jobs', FIXED)
    expect(await call(report, [log], { out: 'page.html' })).toMatchObject({ code: 0, err: '' })
    expect(readFileSync(join(state, 'page.html'), 'utf8')).toMatch(/^<!doctype html>/)
    if (process.platform !== 'win32') expect(statSync(join(state, 'page.html')).mode & 0o777).toBe(0o600)
    const again = await call(report, [log], { out: 'page.html' })
    expect(again.code).toBe(2)
    expect(again.err).toContain('page.html')
    expect(await call(report, [log], { out: 'page.html' }, ['force', 'json'])).toMatchObject({
      code: 0,
    })
    expect(JSON.parse(readFileSync(join(state, 'page.html'), 'utf8'))).toMatchObject({
      report: 1,
      outcome: 'fixed',
      build: 'Reading room workstation',
    })
    expect((await call(report, [log], { out: 'no/such/page.md' })).err).toContain('no such folder')
  })

  test('of a damaged log makes the page of what is sound, and names the line', async () => {
    fill()
    const found = await call(report, [join(folder, DAMAGED)])
    expect(found.code).toBe(0)
    expect(found.err).toContain('Line 10: not a line of a job log; up to line 11 nothing can be checked.')
    expect(found.out).toContain('Which fans are dark?')
    expect(found.out).not.toContain('Push the light lead of F1 home.')
  })

  test('refuses what is no log, with what it found', async () => {
    fill()
    for (const [path, said] of [
      ['whichlead/jobs/shopping.ndjson', 'This is not a job log.'],
      ['nothing.ndjson', 'there is no such file'],
      ['.', 'this is a folder'],
    ]) {
      const found = await call(report, [path as string])
      expect(found.code).toBe(2)
      expect(found.err).toContain(said)
      expect(found.out).toBe('')
    }
  })

  test('without names can be handed to anybody', async () => {
    fill()
    for (const form of [[], ['html'], ['json']]) {
      const found = await call(report, [join(folder, FIXED)], {}, ['without-names', ...form])
      expect(found.code).toBe(0)
      for (const word of ['early shift', 'bench 2', 'quick look', state])
        expect(found.out).not.toContain(word)
    }
  })
})

describe('whichlead jobs', () => {
  test('lists the newest first, with cause and state, and names what it cannot read', async () => {
    fill()
    const found = await call(jobs)
    expect(found.code).toBe(0)
    const lines = found.out.split('\n')
    expect(lines[0]).toMatch(/^2026-03-03 09:30 {2}Map room, .*not finished, /)
    expect(lines[1]).toBe(`  ${join(folder, LEFT)}`)
    expect(lines[2]).toMatch(/Reading room.*fixed and proven: the light plug of F1.*, 6 minutes$/)
    expect(lines[4]).toMatch(/Reading room.*not finished.*\(log damaged\)$/)
    expect(lines[6]).toBe('3 jobs, 1 ended.')
    expect(found.err).toBe(`${join(folder, 'shopping.ndjson')} holds no job that can be read.\n`)
  })

  test('finds jobs by words', async () => {
    fill()
    const found = await call(jobs, ['map', 'late'])
    expect(found.out).toContain('1 job, 0 ended.')
    expect((await call(jobs, ['cellar'])).out).toBe('No job has "cellar" in it.\n')
  })

  test('gives CSV that a spreadsheet reads and does not run', async () => {
    fill()
    const { out } = await call(jobs, ['map'], {}, ['csv'])
    const [head, row] = out.split('\r\n')
    expect(head).toBe('log,began,build,symptom,outcome,minutes,cause,p,who,where')
    expect(row).toContain(',"Map room, =2nd ""floor""",lights-dark,open,0.5,,,late shift,bench 2')
    writeFileSync(
      join(folder, '2026-04-01-x.ndjson'),
      writtenJob([{ ...(jobBodies[0] as Opened), build: '=1+1', who: '@x' }]).text,
    )
    const formula = await call(jobs, ['=1+1'], {}, ['csv'])
    expect(formula.out).toContain(",'=1+1,lights-dark,open,0,,,'@x,")
  })

  test('gives JSON', async () => {
    fill()
    const found = JSON.parse((await call(jobs, [], {}, ['json'])).out)
    expect(found.map((job: Summary) => [job.build, job.outcome, job.damaged])).toEqual([
      ['Map room, =2nd "floor"', 'open', false],
      ['Reading room workstation', 'fixed', false],
      ['Reading room workstation', 'open', true],
    ])
  })

  test('of an empty folder, or none, says where it looked', async () => {
    const found = await call(jobs)
    expect(found).toMatchObject({ code: 0, err: '' })
    expect(found.out).toContain(folder)
  })
})
