/** The quick reader understands every text as the YAML library does, with the same places, or leaves it to the library. */
import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { parse, stringify } from 'yaml'
import { plainTree } from '../../../src/core/plan/plain-tree.ts'
import { notebook } from '../../../src/core/plan/problem.ts'
import { libraryTree } from '../../../src/core/plan/tree.ts'
import { buildOf, wiring } from '../../support/wired.ts'

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url))
const textsIn = (folder: string): [string, string][] =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.yaml'))
    .map((name) => [name, readFileSync(`${folder}/${name}`, 'utf8')])
const page = readFileSync(here('../../../docs/plan-file.md'), 'utf8')
const written: readonly [string, string][] = [
  ...textsIn(here('../../../docs/examples')),
  ...textsIn(here('../../fixtures/plans')),
  ...[...page.matchAll(/^```yaml\n([\s\S]*?)^```$/gm)].map((m, i): [string, string] => [
    `block ${i + 1} of the page`,
    m[1] ?? '',
  ]),
]

/** Fails where both read the text, and not the same. @returns whether the quick one did */
function agrees(text: string): boolean {
  const quick = plainTree(text, 'a.yaml')
  if (quick === undefined) return false
  const book = notebook()
  const { root, brokenAt } = libraryTree(text, 'a.yaml', book)
  expect(book.problems, text).toEqual([])
  expect(brokenAt).toBeUndefined()
  expect(quick, text).toEqual(root)
  return true
}

describe('the quick reader', () => {
  test.each(written)('reads %s as the library does', (_, text) => {
    agrees(text)
  })

  test('reads nearly all that people write', () => {
    const left = written.filter(([, text]) => !agrees(text)).map(([name]) => name)
    expect(left.length, left.join(', ')).toBeLessThanOrEqual(2)
  })

  test('agrees on plans that are made at random', () => {
    const outright = { aliasDuplicateObjects: false }
    fc.assert(
      fc.property(wiring, fc.boolean(), (made, flow) => {
        const style = flow ? ({ collectionStyle: 'flow' } as const) : {}
        const text = stringify(parse(buildOf(made).text()), { ...outright, ...style })
        // A map in braces below its key, as the library writes it, is left to the library.
        expect(agrees(text) || flow, text).toBe(true)
      }),
      { numRuns: 60 },
    )
  })

  /** Whole plans with a few characters put in, taken out or doubled: most are broken, some mean something else. */
  test('agrees on plans that are spoiled, or leaves them', () => {
    const signs = fc.constantFrom(
      ...[
        ' ',
        '\n',
        '\n  ',
        '{',
        '}',
        '[',
        ']',
        ',',
        ':',
        ': ',
        '#',
        ' #',
        '-',
        '- ',
        '"',
        "'",
        '&a ',
        '*a',
        '!',
        '|',
        '>',
        '~',
      ],
      ...[
        'null',
        'true',
        'True',
        '0x1f',
        '0o7',
        '1e3',
        '.5',
        '-.5',
        '+3',
        '-1',
        '?',
        '? ',
        '%',
        '@',
        '\\',
        '\t',
        '\r\n',
        '<<: ',
        '---\n',
        '...\n',
        'ü',
        '→',
        '\u00a0',
        'a: b',
        '.nan',
        '-',
        '=',
      ],
    )
    const edit = fc.record({ at: fc.nat(), cut: fc.integer({ min: 0, max: 3 }), put: fc.option(signs) })
    const spoil = (text: string, edits: readonly { at: number; cut: number; put: string | null }[]): string =>
      edits.reduce((now, { at, cut, put }) => {
        const from = now.length === 0 ? 0 : at % now.length
        return now.slice(0, from) + (put ?? '') + now.slice(from + cut)
      }, text)
    const short = written.map(([, text]) => text.slice(0, 1500))
    fc.assert(
      fc.property(
        fc.constantFrom(...short),
        fc.array(edit, { minLength: 1, maxLength: 3 }),
        (text, edits) => {
          agrees(spoil(text, edits))
        },
      ),
      { numRuns: Number(process.env.FUZZ ?? 1500) },
    )
  })

  /** Small texts of the signs that matter, where every second one is odd. */
  test('agrees on small texts of signs', () => {
    const bit = fc.constantFrom(
      ...[
        'a',
        'b c',
        'F1..F3',
        '1',
        '1.5',
        '-2',
        '1 A',
        'true',
        'null',
        '~',
        '""',
        "'x'",
        '"y z"',
        'x#y',
        'x # y',
        'a:b',
        'x:',
      ],
      ...[
        ': ',
        ':',
        '\n',
        '\n  ',
        '\n    ',
        ' ',
        '- ',
        '\n- ',
        '\n  - ',
        '{ ',
        ' }',
        '[',
        ']',
        ', ',
        ',',
        '#',
        '\n# note\n',
        'k: ',
        '\nk: ',
        '\n  k: ',
        '->',
      ],
    )
    const text = fc.array(bit, { maxLength: 12 }).map((bits) => `k: ${bits.join('')}`)
    fc.assert(
      fc.property(text, (made) => void agrees(made)),
      { numRuns: Number(process.env.FUZZ ?? 4000) },
    )
  })
})
