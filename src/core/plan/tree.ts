/**
 * A YAML text as a tree in which every key and value knows where it was written. Shorthands copy branches about,
 * and the places go with them, so an error always points at the line that a person wrote.
 */
import { EVENT_ID, type Event, parseEvents, YAMLException } from 'js-yaml'
import type { Place } from './problem.ts'
import { type Notebook, report } from './problem.ts'
import { treeOf } from './tree-events.ts'
import type { Node } from './tree-node.ts'
import { broken, type YamlTrouble, yamlTroubles } from './yaml-trouble.ts'

/** Aliases can make a short text mean a huge one; more values than this are no plan. */
const MOST_VALUES = 400_000
/** Deeper nesting than this is no plan. */
const DEEPEST = 30
/** Characters; a plan of a thousand fans written out in full is under a fifth of it. */
const LONGEST_TEXT = 1_500_000

export interface Tree {
  /** Undefined where nothing can be made of the text (the problems say why). */
  readonly root: Node | undefined
  /** The first line that is no YAML; what stands above it may still be looked at. */
  readonly brokenAt: number | undefined
}

/** Reads a text as far as it is YAML. */
export function readTree(text: string, file: string, book: Notebook): Tree {
  const top: Place = { file, line: 1, col: 1 }
  if (text.length > LONGEST_TEXT) {
    const size = `a text of ${(text.length / 1e6).toFixed(1)} million characters`
    report(book, top, size, 'a wiring plan, which is far shorter', 'check that this is the right file')
    return { root: undefined, brokenAt: undefined }
  }
  const { starts, place } = linesOf(text, file)
  const { events, troubles } = parsed(text)
  let brokenAt: number | undefined
  for (const { offset, found, expected, todo, recoverable } of troubles) {
    const at = place(offset)
    report(book, at, found, expected, todo)
    if (!recoverable) brokenAt = Math.min(brokenAt ?? at.line, at.line)
  }
  const above = brokenAt === undefined ? text : text.slice(0, starts[brokenAt - 1])
  const read = events ?? eventsOf(above)
  if (read instanceof YAMLException) return { root: undefined, brokenAt }
  const { root, size } = treeOf(text, read, place, book)
  if (size <= MOST_VALUES) return { root, brokenAt }
  report(
    book,
    root.place,
    'aliases that multiply each other',
    `at most ${MOST_VALUES} values`,
    'write the parts out, or use ranges such as F1..F6',
  )
  return { root: undefined, brokenAt }
}

interface Lines {
  /** Offsets at which lines begin. */
  readonly starts: readonly number[]
  /** Where an offset stands. */
  readonly place: (offset: number) => Place
}

function linesOf(text: string, file: string): Lines {
  const starts = [0]
  for (let end = text.indexOf('\n'); end >= 0; end = text.indexOf('\n', end + 1)) starts.push(end + 1)
  const place = (offset: number): Place => {
    let low = 0
    let high = starts.length
    while (high - low > 1) {
      const middle = (low + high) >> 1
      if ((starts[middle] ?? 0) <= offset) low = middle
      else high = middle
    }
    return { file, line: low + 1, col: offset - (starts[low] ?? 0) + 1 }
  }
  return { starts, place }
}

/** The text as the parser's events, or why it cannot be read. */
function eventsOf(text: string): readonly Event[] | YAMLException {
  try {
    return parseEvents(text, { maxDepth: DEEPEST })
  } catch (error) {
    return error instanceof YAMLException ? error : new YAMLException(String(error))
  }
}

const TOKENS = /(?<=[\s[{,:])(?:"(?:[^"\\]|\\[\s\S])*"|'(?:[^']|'')*')|(?<=\s)#[^\n]*|[[\]{}]|\r?\n/g

/** The text with every line inside brackets joined to the one before, and all signs where they were. */
function joined(text: string): string {
  let depth = 0
  return text.replaceAll(TOKENS, (token) => {
    if (token === '{' || token === '[') depth++
    if (token === '}' || token === ']') depth--
    return depth > 0 && /^[#\r\n]/.test(token) ? ' '.repeat(token.length) : token
  })
}

/** The parser of events takes a tab before a key for a part of the key. */
const TAB_BEFORE = /^ *\t/m

const isDocument = ({ type }: Event): boolean => type === EVENT_ID.DOCUMENT

interface Parsed {
  /** Undefined where the text cannot be read to its end. */
  readonly events: readonly Event[] | undefined
  readonly troubles: readonly YamlTrouble[]
}

/**
 * The text as far as it can be read, with what is wrong with it. Lines inside brackets may be indented as little as many
 * people do, with the closing bracket under the key; the standard wants them further in (YAML 1.2.2, 7.4). What else is
 * wrong with such a text is looked at before.
 */
function parsed(text: string): Parsed {
  const strict = eventsOf(text)
  if (!(strict instanceof YAMLException)) {
    const odd = TAB_BEFORE.test(text) || strict.filter(isDocument).length > 1
    return { events: strict, troubles: odd ? yamlTroubles(text) : [] }
  }
  if (isTooDeep(strict)) return { events: undefined, troubles: [stoppedAt(text, strict)] }
  const troubles = yamlTroubles(text)
  const lenient =
    troubles.length === 0 && strict.reason === 'deficient indentation' ? eventsOf(joined(text)) : strict
  if (!(lenient instanceof YAMLException)) return { events: lenient, troubles }
  const told = troubles.some(({ recoverable }) => !recoverable)
  return { events: undefined, troubles: told ? troubles : [...troubles, stoppedAt(text, lenient)] }
}

const isTooDeep = ({ reason }: YAMLException): boolean => reason.startsWith('nesting')

/** What the parser of events stopped at. */
function stoppedAt(text: string, exception: YAMLException): YamlTrouble {
  const offset = exception.mark?.position ?? 0
  return isTooDeep(exception)
    ? {
        offset,
        found: 'values nested very deeply',
        expected: `at most ${DEEPEST} levels`,
        todo: 'take out the extra brackets',
        recoverable: false,
      }
    : broken(text, offset, exception.reason)
}
