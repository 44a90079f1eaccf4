/**
 * The tree of a plan that is written in the plain part of YAML: block maps and lists, flow maps and lists, words and
 * numbers. Most plans are, and are read so in a fraction of the time. At the first thing beyond (an anchor, a text over
 * several lines, a key twice, a mistake of any kind) this gives up, and the YAML library reads the whole: nothing may
 * ever be understood in another way than there, which a test holds it to.
 */
import type { Place } from './plan.ts'
import { type Entry, listNode, mapNode, type Node, scalarNode } from './tree-node.ts'

/** Thrown to give up; never leaves this file. */
const BEYOND = Symbol('beyond the plain part of YAML')
const beyond = (): never => {
  throw BEYOND
}

/** Tabs, carriage returns, other control and invisible characters: for the library to judge. */
const UNUSUAL =
  /[^\n\x20-\x7e\u00a1-\u00ac\u00ae-\u1fff\u2010-\u2027\u2030-\u205f\u2070-\ud7ff\uf900-\ufdcf\uff01-\uff60]/
const NUMBER = /^[-+]?(?:\.\d+|\d+(?:\.\d*)?)(?:[eE][-+]?\d+)?$/
/** Words and forms of numbers that mean something else than they say. */
const MEANT =
  /^(?:~|[Nn]ull|NULL|[Tt]rue|TRUE|[Ff]alse|FALSE|[-+]?\.(?:inf|Inf|INF)|\.(?:nan|NaN|NAN)|0[xo].*)$/
/** What a plain word does not begin with. */
const STARTS_ELSE = /^(?:[?:,[\]{}#&*!|>'"%@`<=]|-(?![\d.])|\.\.\.)/
/** A key in a block with its colon; quotes and signs in it are left to the library. */
const KEY = /([\p{L}\d_][\p{L}\d_.-]*(?: [\p{L}\d_.-]+)*):(?=[ \n]|$)/uy
/** The same in flow, where the colon has a blank after it. */
const FLOW_KEY = /([\p{L}\d_][\p{L}\d_.-]*(?: [\p{L}\d_.-]+)*):(?= )/uy
/** A word to the end of its line, and one in flow. */
const LINE = /[^\n]*/y
const FLOW_WORD = /[^\n,[\]{}]*/y
const DEEPEST = 20

function scalar(text: string, place: Place): Node {
  if (text === '' || STARTS_ELSE.test(text) || text.includes(': ') || text.endsWith(':')) return beyond()
  if (NUMBER.test(text)) {
    const value = Number(text)
    return Number.isFinite(value) ? scalarNode(place, value) : beyond()
  }
  if (text === 'true' || text === 'false') return scalarNode(place, text === 'true')
  return MEANT.test(text) ? beyond() : scalarNode(place, text)
}

/** The root of the tree; undefined where the text goes beyond the plain part. */
export function plainTree(text: string, file: string): Node | undefined {
  if (UNUSUAL.test(text)) return undefined
  let pos = 0
  let line = 1
  let lineStart = 0

  const here = (): Place => ({ file, line, col: pos - lineStart + 1 })
  const column = (): number => pos - lineStart
  const char = (): string => text.charAt(pos)

  /** Over blanks, comments and line breaks to what comes next; false at the end. */
  const forward = (): boolean => {
    for (; pos < text.length; pos++) {
      const code = text.charCodeAt(pos)
      if (code === 10) {
        line++
        lineStart = pos + 1
      } else if (code === 35 && (pos === lineStart || text.charCodeAt(pos - 1) === 32)) {
        const end = text.indexOf('\n', pos)
        pos = (end < 0 ? text.length : end) - 1
      } else if (code !== 32) return true
    }
    return false
  }

  const match = (pattern: RegExp): string | undefined => {
    pattern.lastIndex = pos
    const found = pattern.exec(text)
    if (!found) return undefined
    pos = pattern.lastIndex
    return found[1] ?? found[0]
  }

  const quoted = (): Node => {
    const place = here()
    const quote = char()
    const end = text.indexOf(quote, pos + 1)
    const inside = end < 0 ? beyond() : text.slice(pos + 1, end)
    if (inside.includes('\n') || inside.includes('\\') || text.charAt(end + 1) === quote) beyond()
    pos = end + 1
    return scalarNode(place, inside)
  }

  /** A word, up to a comment. */
  const word = (pattern: RegExp): Node => {
    const place = here()
    const from = pos
    const whole = match(pattern) ?? ''
    const comment = whole.indexOf(' #')
    const own = (comment < 0 ? whole : whole.slice(0, comment)).trimEnd()
    pos = from + own.length
    return scalar(own, place)
  }

  const flowValue = (indent: number, depth: number): Node => {
    if (depth > DEEPEST) beyond()
    switch (char()) {
      case '{':
        return flowMap(indent, depth)
      case '[':
        return flowList(indent, depth)
      case '"':
      case "'":
        return quoted()
      default:
        return word(FLOW_WORD)
    }
  }

  /** To the next thing in flow, which must stand further in than the block around it. */
  const onward = (indent: number): void => {
    const before = line
    if (!forward() || (line !== before && column() <= indent)) beyond()
  }

  const closes = (by: string): boolean => {
    if (char() !== by) return false
    pos++
    return true
  }

  const flowMap = (indent: number, depth: number): Node => {
    const place = here()
    const entries = new Map<string, Entry>()
    pos++
    for (;;) {
      onward(indent)
      if (closes('}')) return mapNode(place, entries)
      const key = here()
      const name = match(FLOW_KEY) ?? beyond()
      const before = line
      onward(indent)
      if (line !== before || entries.has(name)) beyond()
      entries.set(name, { key, value: flowValue(indent, depth + 1) })
      onward(indent)
      if (closes('}')) return mapNode(place, entries)
      if (!closes(',')) beyond()
    }
  }

  const flowList = (indent: number, depth: number): Node => {
    const place = here()
    const items: Node[] = []
    pos++
    for (;;) {
      onward(indent)
      if (closes(']')) return listNode(place, items)
      items.push(flowValue(indent, depth + 1))
      onward(indent)
      if (closes(']')) return listNode(place, items)
      if (!closes(',')) beyond()
    }
  }

  /** What stands behind a key or a dash on its line; nothing else may follow there or go on further in. */
  const inline = (indent: number, depth: number): Node => {
    const first = char()
    const before = line
    const flow = first === '{' || first === '['
    const made = flow ? flowValue(indent, depth) : first === '"' || first === "'" ? quoted() : word(LINE)
    const after = line
    if (!flow && before !== after) beyond()
    const gap = char()
    if (gap !== '' && gap !== ' ' && gap !== '\n') beyond()
    if (forward() && (line === after || column() > indent)) beyond()
    return made
  }

  const isDash = (): boolean => char() === '-' && text.charAt(pos + 1) === ' '

  const isKey = (): boolean => {
    KEY.lastIndex = pos
    return KEY.test(text)
  }

  const block = (depth: number): Node => {
    if (depth > DEEPEST) beyond()
    return isDash() ? blockList(column(), depth) : blockMap(depth)
  }

  const blockList = (indent: number, depth: number): Node => {
    const place = here()
    const items: Node[] = []
    while (pos < text.length && column() === indent && isDash()) {
      const dash = line
      pos++
      if (!forward() || line !== dash) beyond()
      items.push(isDash() || isKey() ? block(depth + 1) : inline(indent, depth + 1))
    }
    return listNode(place, items)
  }

  const blockMap = (depth: number): Node => {
    const place = here()
    const indent = column()
    const entries = new Map<string, Entry>()
    while (pos < text.length && column() === indent && !isDash()) {
      const key = here()
      const name = match(KEY) ?? beyond()
      if (entries.has(name)) beyond()
      const keyLine = line
      if (!forward()) beyond()
      const nested = line !== keyLine
      if (nested && column() < indent + (isDash() ? 0 : 1)) beyond()
      entries.set(name, { key, value: nested ? block(depth + 1) : inline(indent, depth + 1) })
      if (pos < text.length && column() > indent) beyond()
    }
    return mapNode(place, entries)
  }

  try {
    if (!forward() || isDash()) return undefined
    const root = block(0)
    return pos < text.length ? undefined : root
  } catch (thrown) {
    if (thrown === BEYOND) return undefined
    throw thrown
  }
}
