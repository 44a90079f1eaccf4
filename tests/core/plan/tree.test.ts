// The tree against another library for YAML 1.2, `yaml`, which keeps the range of every node: values and places on our own
// examples, and values and refusals on texts that were struck at random. Both libraries pass the YAML test suite, by their own account.
import { readdirSync, readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, test } from 'vitest'
import { isMap, isScalar, isSeq, LineCounter, parseDocument } from 'yaml'
import { notebook } from '../../../src/core/plan/problem.ts'
import { readTree } from '../../../src/core/plan/tree.ts'
import { type Node, plain } from '../../../src/core/plan/tree-node.ts'

const FOLDER = 'docs/examples'
const examples = readdirSync(FOLDER).filter((file) => file.endsWith('.yaml'))
const textOf = (file: string): string => readFileSync(`${FOLDER}/${file}`, 'utf8')

const ours = (text: string) => {
  const book = notebook()
  return { root: readTree(text, 'x', book).root, problems: book.problems }
}
const theirs = (text: string, lineCounter = new LineCounter()) =>
  parseDocument(text, { lineCounter, prettyErrors: false, uniqueKeys: false, logLevel: 'error' })

/** `path line:column` of each key and of each value that is written. */
function placesOfTheirs(text: string): string[] {
  const lines = new LineCounter()
  const found: string[] = []
  const note = (path: string, node: unknown): void => {
    const range = (node as { range?: readonly number[] } | null)?.range
    if (!range || range[0] === range[1]) return
    const { line, col } = lines.linePos(range[0] ?? 0)
    found.push(`${path} ${line}:${col}`)
  }
  const walk = (path: string, node: unknown): void => {
    note(path, node)
    if (isMap(node))
      for (const { key, value } of node.items) {
        const inner = `${path}/${isScalar(key) ? (key.source ?? key.value) : ''}`
        note(`${inner}:`, key)
        walk(inner, value)
      }
    if (isSeq(node)) for (const [i, item] of node.items.entries()) walk(`${path}/${i}`, item)
  }
  walk('', theirs(text, lines).contents)
  return found
}

function placesOfOurs(root: Node | undefined): string[] {
  const found: string[] = []
  const walk = (path: string, node: Node): void => {
    if (node.is !== 'scalar' || node.value !== null)
      found.push(`${path} ${node.place.line}:${node.place.col}`)
    if (node.is === 'map')
      for (const [key, entry] of node.entries) {
        found.push(`${path}/${key}: ${entry.key.line}:${entry.key.col}`)
        walk(`${path}/${key}`, entry.value)
      }
    if (node.is === 'list') for (const [i, item] of node.items.entries()) walk(`${path}/${i}`, item)
  }
  if (root) walk('', root)
  return found
}

describe('against another library', () => {
  test.each(examples)('%s has the same values at the same places', (file) => {
    const text = textOf(file)
    const { root, problems } = ours(text)
    expect(problems).toEqual([])
    expect(root && plain(root)).toEqual(theirs(text).toJS())
    expect(placesOfOurs(root).sort()).toEqual(placesOfTheirs(text).sort())
  })

  const SIGNS = [...'{}[],:#&*!|>\'"%@`-? \n\t~', ': ', ' #', '- ', '\n  ', '---\n', '&a ', '*a', '!x ']
  const blow = fc.tuple(fc.nat(), fc.nat(2), fc.constantFrom('', ...SIGNS))
  const struck = (text: string, blows: readonly (readonly [number, number, string])[]): string =>
    blows.reduce((now, [where, gone, put]) => {
      const at = where % (now.length + 1)
      return now.slice(0, at) + put + now.slice(at + (put === '' ? gone + 1 : 0))
    }, text)

  test('what one refuses the other refuses, and what both take means the same', () => {
    const text = textOf(examples.find((file) => file.startsWith('small')) ?? '')
    let alike = 0
    fc.assert(
      fc.property(fc.array(blow, { minLength: 1, maxLength: 3 }), (blows) => {
        const after = struck(text, blows)
        const { root, problems } = ours(after)
        const document = theirs(after)
        // A name that ends in a colon is ambiguous to one of the two, and a name to the other.
        const refused = document.errors.some(({ code }) => code !== 'BAD_ALIAS')
        if (refused) expect(problems).not.toEqual([])
        if (refused || problems.length > 0 || !root) return
        alike++
        expect(JSON.stringify(plain(root))).toBe(JSON.stringify(document.toJS()))
      }),
      { numRuns: 150 },
    )
    expect(alike).toBeGreaterThan(20)
  })
})

describe('brackets over several lines', () => {
  const text = "parts:\n  F1: {\n    kind: fan, # it's [lit\r\n    note: 'a } b',\n  }\n  F2: { kind: fan }\n"

  test('may be closed under the key that they belong to', () => {
    const { root, problems } = ours(text)
    expect(problems).toEqual([])
    expect(root && plain(root)).toEqual({
      parts: { F1: { kind: 'fan', note: 'a } b' }, F2: { kind: 'fan' } },
    })
    expect(placesOfOurs(root)).toEqual(expect.arrayContaining(['/parts/F1/note: 4:5', '/parts/F2: 6:3']))
  })

  test('but not hold lines that are not indented at all', () => {
    expect(ours(text.replace('    note', '  note')).problems[0]).toMatchObject({ at: { line: 2, col: 7 } })
  })
})
