/**
 * Leads changed in the text of a plan: only the line that a lead stands on is touched, so comments, order and the
 * person's own way of writing stay. A lead inside a range (`F1..F3.motor -> Y1.1..3`) takes its range apart.
 */
import { isMap, isScalar, isSeq, type ParsedNode, type YAMLSeq } from 'yaml'
import type { PortRef } from './plan.ts'
import { expandReference } from './ranges.ts'

export interface Piece {
  readonly from: number
  readonly to: number
  readonly text: string
}

/** One entry of `leads` with its pairs spelled out, in written order. */
interface Entry {
  readonly node: ParsedNode
  readonly pairs: readonly (readonly [string, string])[]
  /** Where the second end stands, or the whole line. */
  readonly ends: readonly [from: number, to: number]
  readonly written: 'line' | 'map'
}

const spelled = (text: string): readonly string[] => expandReference(text.trim()) ?? [text.trim()]

function entryOf(node: ParsedNode): Entry | undefined {
  if (isScalar(node) && typeof node.value === 'string') {
    const [from = '', to = ''] = node.value.split(/->|→/)
    const right = spelled(to)
    return {
      node,
      pairs: spelled(from).map((a, i) => [a, right[i] ?? ''] as const),
      ends: [node.range[0], node.range[1]],
      written: 'line',
    }
  }
  if (!isMap(node)) return undefined
  const end = (key: string): string => String(node.get(key) ?? '')
  const right = spelled(end('to'))
  return {
    node,
    pairs: spelled(end('from')).map((a, i) => [a, right[i] ?? ''] as const),
    ends: [node.range[0], node.range[1]],
    written: 'map',
  }
}

const holds = (pair: readonly [string, string], port: PortRef): boolean =>
  pair[0] === port || pair[1] === port

/** Whole lines from the one that an offset stands on. */
const lineStart = (text: string, offset: number): number => text.lastIndexOf('\n', offset - 1) + 1
const lineEnd = (text: string, offset: number): number => {
  const end = text.indexOf('\n', offset)
  return end < 0 ? text.length : end + 1
}

/** The piece that leaves an entry away: its line where it has one of its own, else it and its comma. */
function without(text: string, seq: YAMLSeq, { node }: Entry): Piece {
  const [from, to] = node.range
  if (!seq.flow) return { from: lineStart(text, from), to: lineEnd(text, to), text: '' }
  const comma = /^\s*,\s*/.exec(text.slice(to))?.[0] ?? ''
  return { from, to: to + comma.length, text: '' }
}

/** The pairs as entries again, in place of the one that they stood in. */
function inPlace(
  text: string,
  seq: YAMLSeq,
  { node }: Entry,
  pairs: readonly (readonly [string, string])[],
): Piece {
  const [from, to] = node.range
  const between = seq.flow ? ', ' : `\n${text.slice(lineStart(text, from), from)}`
  return { from, to, text: pairs.map(([a, b]) => `${a} -> ${b}`).join(between) }
}

/** The piece that takes a plug's lead out; undefined where it has none. */
export function unplugged(text: string, seq: YAMLSeq, plug: PortRef): Piece | undefined {
  for (const item of seq.items) {
    const entry = entryOf(item as ParsedNode)
    if (!entry?.pairs.some((pair) => holds(pair, plug))) continue
    const rest = entry.pairs.filter((pair) => !holds(pair, plug))
    return rest.length === 0 ? without(text, seq, entry) : inPlace(text, seq, entry, rest)
  }
  return undefined
}

const moved = (pair: readonly [string, string], plug: PortRef, socket: PortRef): readonly [string, string] =>
  pair[0] === plug ? [plug, socket] : pair[1] === plug ? [socket, plug] : pair

/** The piece that puts a plug into a socket: its lead changed, or a new entry after the last. */
export function plugged(text: string, seq: YAMLSeq, plug: PortRef, socket: PortRef): Piece {
  for (const item of seq.items) {
    const entry = entryOf(item as ParsedNode)
    const own = entry?.pairs.find((pair) => holds(pair, plug))
    if (!entry || !own) continue
    if (entry.pairs.length > 1)
      return inPlace(
        text,
        seq,
        entry,
        entry.pairs.map((pair) => moved(pair, plug, socket)),
      )
    // Only the other end, so that what else stands on the line is not touched.
    const other = own[0] === plug ? own[1] : own[0]
    const [from, to] = entry.ends
    const line = text.slice(from, to)
    const at = from + (own[0] === plug ? line.lastIndexOf(other) : line.indexOf(other))
    return { from: at, to: at + other.length, text: socket }
  }
  const last = seq.items.at(-1) as ParsedNode | undefined
  const entry = `${plug} -> ${socket}`
  if (!last) return { from: (seq.range?.[0] ?? 0) + 1, to: (seq.range?.[0] ?? 0) + 1, text: entry }
  const [from, to] = last.range
  if (seq.flow) return { from: to, to, text: `, ${entry}` }
  const end = lineEnd(text, to)
  const breaks = text.slice(0, end).endsWith('\n') ? '' : '\n'
  return { from: end, to: end, text: `${breaks}${text.slice(lineStart(text, from), from)}${entry}\n` }
}

export const isList = (node: unknown): node is YAMLSeq => isSeq(node)
