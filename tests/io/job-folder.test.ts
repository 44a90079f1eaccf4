/** Where jobs are kept, and names that any file system takes. */
import { mkdirSync, statSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, test } from 'vitest'
import { jobFolder, logName, logsIn, makeJobFolder, nameWord } from '../../src/io/job-folder.ts'
import fc from '../support/fast-check.ts'
import { ownFolder } from '../support/own-folder.ts'

describe('the folder of jobs', () => {
  // XDG Base Directory Specification 0.8: default $HOME/.local/state; relative paths are invalid and ignored.
  test('is in the state folder of the user', () => {
    const at = (env: Record<string, string>) => jobFolder({ env, platform: 'linux', home: '/home/bench' })
    expect(at({})).toBe('/home/bench/.local/state/whichlead/jobs')
    expect(at({ XDG_STATE_HOME: '/var/bench' })).toBe('/var/bench/whichlead/jobs')
    expect(at({ XDG_STATE_HOME: 'bench' })).toBe('/home/bench/.local/state/whichlead/jobs')
    expect(at({ XDG_STATE_HOME: '' })).toBe('/home/bench/.local/state/whichlead/jobs')
  })

  test('is made for its user only, and may be there already', async () => {
    const folder = join(ownFolder(), 'a', 'b')
    expect(await makeJobFolder(folder)).toEqual({ ok: true })
    expect(await makeJobFolder(folder)).toEqual({ ok: true })
    if (process.platform !== 'win32') expect(statSync(folder).mode & 0o777).toBe(0o700)
  })

  test('cannot be made where a file stands', async () => {
    const folder = ownFolder()
    writeFileSync(join(folder, 'jobs'), '')
    for (const path of [join(folder, 'jobs'), join(folder, 'jobs', 'x')])
      expect(await makeJobFolder(path)).toMatchObject({ ok: false, trouble: { code: 'folder-missing' } })
  })

  test('lists logs, the latest first, and nothing else', async () => {
    const folder = ownFolder()
    for (const name of [
      '2026-01-02-a.ndjson',
      '2026-01-10-b.ndjson',
      '2026-01-10-b.ndjson.lock',
      'x.rest',
      '.a.ndjson',
    ])
      writeFileSync(join(folder, name), '')
    mkdirSync(join(folder, 'old'))
    expect(await logsIn(folder)).toEqual({
      ok: true,
      paths: [join(folder, '2026-01-10-b.ndjson'), join(folder, '2026-01-02-a.ndjson')],
    })
    expect(await logsIn(join(folder, 'none'))).toEqual({ ok: true, paths: [] })
  })
})

describe('the name of a log', () => {
  test('tells when, which build, and what was wrong', () => {
    expect(logName('2026-03-03T09:30:05.120Z', 'Radio archive / workstation', 'lights-dark')).toBe(
      '2026-03-03-093005-radio-archive-workstation-lights-dark.ndjson',
    )
    expect(logName('2026-03-03T09:30:05.120Z', '../../etc', 'x', 3)).toBe('2026-03-03-093005-etc-x-3.ndjson')
    expect(nameWord('Übergröße Nº 7')).toBe('übergröße-nº-7')
    expect(nameWord('録音室の一号機')).toBe('録音室の一号機')
    expect(nameWord('\u0000\u001b[2J')).toBe('2j')
    expect(nameWord('…')).toBe('job')
  })

  test('is one that every file system takes, whatever the build is called', () => {
    fc.assert(
      fc.property(fc.string({ unit: 'binary', maxLength: 300 }), (build) => {
        const name = logName('2026-03-03T09:30:05.120Z', build, build, 12)
        expect(new TextEncoder().encode(name).length).toBeLessThanOrEqual(255)
        expect(name).toMatch(/^2026-03-03-093005-[^/\\:*?"<>|\s\p{Cc}]+\.ndjson$/u)
      }),
    )
  })
})
