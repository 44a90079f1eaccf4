/** The sections of a plan file as branches of the tree: there or not, of the right shape, with their names spelled out. */
import { emptyAsMap, expandNames } from './expand.ts'
import type { Place } from './problem.ts'
import { type Notebook, report, shown } from './problem.ts'
import { type Entry, type MapNode, mapNode, type Node } from './tree-node.ts'

const none = (place: Place): MapNode => mapNode(place, new Map())

/** A section that should be a map; an empty one where it is missing or something else (which is reported). */
export function mapSection(book: Notebook, root: MapNode, key: string): { node: MapNode; key: Place } {
  const entry = root.entries.get(key)
  if (!entry) return { node: none(root.place), key: root.place }
  const { value } = entry
  if (value.is === 'map') return { node: value, key: entry.key }
  if (!(value.is === 'scalar' && value.value === null)) {
    const found = `${key}: ${value.is === 'list' ? 'a list' : shown(value.value)}`
    report(book, value.place, found, 'a map of names', 'write NAME: {…}, one a line')
  }
  return { node: none(value.place), key: entry.key }
}

/** The items of a section that should be a list. */
export function listSection(book: Notebook, root: MapNode, key: string, sample: string): readonly Node[] {
  const value = root.entries.get(key)?.value
  if (!value || (value.is === 'scalar' && value.value === null)) return []
  if (value.is === 'list') return value.items
  const dashed = value.is === 'scalar' && /^-\S/.test(String(value.value))
  report(
    book,
    value.place,
    value.is === 'map' ? 'a map' : shown(value.value),
    `a list such as ${sample}`,
    dashed ? 'put a blank after each -' : 'write a list',
  )
  return []
}

/** The maps of named things inside a section, with ranges spelled out and empty entries filled with usual values. */
export function withNames(book: Notebook, node: MapNode, keys: readonly string[], what: string): MapNode {
  const entries = new Map<string, Entry>(node.entries)
  for (const key of keys) {
    const entry = node.entries.get(key)
    if (entry?.value.is === 'map')
      entries.set(key, { key: entry.key, value: emptyAsMap(expandNames(book, entry.value, what)) })
    else if (entry?.value.is === 'scalar' && entry.value.value === null) entries.delete(key)
  }
  return mapNode(node.place, entries)
}

/** The kinds of header that a board may have. */
export const HEADERS = ['fan_headers', 'pump_headers', 'light_headers', 'usb_headers']

/** `board.X` must be one thing, whatever kind of header it is. */
export function checkHeaderNames(book: Notebook, board: MapNode): void {
  const seen = new Map<string, Place>()
  for (const group of HEADERS) {
    const map = board.entries.get(group)?.value
    if (map?.is !== 'map') continue
    for (const [name, entry] of map.entries) {
      const earlier = seen.get(name)
      if (earlier)
        report(
          book,
          entry.key,
          `a header ${name} a second time`,
          `each header name once on the board (line ${earlier.line} has it already)`,
          'rename one of the two',
        )
      else seen.set(name, entry.key)
    }
  }
}
