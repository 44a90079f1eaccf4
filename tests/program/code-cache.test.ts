/**
 * The compiled code that the built program keeps between runs: whatever stands in the cache folder, the program says the
 * same; and nothing is run from there that somebody else may have written. Where the folder lies: XDG Base Directory Specification 0.8.
 */
import {
  chmodSync,
  copyFileSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  renameSync,
  rmSync,
  statSync,
  symlinkSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { crc32 } from 'node:zlib'
import { afterEach, beforeEach, expect, it } from 'vitest'
import { type Called, call, SMALL } from '../support/program.ts'

let folder: string
let cache: string

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'whichlead-cache-'))
  cache = join(folder, 'cache', 'whichlead')
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

const run = (env: Readonly<Record<string, string>> = {}, args: readonly string[] = ['completion', 'bash']) =>
  call(folder, args, { env: { XDG_CACHE_HOME: join(folder, 'cache'), ...env } })
const without = (args?: readonly string[]): Called => run({ WHICHLEAD_CODE_CACHE: 'off' }, args)
const kept = (): string[] => readdirSync(cache).filter((name) => name.endsWith('.code'))
/** The one file that a run has kept. */
const keptFile = (): string => {
  expect(kept()).toHaveLength(1)
  return join(cache, kept()[0] ?? '')
}

/** A file in which the start of the program is another: whoever runs it says so. */
async function poison(path: string): Promise<void> {
  const module: string = new URL('../../scripts/packed/code-cache.mjs', import.meta.url).href
  const { writeCode } = await import(module)
  const code = Buffer.alloc(64)
  const source = 'process.stdout.write("poison");process.exit(0)'
  const name = path.slice(path.lastIndexOf('/') + 1, -'.code'.length)
  writeCode(cache, name, [['start', { source, code }]], crc32)
}

it('is kept by the first run, for this user alone, and left as it is by the second', () => {
  const args = ['check', SMALL]
  const expected = without(args)
  expect(expected.out).toContain('Nothing to change')
  expect(existsSync(cache)).toBe(false)
  expect(run({}, args)).toEqual(expected)
  expect(statSync(cache).mode & 0o777).toBe(0o700)
  const before = statSync(keptFile())
  expect(before.mode & 0o777).toBe(0o600)
  expect(run({}, args)).toEqual(expected)
  expect(statSync(keptFile()).ino).toBe(before.ino)
})

it('is made anew where bytes of it are wrong, where it ends too soon, and where it is of another program', () => {
  const expected = run()
  const path = keptFile()
  const good = readFileSync(path)
  const withByte = (at: number): Buffer => {
    const bytes = Buffer.from(good)
    bytes.writeUInt8((bytes.readUInt8(at) + 1) % 256, at)
    return bytes
  }
  const named = Buffer.from(
    good.toString('latin1').replace('{"name":"completion', '{"name":"bompletion'),
    'latin1',
  )
  named.writeUInt32LE(crc32(named.subarray(named.lastIndexOf('{"name"'), -8)), named.length - 4)
  const broken = [
    withByte(100),
    withByte(good.length >> 1),
    withByte(good.length - 40),
    withByte(good.length - 8),
    good.subarray(0, good.length >> 1),
    Buffer.alloc(0),
    named,
  ]
  for (const bytes of broken) {
    writeFileSync(path, bytes)
    expect(run()).toEqual(expected)
    const mended = readFileSync(path)
    expect(mended.equals(bytes)).toBe(false)
    expect(mended.length).toBeGreaterThan(good.length / 2)
  }
})

it('is run from a folder and a file of this user’s own, and from no other', async () => {
  const expected = run()
  const path = keptFile()
  await poison(path)
  expect(run().out).toBe('poison')
  chmodSync(cache, 0o777)
  expect(run()).toEqual(expected)
  chmodSync(cache, 0o720)
  expect(run()).toEqual(expected)
  chmodSync(cache, 0o700)
  chmodSync(path, 0o666)
  expect(run()).toEqual(expected)
  await poison(path)
  const elsewhere = join(folder, 'elsewhere')
  renameSync(path, elsewhere)
  symlinkSync(elsewhere, path)
  expect(run()).toEqual(expected)
  rmSync(cache, { recursive: true })
  mkdirSync(join(folder, 'real'), { mode: 0o700 })
  symlinkSync(join(folder, 'real'), cache)
  expect(run()).toEqual(expected)
  expect(readdirSync(join(folder, 'real'))).toEqual([])
})

it('is done without where there is no folder to be had, or none is wanted', () => {
  const expected = without()
  writeFileSync(join(folder, 'file'), '')
  for (const XDG_CACHE_HOME of ['/dev/null', join(folder, 'file'), join(folder, 'not', 'there')])
    expect(run({ XDG_CACHE_HOME })).toEqual(expected)
  expect(run({ NODE_DISABLE_COMPILE_CACHE: '1' })).toEqual(expected)
  expect(run({ XDG_CACHE_HOME: 'not-absolute', HOME: '' })).toEqual(expected)
  expect(readdirSync(folder)).toEqual(['file'])
  // A path that is not absolute is invalid by the specification, and $HOME/.cache stands in for it.
  expect(run({ XDG_CACHE_HOME: 'not-absolute' })).toEqual(expected)
  expect(readdirSync(join(folder, '.cache', 'whichlead'))).toHaveLength(1)
})

it('does not grow for ever', () => {
  run()
  const own = keptFile()
  for (let i = 0; i < 20; i++) {
    const old = join(cache, `check-${i}.code`)
    copyFileSync(own, old)
    utimesSync(old, i, i)
  }
  rmSync(own)
  writeFileSync(join(cache, 'of-somebody-else'), '')
  run()
  expect(kept()).toHaveLength(16)
  expect(existsSync(own)).toBe(true)
  expect(existsSync(join(cache, 'check-0.code'))).toBe(false)
  expect(existsSync(join(cache, 'of-somebody-else'))).toBe(true)
})
