/**
 * A YAML text as a tree in which every key and value knows where it was written. Shorthands copy branches about,
 * and the places go with them, so an error always points at the line that a person wrote.
 */
import {
  type Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  LineCounter,
  type ParsedNode,
  parseDocument,
} from 'yaml'
import type { Place } from './plan.ts'
import { type Notebook, report, shown } from './problem.ts'
import { type Entry, listNode, mapNode, type Node, scalarNode } from './tree-node.ts'
import { telling, yamlTrouble } from './yaml-trouble.ts'

/** Aliases can make a short text mean a huge one; more values than this are no plan. */
export const MOST_VALUES = 400_000
/** Deeper nesting than this is no plan. */
const DEEPEST = 30
/** Characters; a plan of a thousand fans written out in full is under a fifth of it. */
export const LONGEST_TEXT = 1_500_000

export interface Tree {
  /** Undefined where nothing can be made of the text (the problems say why). */
  readonly root: Node | undefined
  /** The first line that is no YAML; what stands above it may still be looked at. */
  readonly brokenAt: number | undefined
}

const NO_TREE: Tree = { root: undefined, brokenAt: undefined }

/** Reads a text as far as it is YAML. */
export function readTree(text: string, file: string, book: Notebook): Tree {
  const top: Place = { file, line: 1, col: 1 }
  if (text.length > LONGEST_TEXT) {
    const size = `a text of ${(text.length / 1e6).toFixed(1)} million characters`
    report(book, top, size, 'a wiring plan, which is far shorter', 'check that this is the right file')
    return NO_TREE
  }
  const lines = new LineCounter()
  let doc: Document.Parsed<ParsedNode>
  try {
    doc = parseDocument(text, {
      lineCounter: lines,
      prettyErrors: false,
      uniqueKeys: false,
      logLevel: 'error',
    })
  } catch {
    report(
      book,
      top,
      'a text nested too deeply to be read',
      'a wiring plan',
      'check that this is the right file',
    )
    return NO_TREE
  }
  const place = (offset: number): Place => {
    const { line, col } = lines.linePos(offset)
    return { file, line: Math.max(line, 1), col: Math.max(col, 1) }
  }
  let brokenAt: number | undefined
  const tooDeep = doc.errors.find((error) => /call stack/.test(error.message))
  for (const error of tooDeep ? [tooDeep] : telling([...doc.errors, ...doc.warnings])) {
    const { offset, found, expected, todo, recoverable } = yamlTrouble(error, text)
    const at = place(offset)
    report(book, at, found, expected, todo)
    if (!recoverable) brokenAt = Math.min(brokenAt ?? at.line, at.line)
  }
  return { root: tooDeep ? undefined : convert(doc.contents, place, top, book), brokenAt }
}

function convert(
  contents: ParsedNode | null,
  place: (offset: number) => Place,
  top: Place,
  book: Notebook,
): Node | undefined {
  const anchors = new Map<string, Node>()

  const keyText = (key: unknown, at: Place): string | undefined => {
    if (isScalar(key) && (typeof key.value !== 'object' || key.value === null))
      return typeof key.source === 'string' && typeof key.value !== 'string' ? key.source : String(key.value)
    report(book, at, 'a key that is not a plain word', 'a name or a key', 'write the key as one word')
    return undefined
  }

  const mergeInto = (entries: Map<string, Entry>, node: Node): void => {
    if (node.is === 'list') for (const item of node.items) mergeInto(entries, item)
    else if (node.is === 'map')
      for (const [key, entry] of node.entries) if (!entries.has(key)) entries.set(key, entry)
  }

  const walk = (node: ParsedNode | null, depth: number, fallback: Place): Node => {
    const at = node?.range ? place(node.range[0]) : fallback
    if (depth > DEEPEST) {
      report(
        book,
        at,
        'values nested very deeply',
        `at most ${DEEPEST} levels`,
        'take out the extra brackets',
      )
      return scalarNode(at, null)
    }
    let made: Node
    if (isAlias(node)) {
      const target = anchors.get(node.source)
      if (!target)
        report(
          book,
          at,
          `the alias ${shown(`*${node.source}`)}`,
          'an anchor of that name above it',
          'write the value out',
        )
      return target ?? scalarNode(at, null)
    }
    if (isMap(node)) {
      const entries = new Map<string, Entry>()
      const merged: Node[] = []
      for (const pair of node.items) {
        const key = pair.key as ParsedNode | null
        const keyPlace = key?.range ? place(key.range[0]) : at
        const name = keyText(key, keyPlace)
        const value = walk(pair.value as ParsedNode | null, depth + 1, keyPlace)
        if (name === undefined) continue
        const earlier = entries.get(name)
        if (name === '<<') merged.push(value)
        else if (earlier)
          report(
            book,
            keyPlace,
            `${shown(name)} a second time`,
            `each name once (it stands on line ${earlier.key.line} too)`,
            'rename one of the two or take it out',
          )
        else entries.set(name, { key: keyPlace, value })
      }
      for (const value of merged) mergeInto(entries, value)
      made = mapNode(at, entries)
    } else if (isSeq(node))
      made = listNode(
        at,
        node.items.map((item) => walk(item as ParsedNode | null, depth + 1, at)),
      )
    else {
      const value: unknown = isScalar(node) ? node.value : null
      const simple = typeof value === 'string' || typeof value === 'number' || typeof value === 'boolean'
      made = scalarNode(at, simple ? value : null)
    }
    if (node !== null && 'anchor' in node && typeof node.anchor === 'string') anchors.set(node.anchor, made)
    return made
  }

  const root = walk(contents, 0, top)
  if (root.size <= MOST_VALUES) return root
  report(
    book,
    root.place,
    'aliases that multiply each other',
    `at most ${MOST_VALUES} values`,
    'write the parts out, or use ranges such as F1..F6',
  )
  return undefined
}
