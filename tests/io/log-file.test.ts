/**
 * The file under a job's log on real disks: full, read-only, gone, taken. A full disk is a small file system in
 * memory where the tests may mount one, and a limit on file size (which fails in the same place) where not.
 */
import { execFileSync, spawn, spawnSync } from 'node:child_process'
import {
  appendFileSync,
  chmodSync,
  existsSync,
  mkdirSync,
  readdirSync,
  readFileSync,
  renameSync,
  statSync,
  symlinkSync,
  unlinkSync,
  writeFileSync,
} from 'node:fs'
import { hostname } from 'node:os'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { build } from 'esbuild'
import { afterAll, describe, expect, test } from 'vitest'
import { createLogFile, type LogFile, openLogFile, readLogFile } from '../../src/io/log-file.ts'
import type { Failed } from '../../src/io/trouble.ts'
import { ownFolder } from '../support/own-folder.ts'

const SINCE = '2026-03-03T09:30:00.000Z'

async function create(path: string): Promise<LogFile> {
  const made = await createLogFile(path, SINCE)
  if (!made.ok) throw new Error(made.trouble.code)
  return made.file
}

const codeOf = (result: { ok: true } | Failed): string => (result.ok ? 'ok' : result.trouble.code)

const onPosix = process.platform !== 'win32'
const asRoot = process.getuid?.() === 0

describe('a log file', () => {
  test('holds every append as it resolves, and is private to its user', async () => {
    const path = join(ownFolder(), 'job.ndjson')
    const file = await create(path)
    for (const text of ['one\n', 'zwei – drei\n', '四\n']) {
      expect(await file.append(text)).toEqual({ ok: true })
      expect(readFileSync(path, 'utf8').endsWith(text)).toBe(true)
    }
    expect(file.size()).toBe(statSync(path).size)
    if (onPosix) expect(statSync(path).mode & 0o777).toBe(0o600)
    await file.close()
    await file.close()
  })

  test('is not made over one that is there', async () => {
    const path = join(ownFolder(), 'job.ndjson')
    writeFileSync(path, 'somebody’s work\n')
    expect(codeOf(await createLogFile(path, SINCE))).toBe('exists')
    expect(readFileSync(path, 'utf8')).toBe('somebody’s work\n')
    expect(readdirSync(join(path, '..'))).toEqual(['job.ndjson'])
  })

  test('is not made in a folder that is missing, or that is a file', async () => {
    const folder = ownFolder()
    writeFileSync(join(folder, 'file'), '')
    expect(codeOf(await createLogFile(join(folder, 'no', 'job.ndjson'), SINCE))).toBe('folder-missing')
    expect(codeOf(await createLogFile(join(folder, 'file', 'job.ndjson'), SINCE))).toBe('folder-missing')
  })

  test('that is missing, a folder, or a device is refused by name of what it is', async () => {
    const folder = ownFolder()
    expect(codeOf(await openLogFile(join(folder, 'job.ndjson'), SINCE))).toBe('missing')
    expect(codeOf(await readLogFile(folder))).toBe('is-a-folder')
    if (onPosix) expect(codeOf(await readLogFile('/dev/zero'))).toBe('not-a-file')
    expect(codeOf(await createLogFile(join(folder, 'x'.repeat(300)), SINCE))).toBe('name-too-long')
  })

  test.skipIf(!onPosix || asRoot)('in a read-only folder cannot be made or gone on with', async () => {
    const folder = ownFolder()
    const path = join(folder, 'job.ndjson')
    writeFileSync(path, 'x\n')
    chmodSync(folder, 0o500)
    expect(codeOf(await createLogFile(join(folder, 'new.ndjson'), SINCE))).toBe('no-permission')
    expect(codeOf(await openLogFile(path, SINCE))).toBe('no-permission')
    expect(codeOf(await readLogFile(path))).toBe('ok')
    chmodSync(folder, 0o700)
  })
})

describe('a log file that somebody else touches', () => {
  test('takes no more once another program wrote into it', async () => {
    const path = join(ownFolder(), 'job.ndjson')
    const file = await create(path)
    await file.append('one\n')
    appendFileSync(path, 'from an editor\n')
    expect(codeOf(await file.append('two\n'))).toBe('changed-by-another')
    expect(readFileSync(path, 'utf8')).toBe('one\nfrom an editor\n')
    await file.close()
  })

  test('that was removed, or moved away with its folder, says so instead of writing into nowhere', async () => {
    const folder = join(ownFolder(), 'jobs')
    mkdirSync(folder)
    const gone = await create(join(folder, 'a.ndjson'))
    unlinkSync(join(folder, 'a.ndjson'))
    expect(codeOf(await gone.append('one\n'))).toBe('vanished')
    const moved = await create(join(folder, 'b.ndjson'))
    renameSync(folder, `${folder}.old`)
    expect(codeOf(await moved.append('one\n'))).toBe('vanished')
    renameSync(`${folder}.old`, folder)
    expect(codeOf(await moved.append('one\n'))).toBe('ok')
    await gone.close()
    await moved.close()
  })
})

describe('cutting a damaged end off', () => {
  test('keeps every byte of it beside the log, after what is there already', async () => {
    const path = join(ownFolder(), 'job.ndjson')
    writeFileSync(path, Buffer.concat([Buffer.from('good\n'), Buffer.from([0, 255, 254, 10, 7])]))
    const opened = await openLogFile(path, SINCE)
    if (!opened.ok) throw new Error(opened.trouble.code)
    expect(await opened.file.cut(5)).toEqual({ ok: true, rest: `${path}.rest` })
    expect(readFileSync(path, 'utf8')).toBe('good\n')
    expect([...readFileSync(`${path}.rest`)]).toEqual([0, 255, 254, 10, 7, 10])
    await opened.file.append('half')
    await opened.file.cut(5)
    expect(readFileSync(`${path}.rest`).subarray(6).toString()).toBe('half\n')
    if (onPosix) expect(statSync(`${path}.rest`).mode & 0o777).toBe(0o600)
    await opened.file.close()
  })
})

describe('two programs on one log', () => {
  test('the second is told who has it, and may have it once the first has closed', async () => {
    const path = join(ownFolder(), 'job.ndjson')
    const first = await create(path)
    const second = await openLogFile(path, SINCE)
    expect(second).toMatchObject({
      ok: false,
      trouble: { code: 'in-use', facts: { pid: process.pid, host: hostname(), since: SINCE } },
    })
    expect(codeOf(await readLogFile(path))).toBe('ok')
    await first.close()
    const third = await openLogFile(path, SINCE)
    expect(codeOf(third)).toBe('ok')
    if (third.ok) await third.file.close()
    expect(readdirSync(join(path, '..'))).toEqual(['job.ndjson'])
  })

  test('a lock of a program that was killed does not stand in the way', async () => {
    const path = join(ownFolder(), 'job.ndjson')
    writeFileSync(path, 'one\n')
    const ended = spawnSync(process.execPath, ['-e', '0'])
    const owner = { pid: ended.pid, host: hostname(), boot: '', started: '', since: SINCE, nonce: 'a' }
    writeFileSync(`${path}.lock`, JSON.stringify(owner))
    const opened = await openLogFile(path, SINCE)
    expect(codeOf(opened)).toBe('ok')
    if (opened.ok) await opened.file.close()
    expect(existsSync(`${path}.lock`)).toBe(false)
  })

  test.skipIf(!existsSync('/proc/self/stat'))(
    'nor one whose number now belongs to another program',
    async () => {
      const path = join(ownFolder(), 'job.ndjson')
      writeFileSync(path, 'one\n')
      const other = spawn(process.execPath, ['-e', 'setInterval(() => {}, 1000)'])
      const owner = { pid: other.pid, host: hostname(), boot: '', started: '1', since: SINCE, nonce: 'a' }
      writeFileSync(`${path}.lock`, JSON.stringify(owner))
      const opened = await openLogFile(path, SINCE)
      expect(codeOf(opened)).toBe('ok')
      if (opened.ok) await opened.file.close()
      writeFileSync(`${path}.lock`, JSON.stringify({ ...owner, started: '' }))
      expect(codeOf(await openLogFile(path, SINCE))).toBe('in-use')
      other.kill('SIGKILL')
    },
  )

  test('nor one that a power cut left empty or half', async () => {
    const path = join(ownFolder(), 'job.ndjson')
    writeFileSync(path, 'one\n')
    for (const half of ['', '{"pid":12', '[]']) {
      writeFileSync(`${path}.lock`, half)
      const opened = await openLogFile(path, SINCE)
      expect(codeOf(opened)).toBe('ok')
      if (opened.ok) await opened.file.close()
    }
  })

  test('a lock from another machine stands, since nobody here can know', async () => {
    const path = join(ownFolder(), 'job.ndjson')
    writeFileSync(path, 'one\n')
    const owner = { pid: 1, host: 'bench-7', boot: '', started: '', since: SINCE, nonce: 'a' }
    writeFileSync(`${path}.lock`, JSON.stringify(owner))
    expect(await openLogFile(path, SINCE)).toMatchObject({
      ok: false,
      trouble: { code: 'in-use', facts: { host: 'bench-7', lock: `${path}.lock` } },
    })
  })

  test('of twenty that try at once, exactly one gets it, also over a dead lock', async () => {
    const path = join(ownFolder(), 'job.ndjson')
    writeFileSync(path, 'one\n')
    const ended = spawnSync(process.execPath, ['-e', '0'])
    for (let round = 0; round < 5; round++) {
      const owner = { pid: ended.pid, host: hostname(), boot: '', started: '', since: SINCE, nonce: 'a' }
      writeFileSync(`${path}.lock`, JSON.stringify(owner))
      const all = await Promise.all(Array.from({ length: 20 }, () => openLogFile(path, SINCE)))
      expect(all.filter((one) => one.ok).length).toBe(1)
      for (const one of all) if (one.ok) await one.file.close()
    }
    expect(readdirSync(join(path, '..'))).toEqual(['job.ndjson'])
  })

  test('what is locked under one name is locked under a link to it as well', async () => {
    const folder = ownFolder()
    const file = await create(join(folder, 'job.ndjson'))
    symlinkSync(join(folder, 'job.ndjson'), join(folder, 'latest'))
    expect(codeOf(await openLogFile(join(folder, 'latest'), SINCE))).toBe('in-use')
    await file.close()
  })
})

/** A file system of 16 kB, if this machine lets us have one. */
function smallDisk(): { folder: string; done: () => void } | undefined {
  const folder = ownFolder()
  try {
    execFileSync('mount', ['-t', 'tmpfs', '-o', 'size=16k', 'tmpfs', folder], { stdio: 'ignore' })
    return { folder, done: () => execFileSync('umount', [folder]) }
  } catch {
    return undefined
  }
}

describe('a full disk', () => {
  const probe = smallDisk()
  probe?.done()
  const cleanups: (() => void)[] = []
  afterAll(() => {
    for (const done of cleanups) done()
  })

  test.skipIf(probe === undefined)(
    'fails the append, leaves what was there, and takes it once there is room',
    async () => {
      const disk = smallDisk() as NonNullable<typeof probe>
      const path = join(disk.folder, 'job.ndjson')
      const file = await create(path)
      const line = `${'x'.repeat(999)}\n`
      let held = 0
      let last = 'ok'
      for (let i = 0; i < 40 && last === 'ok'; i++) {
        last = codeOf(await file.append(line.repeat(3)))
        if (last === 'ok') held += 3
      }
      expect(last).toBe('disk-full')
      expect(held).toBeGreaterThan(0)
      expect(readFileSync(path, 'utf8')).toBe(line.repeat(held))
      execFileSync('mount', ['-o', 'remount,size=64k', disk.folder])
      expect(await file.append('after all\n')).toEqual({ ok: true })
      expect(readFileSync(path, 'utf8')).toBe(`${line.repeat(held)}after all\n`)
      await file.close()
      disk.done()
    },
  )

  test.skipIf(probe === undefined)('a disk that turned read-only is named', async () => {
    const disk = smallDisk() as NonNullable<typeof probe>
    const path = join(disk.folder, 'job.ndjson')
    writeFileSync(path, 'one\n')
    execFileSync('mount', ['-o', 'remount,ro', disk.folder])
    expect(codeOf(await openLogFile(path, SINCE))).toBe('read-only')
    expect(codeOf(await createLogFile(join(disk.folder, 'b.ndjson'), SINCE))).toBe('read-only')
    expect(codeOf(await readLogFile(path))).toBe('ok')
    disk.done()
  })

  test.skipIf(!onPosix)('a limit on the size of files fails the append and leaves whole lines', async () => {
    const folder = ownFolder()
    const outfile = join(folder, 'writer.mjs')
    const from = fileURLToPath(new URL('../../src/io/log-file.ts', import.meta.url))
    const source = join(folder, 'writer.ts')
    writeFileSync(
      source,
      `import { createLogFile } from ${JSON.stringify(from)}
       const made = await createLogFile('job.ndjson', '')
       for (let i = 0; i < 40; i++) {
         const done = await made.file.append('x'.repeat(99) + '\\n')
         if (!done.ok) { console.log(done.trouble.code, i); process.exit(0) }
       }`,
    )
    await build({
      entryPoints: [source],
      outfile,
      bundle: true,
      platform: 'node',
      format: 'esm',
      logLevel: 'silent',
    })
    // Blocks of 512 bytes: two of them hold ten lines and a bit.
    const ran = spawnSync('sh', ['-c', `ulimit -f 2; exec "${process.execPath}" writer.mjs`], { cwd: folder })
    const [code, lines] = ran.stdout.toString().trim().split(' ')
    expect(code).toBe('limit-reached')
    expect(Number(lines)).toBeGreaterThan(0)
    expect(readFileSync(join(folder, 'job.ndjson'), 'utf8')).toBe(`${'x'.repeat(99)}\n`.repeat(Number(lines)))
  })
})
