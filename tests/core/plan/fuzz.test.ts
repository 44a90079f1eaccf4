/**
 * Whatever a file holds, reading it ends soon, in a plan or in problems that can be shown: with a place inside the
 * file, three texts, and nothing in them that a terminal would obey.
 */
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { allPorts } from '../../../src/core/plan/ports.ts'
import { readPlan } from '../../../src/core/plan/read.ts'
import fc from '../../support/fast-check.ts'
import { buildOf, wiring } from '../../support/wired.ts'

const folder = new URL('../../../docs/examples/', import.meta.url)
const examples = readdirSync(folder)
  .filter((name) => name.endsWith('.build.yaml'))
  .map((name) => readFileSync(new URL(name, folder), 'utf8'))

function holds(text: string): void {
  const read = readPlan(text, 'fuzz.build.yaml')
  const lines = text.split('\n').length
  if (read.ok) {
    const ports = new Map(allPorts(read.value).map((port) => [port.ref, port]))
    for (const lead of read.value.leads) {
      expect(ports.get(lead.plug)?.gender).toBe('plug')
      expect(ports.get(lead.socket)?.gender).toBe('socket')
    }
    return
  }
  expect(read.problems.length).toBeGreaterThan(0)
  for (const { at, found, expected, todo } of read.problems) {
    expect(at.file).toBe('fuzz.build.yaml')
    expect(at.line).toBeGreaterThanOrEqual(1)
    expect(at.line).toBeLessThanOrEqual(lines)
    expect(at.col).toBeGreaterThanOrEqual(1)
    for (const words of [found, expected, todo]) {
      expect(words.length).toBeGreaterThan(0)
      expect(words).not.toMatch(/[\p{Cc}\p{Zl}\p{Zp}]|undefined|\[object/u)
    }
  }
}

/** Words that a plan may hold, and some that it should not. */
const word = fc.constantFrom(
  'parts',
  'leads',
  'board',
  'supply',
  'settings',
  'F1',
  'F1..F9',
  'F9..F1',
  'Y1',
  'kind',
  'fan',
  'fan-splitter',
  'light-hub',
  'motor',
  'light',
  'lights',
  'amps',
  'ways',
  'ports',
  'like',
  'uses',
  'stock',
  'light_order',
  'headers',
  'fan_headers',
  'SYS1',
  '0.25 A',
  '-1',
  '1e400',
  '.inf',
  '.nan',
  '0x10',
  '~',
  'null',
  'none',
  'unknown',
  'yes',
  'off',
  'F1.motor -> Y1.1',
  'F1..F3.motor -> board.SYS1',
  '->',
  '..',
  '...',
  '1..9999999',
  'a..z',
  '__proto__',
  'constructor',
  'toString',
  'hasOwnProperty',
  '',
  '"\\e[2J"',
  '"\\u202e"',
  "'",
  '"',
  '{',
  '}',
  '[',
  ']',
  ',',
  ':',
  ': ',
  '- ',
  '\n',
  '\n  ',
  '\n    ',
  '\t',
  '#',
  '&a ',
  '*a',
  '<<: *a',
  '!t',
  '|',
  '>',
  '---',
  '...\n',
  '%YAML 1.1',
  '\u{1f4a1}',
  '\ufeff',
  '\0',
  '\r\n',
  '? ',
)

const edits: fc.Arbitrary<(text: string) => string> = fc.oneof(
  fc.tuple(fc.nat(), fc.nat(12)).map(([at, n]) => (text: string) => {
    const i = at % text.length
    return text.slice(0, i) + text.slice(i + n + 1)
  }),
  fc
    .tuple(fc.nat(), fc.oneof(word, fc.string({ unit: 'binary', maxLength: 4 })))
    .map(([at, put]) => (text: string) => {
      const i = at % text.length
      return text.slice(0, i) + put + text.slice(i)
    }),
  fc.tuple(fc.nat(), fc.nat()).map(([a, b]) => (text: string) => {
    const lines = text.split('\n')
    const [i, j] = [a % lines.length, b % lines.length]
    const moved = [...lines]
    moved.splice(j, 0, lines[i] ?? '')
    return moved.join('\n')
  }),
  fc.nat().map((at) => (text: string) => {
    const lines = text.split('\n')
    lines.splice(at % lines.length, 1)
    return lines.join('\n')
  }),
  // A word of the file in the place of another.
  fc.tuple(fc.nat(), fc.nat()).map(([a, b]) => (text: string) => {
    const words = [...text.matchAll(/[\w.-]+/g)]
    const [from, to] = [words[a % words.length], words[b % words.length]]
    if (!from || !to) return text
    return text.slice(0, from.index) + to[0] + text.slice(from.index + from[0].length)
  }),
)

describe('no file can break the reader', () => {
  test('garbage', () => {
    fc.assert(
      fc.property(fc.oneof(fc.string({ unit: 'binary' }), fc.string()), (text) => holds(text)),
      { numRuns: 200 },
    )
  })

  test('words of a plan in any order', () => {
    fc.assert(
      fc.property(fc.array(word, { maxLength: 40 }), (words) => {
        holds(words.join(' '))
        holds(`parts: {${words.join(': ')}}`)
        holds(`parts: { F1: { kind: fan } }\nleads: [${words.join(', ')}]`)
      }),
      { numRuns: 150 },
    )
  })

  test('an example with one edit', () => {
    fc.assert(
      fc.property(fc.constantFrom(...examples), edits, (text, edit) => holds(edit(text))),
      { numRuns: 120 },
    )
  })

  test('a wired build with three edits', () => {
    fc.assert(
      fc.property(wiring, edits, edits, edits, (made, a, b, c) => holds(c(b(a(buildOf(made).text()))))),
      { numRuns: 80 },
    )
  })
})
