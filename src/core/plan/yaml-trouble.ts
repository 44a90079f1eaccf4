/**
 * What is wrong with a text that is no YAML, in words for somebody who edits a plan. The parser that reads plans stops at
 * the first mistake; the one that edits them goes on, and tells what kind each is. It reports an unclosed bracket on the
 * line after it, so the place of the bracket is looked up here.
 */
import { parseDocument, type YAMLError } from 'yaml'
import { harmless, shown } from './problem.ts'

export interface YamlTrouble {
  readonly offset: number
  readonly found: string
  readonly expected: string
  readonly todo: string
  /** The rest of the file can be read in spite of it. */
  readonly recoverable: boolean
}

type Told = readonly [found: string, expected: string, todo: string]

const told: Readonly<Record<string, Told>> = {
  TAB_AS_INDENT: ['a tab at the start of a line', 'blanks', 'indent with blanks, not tabs'],
  BAD_INDENT: [
    'a line indented unlike its neighbours',
    'the same indent for all keys of a map',
    'line it up',
  ],
  MULTIPLE_DOCS: ['a second document (---)', 'one document a file', 'take out what follows the ---'],
  BAD_ALIAS: ['a bad alias', '* and the name of an anchor', 'put the text in quotes, or write the value out'],
  BAD_DQ_ESCAPE: [
    'a \\ that means nothing here',
    'plain text, or \\\\ for a \\',
    'write \\\\ or use single quotes',
  ],
  BLOCK_AS_IMPLICIT_KEY: [
    'two keys on one line',
    'one key a line',
    'start a new line, or use { } and commas',
  ],
  BLOCK_IN_FLOW: ['an indented block inside brackets', 'values divided by commas', 'close the bracket first'],
  MULTILINE_IMPLICIT_KEY: ['a line without a colon', 'KEY: VALUE', 'put a colon and a blank after the key'],
  BAD_SCALAR_START: ['a sign that cannot start a value', 'a word or a number', 'put the value in quotes'],
  KEY_OVER_1024_CHARS: ['a very long key', 'a short key', 'check for a missing line break'],
}

const firstLine = (message: string): string =>
  harmless((message.split('\n')[0] ?? message).trim().slice(0, 80))

interface Open {
  readonly bracket: number | undefined
  readonly quote: number | undefined
}

/** Where the innermost bracket and the quote that are still open before `end` stand. */
function stillOpen(text: string, end: number): Open {
  const open: number[] = []
  let quote: number | undefined
  for (let i = 0; i < end; i++) {
    const char = text[i] ?? ''
    const before = text[i - 1] ?? '\n'
    if (quote !== undefined) {
      if (text[quote] === '"' && char === '\\') i++
      else if (char === text[quote]) quote = undefined
    } else if (char === '#' && /\s/.test(before)) {
      const stop = text.indexOf('\n', i)
      if (stop < 0) break
      i = stop
    } else if ((char === '"' || char === "'") && /[\s[{,:]/.test(before)) quote = i
    else if (char === '{' || char === '[') open.push(i)
    else if (char === '}' || char === ']') open.pop()
  }
  return { bracket: open.at(-1), quote }
}

/** Complaints that come of an earlier one: the parser has lost its place, and stumbles over all that follows. */
const stumbles = (error: YAMLError): boolean => /^Unexpected .* in YAML stream/.test(error.message)

/** The complaints that tell something: one a place, and of a stumbling parser the first. */
function telling(errors: readonly YAMLError[]): YAMLError[] {
  const seen = new Set<number>()
  let lost = false
  return errors.filter((error) => {
    const [offset] = error.pos
    if (seen.has(offset) || (lost && stumbles(error))) return false
    lost ||= stumbles(error)
    seen.add(offset)
    return true
  })
}

/** All that is wrong with a text, as far as that can be told. */
export function yamlTroubles(text: string): YamlTrouble[] {
  try {
    const { errors } = parseDocument(text, { prettyErrors: false, uniqueKeys: false, logLevel: 'error' })
    return telling(errors.filter((error) => !/call stack/.test(error.message))).map((error) =>
      troubleOf(error, text),
    )
  } catch {
    return [] // Nested too deeply for it.
  }
}

/** What the parser that reads plans stopped at, where nothing better is known. */
export const broken = (text: string, offset: number, reason: string): YamlTrouble => ({
  offset,
  found: `broken YAML (${firstLine(reason)}) at ${shown(text.slice(offset, offset + 12).split('\n')[0] ?? '', 20)}`,
  expected: 'KEY: VALUE, one a line, or { } and commas',
  todo: 'check brackets, quotes, colons and indents here and on the line above',
  recoverable: false,
})

/** One complaint of the parser, put so that it can be acted on. */
function troubleOf(error: YAMLError, text: string): YamlTrouble {
  const offset = Math.min(error.pos[0], text.length)
  const recoverable = error.code === 'MULTIPLE_DOCS'
  const unclosed = /end with an? ([\]}])|Expected .* to end with ([\]}])/.exec(error.message)
  const bracket = unclosed ? stillOpen(text, offset).bracket : undefined
  if (bracket !== undefined) {
    const close = text[bracket] === '{' ? '}' : ']'
    const inComment = new RegExp(`\\s#[^\\n]*\\${close}`).test(text.slice(bracket, offset))
    return {
      offset: bracket,
      found: `a ${text[bracket]} that is never closed`,
      expected: `a ${close} further on`,
      todo: inComment ? `put text with a # in quotes: a comment begins there` : `close it with ${close}`,
      recoverable,
    }
  }
  if (/Missing closing .*quote/.test(error.message))
    return {
      offset: stillOpen(text, offset).quote ?? offset,
      found: 'a quote that is never closed',
      expected: 'a closing quote',
      todo: 'close the quote',
      recoverable,
    }
  const stray = /^Unexpected flow-(?:map|seq)-end/.test(error.message) ? text[offset] : undefined
  if (stray === '}' || stray === ']')
    return {
      offset,
      found: `a ${stray} that closes nothing`,
      expected: `as many ${stray} as ${stray === '}' ? '{' : '['}`,
      todo: 'take it out, or look for the bracket that it should close',
      recoverable,
    }
  const known = told[error.code]
  if (known) return { offset, found: known[0], expected: known[1], todo: known[2], recoverable }
  return { ...broken(text, offset, error.message), recoverable }
}
