import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, test } from 'vitest'
import { readPlanFile } from '../../src/io/read-plan.ts'
import { standsAt } from '../support/plan-text.ts'

const folder = mkdtempSync(join(tmpdir(), 'whichlead-plan-'))
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const file = (name: string, content: string | Uint8Array): string => {
  const path = join(folder, name)
  writeFileSync(path, content)
  return path
}
const plan = 'parts: { F1: { kind: fan } }\n'

describe('a plan on the disk', () => {
  test('is read, with or without a byte order mark and with either line end', () => {
    expect(readPlanFile(file('a.build.yaml', plan)).ok).toBe(true)
    expect(readPlanFile(file('b.build.yaml', `\ufeff${plan}`)).ok).toBe(true)
    expect(readPlanFile(file('c.build.yaml', 'parts:\r\n  F1: { kind: fan }\r\n')).ok).toBe(true)
  })

  test('finds its stock beside itself, wherever the program was started', () => {
    mkdirSync(join(folder, 'bench'), { recursive: true })
    const text = 'stock: { quiet: { kind: fan, motor: { amps: 99 } } }\n'
    const stock = file('bench/drawer.stock.yaml', text)
    const path = file('bench/d.build.yaml', 'uses: drawer.stock.yaml\nparts: { F1: { like: quiet } }\n')
    expect(readPlanFile(path)).toMatchObject({
      ok: false,
      problems: [{ at: standsAt(text, '99', stock), found: '99' }],
    })
  })

  test('two stock files that name each other are each read once', () => {
    file('x.stock.yaml', 'uses: y.stock.yaml\nstock: { one: { kind: fan } }\n')
    file('y.stock.yaml', 'uses: x.stock.yaml\nstock: { two: { like: one } }\n')
    const path = file('e.build.yaml', 'uses: [x.stock.yaml]\nparts: { F1: { like: two } }\n')
    expect(readPlanFile(path)).toMatchObject({ ok: true, value: { parts: [{ id: 'F1', kind: 'fan' }] } })
  })
})

describe('what is no plan is said to be none', () => {
  const binary = new Uint8Array([0x50, 0x4b, 3, 4, 0, 0, 0, 0])
  test.each([
    ['a file that is not there', () => join(folder, 'gone.build.yaml'), /no such file/],
    ['a file in a file', () => join(file('f.yaml', plan), 'g.yaml'), /no such file/],
    ['a folder', () => folder, /a folder/],
    ['an empty file', () => file('empty.build.yaml', ''), /an empty file/],
    ['a binary file', () => file('z.build.yaml', binary), /binary/],
    ['text in UTF-16', () => file('w.build.yaml', Buffer.from(`\ufeff${plan}`, 'utf16le')), /UTF-16/],
    ['text in an old code page', () => file('l.build.yaml', new Uint8Array([0x23, 0xfc, 0x0a])), /no UTF-8/],
    ['six megabytes', () => file('big.build.yaml', 'x'.repeat(6_000_000)), /a file of 6.0 MB/],
    ['a name with a zero byte', () => `${folder}/a\0b`, /cannot be read/],
    ['a very long name', () => join(folder, 'n'.repeat(400)), /too long/],
    ['a device', () => '/dev/null', /no file/],
  ])('%s', (_, path, found) => {
    const read = readPlanFile(path())
    expect(read.ok).toBe(false)
    if (read.ok) return
    expect(read.problems).toHaveLength(1)
    expect(read.problems[0]?.found).toMatch(found)
    expect(read.problems[0]?.todo).toMatch(/\w/)
    expect(read.problems[0]?.at).toMatchObject({ line: 1, col: 1 })
  })

  test('a stock file that is a folder is told at the line that names it', () => {
    mkdirSync(join(folder, 'stock'), { recursive: true })
    const path = file('s.build.yaml', 'parts: { F1: { kind: fan } }\nuses: stock\n')
    expect(readPlanFile(path)).toMatchObject({
      ok: false,
      problems: [{ at: { line: 2, col: 7 }, found: '"stock": a folder' }],
    })
  })
})
