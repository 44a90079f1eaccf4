/** Where readings come from: files of any kind, and the chips of the machine, which are only ever read. */
import { execFileSync } from 'node:child_process'
import { mkdirSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs'
import { writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { expect, test } from 'vitest'
import { readText } from '../../src/core/readings/recognize.ts'
import { fetchReading, LARGEST_READING } from '../../src/io/reading-source.ts'
import { ownFolder } from '../support/own-folder.ts'

const where = (cwd: string) => ({ cwd, platform: process.platform })

test('a file is taken as it is, from where the program was started', async () => {
  const folder = ownFolder()
  writeFileSync(join(folder, 'fans.json'), '{"a":1}')
  expect(await fetchReading('fans.json', where(folder))).toEqual({ ok: true, text: '{"a":1}' })
})

test('a file that a shell of Windows wrote in UTF-16 is taken too', async () => {
  const folder = ownFolder()
  writeFileSync(join(folder, 'usb.txt'), Buffer.from('\ufeffBus 001', 'utf16le'))
  expect(await fetchReading('usb.txt', where(folder))).toEqual({ ok: true, text: 'Bus 001' })
})

test.skipIf(process.platform === 'win32')('a named pipe gives what is written into it', async () => {
  const folder = ownFolder()
  const pipe = join(folder, 'pipe')
  execFileSync('mkfifo', [pipe])
  const [reading] = await Promise.all([fetchReading(pipe, where(folder)), writeFile(pipe, 'hello')])
  expect(reading).toEqual({ ok: true, text: 'hello' })
})

test('a folder, a file that is not there and one that is far too long are told apart', async () => {
  const folder = ownFolder()
  writeFileSync(join(folder, 'long'), Buffer.alloc(LARGEST_READING + 1, 32))
  const code = async (from: string) => {
    const got = await fetchReading(from, where(folder))
    return got.ok ? 'ok' : got.trouble.code
  }
  expect(await Promise.all(['.', 'nothing', 'long'].map(code))).toEqual([
    'is-a-folder',
    'missing',
    'too-large',
  ])
})

test('the chips of the machine are read as a copy of their files, and nothing in them is touched', async () => {
  const hwmon = join(ownFolder(), 'hwmon')
  mkdirSync(join(hwmon, 'hwmon0'), { recursive: true })
  const files = {
    name: 'nct6798',
    fan1_input: '1203',
    pwm1: '77',
    pwm1_enable: '5',
    uevent: 'x',
    fan1_target: '9',
  }
  for (const [file, value] of Object.entries(files)) writeFileSync(join(hwmon, 'hwmon0', file), `${value}\n`)
  const before = readdirSync(join(hwmon, 'hwmon0')).map((f) => statSync(join(hwmon, 'hwmon0', f)).mtimeMs)
  const got = await fetchReading('live', { ...where('/'), hwmon })
  if (!got.ok) throw new Error(got.trouble.code)
  const read = readText(got.text)
  expect(read).toMatchObject({
    ok: true,
    reading: {
      source: 'hwmon',
      fans: [{ channel: 'fan1', chip: 'nct6798', rpm: [1203] }],
      drives: [{ channel: 'pwm1', enable: 5 }],
    },
  })
  expect(got.text).not.toContain('uevent')
  expect(readdirSync(join(hwmon, 'hwmon0')).map((f) => statSync(join(hwmon, 'hwmon0', f)).mtimeMs)).toEqual(
    before,
  )
  expect(readFileSync(join(hwmon, 'hwmon0', 'pwm1'), 'utf8')).toBe('77\n')
})
