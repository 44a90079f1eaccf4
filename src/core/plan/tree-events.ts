/** The parser's events as a tree. */
import {
  boolCoreTag,
  EVENT_ID,
  type Event,
  floatCoreTag,
  getScalarValue,
  intCoreTag,
  NOT_RESOLVED,
  nullCoreTag,
  SCALAR_STYLE,
  type ScalarEvent,
} from 'js-yaml'
import type { Place } from './problem.ts'
import { type Notebook, report, shown } from './problem.ts'
import { type Entry, listNode, mapNode, type Node, type ScalarNode, scalarNode } from './tree-node.ts'

/** What a plain word may mean: the core schema of YAML 1.2 (chapter 10.3). */
const MEANINGS = [nullCoreTag, boolCoreTag, intCoreTag, floatCoreTag]

function meaningOf(written: string, style: ScalarEvent['style']): ScalarNode['value'] {
  if (style !== SCALAR_STYLE.PLAIN) return written
  for (const { resolve, tagName } of MEANINGS) {
    const value = resolve(written, false, tagName)
    if (value !== NOT_RESOLVED) return value
  }
  return written
}

/** Where a value begins, its quote included; undefined where that cannot be told: of nothing, and of a block of text. */
function startOf({ valueStart, style }: ScalarEvent): number | undefined {
  if (style === SCALAR_STYLE.SINGLE_QUOTED || style === SCALAR_STYLE.DOUBLE_QUOTED) return valueStart - 1
  return style === SCALAR_STYLE.PLAIN && valueStart >= 0 ? valueStart : undefined
}

function mergeInto(entries: Map<string, Entry>, node: Node): void {
  if (node.is === 'list') for (const item of node.items) mergeInto(entries, item)
  else if (node.is === 'map')
    for (const [key, entry] of node.entries) if (!entries.has(key)) entries.set(key, entry)
}

export interface Counted {
  readonly root: Node
  /** Values in it, each as often as aliases name it. */
  readonly size: number
}

/**
 * The tree of the first document.
 * @param events of this text   @param place where an offset stands
 */
export function treeOf(
  text: string,
  events: readonly Event[],
  place: (offset: number) => Place,
  book: Notebook,
): Counted {
  const anchors = new Map<string, Counted>()
  let next = 1
  let size = 0

  const more = (): boolean => {
    const open = events[next] !== undefined && events[next]?.type !== EVENT_ID.POP
    if (!open) next++
    return open
  }

  const alias = (name: string, at: Place): Node => {
    const target = anchors.get(name)
    size += target?.size ?? 1
    if (target) return target.root
    report(
      book,
      at,
      `the alias ${shown(`*${name}`)}`,
      'an anchor of that name above it',
      'write the value out',
    )
    return scalarNode(at, null)
  }

  const map = (at: Place): Node => {
    const entries = new Map<string, Entry>()
    const merged: Node[] = []
    while (more()) {
      const { key, name } = keyAfter(at)
      const value = read(key)
      const earlier = entries.get(name ?? '')
      if (name === '<<') merged.push(value)
      else if (earlier)
        report(
          book,
          key,
          `${shown(name ?? '')} a second time`,
          `each name once (it stands on line ${earlier.key.line} too)`,
          'rename one of the two or take it out',
        )
      else if (name !== undefined) entries.set(name, { key, value })
    }
    for (const value of merged) mergeInto(entries, value)
    return mapNode(at, entries)
  }

  const keyAfter = (at: Place): { key: Place; name: string | undefined } => {
    const event = events[next]
    const values = size
    const node = read(at)
    size = values
    if (event?.type === EVENT_ID.SCALAR && startOf(event) !== undefined)
      return { key: node.place, name: getScalarValue(text, event) }
    report(book, node.place, 'a key that is not a plain word', 'a name or a key', 'write the key as one word')
    return { key: node.place, name: undefined }
  }

  const list = (at: Place): Node => {
    const items: Node[] = []
    while (more()) items.push(read(at))
    return listNode(at, items)
  }

  const tagged = (offset: number): void =>
    report(book, place(offset), 'a tag (a word that starts with !)', 'plain values', 'take the tag out')

  const made = (event: Event | undefined, around: Place): Node => {
    switch (event?.type) {
      case EVENT_ID.MAPPING:
        return map(place(event.start))
      case EVENT_ID.SEQUENCE:
        return list(place(event.start))
      case EVENT_ID.SCALAR: {
        const start = startOf(event)
        const at = start === undefined ? around : place(start)
        return scalarNode(at, meaningOf(getScalarValue(text, event), event.style))
      }
      default:
        return scalarNode(around, null)
    }
  }

  /** @param around where a value stands that has no place of its own */
  const read = (around: Place): Node => {
    const event = events[next++]
    if (event?.type === EVENT_ID.ALIAS)
      return alias(text.slice(event.anchorStart, event.anchorEnd), place(event.anchorStart - 1))
    if (event && 'tagStart' in event && event.tagStart >= 0) tagged(event.tagStart)
    const before = size++
    const node = made(event, around)
    if (event && 'anchorStart' in event && event.anchorStart >= 0)
      anchors.set(text.slice(event.anchorStart, event.anchorEnd), { root: node, size: size - before })
    return node
  }

  const root = read(place(0))
  return { root, size }
}
