/**
 * Shorthands spelled out, on the tree: ranges as keys (`F1..F6`), `like:` for identical parts, and a stock of
 * parts in the plan itself or in included files (`uses:`). Branches are shared, not rewritten, so each value keeps
 * the place where it was written.
 */

import { nameTrouble } from './names.ts'
import { listed, nearest } from './nearest.ts'
import type { Place } from './problem.ts'
import { type Notebook, report, shown } from './problem.ts'
import { expandRange, isRange, LONGEST_RANGE } from './ranges.ts'
import { type Entry, type MapNode, mapNode, type Node } from './tree-node.ts'

/** Names as keys: ranges spelled out, bad names and names given twice reported and left out. */
export function expandNames(book: Notebook, map: MapNode, what: string): MapNode {
  const entries = new Map<string, Entry>()
  for (const [key, entry] of map.entries) {
    const names = expandRange(key)
    if (names === undefined) {
      const expected = `a range such as F1..F6 or A..D, of at most ${LONGEST_RANGE} names`
      report(book, entry.key, shown(key), expected, 'write the first and the last name with .. between')
      continue
    }
    for (const name of names) {
      const trouble = nameTrouble(name)
      const earlier = entries.get(name)
      if (trouble) {
        report(book, entry.key, `the ${what} name ${shown(name)}`, trouble.expected, trouble.todo)
        break
      }
      if (earlier)
        report(
          book,
          entry.key,
          `the ${what} ${name} a second time`,
          `each name once (line ${earlier.key.line} of ${earlier.key.file} has it${isRange(key) ? ' too' : ' already'})`,
          'rename one of the two or take it out',
        )
      else entries.set(name, entry)
    }
  }
  return mapNode(map.place, entries)
}

/** What a part does not take over from the one that it is like: what belongs to the other's place. */
const OWN = new Set(['at', 'on', 'reach', 'note', 'like'])
/** The same thing in two forms: giving one drops the other. */
const INSTEAD: Readonly<Record<string, string>> = { light: 'lights', lights: 'light' }

/** Here `none` is not the same as nothing, which would have the usual values. */
const STAYS_NONE = new Set(['motor'])

const isNone = (node: Node): boolean => node.is === 'scalar' && (node.value === null || node.value === 'none')

/** `base` with everything that `own` says put over it; maps inside are merged, `none` takes a map away. */
function over(base: MapNode, own: MapNode, depth = 0): MapNode {
  const entries = new Map<string, Entry>()
  for (const [key, entry] of base.entries) {
    if (depth === 0 && (OWN.has(key) || own.entries.has(INSTEAD[key] ?? ''))) continue
    entries.set(key, entry)
  }
  for (const [key, entry] of own.entries) {
    const under = entries.get(key)?.value
    if (under?.is === 'map' && isNone(entry.value) && !STAYS_NONE.has(key)) entries.delete(key)
    else if (under?.is === 'map' && entry.value.is === 'map')
      entries.set(key, { key: entry.key, value: over(under, entry.value, depth + 1) })
    else if (key !== 'like' || depth > 0) entries.set(key, entry)
  }
  return mapNode(own.place, entries)
}

export interface Templates {
  readonly parts: MapNode
  /** Stock lists, the plan's own first. */
  readonly stock: readonly MapNode[]
}

/** Every part with its `like:` resolved. A part whose `like:` leads nowhere or in a circle is left out. */
export function resolveLikes(book: Notebook, from: Templates): { parts: MapNode; failed: Set<string> } {
  const done = new Map<MapNode, MapNode | undefined>()
  const open = new Set<MapNode>()

  const find = (name: string, asking: MapNode): MapNode | undefined => {
    for (const source of [from.parts, ...from.stock]) {
      const value = source.entries.get(name)?.value
      if (value?.is === 'map' && value !== asking) return value
    }
    return undefined
  }

  const known = (but?: MapNode): string[] =>
    [from.parts, ...from.stock].flatMap((source) =>
      [...source.entries].flatMap(([name, entry]) => (entry.value === but ? [] : [name])),
    )

  const unknown = (at: Place, name: unknown, asking: MapNode): void => {
    const others = known(asking)
    const expected = others.length > 0 ? `one of ${listed(others)}` : 'a part or stock part that the plan has'
    if (typeof name === 'string' && known().includes(name)) {
      report(book, at, `like: ${shown(name)}, which is the part itself`, expected, 'name another part')
      return
    }
    const meant = typeof name === 'string' ? nearest(name, others) : undefined
    const todo = meant === undefined ? 'name a part of this plan or of its stock' : `write ${meant}`
    report(book, at, `like: ${shown(name)}, which is not known`, meant ?? expected, todo)
  }

  const resolve = (node: MapNode): MapNode | undefined => {
    if (done.has(node)) return done.get(node)
    const like = node.entries.get('like')?.value
    if (!like) return node
    let made: MapNode | undefined
    const name = like.is === 'scalar' ? like.value : undefined
    const base = name === null || name === undefined ? undefined : find(String(name), node)
    if (!base) unknown(like.place, like.is === 'scalar' ? name : like, node)
    else if (open.has(base))
      report(
        book,
        like.place,
        `like: ${shown(name)} in a circle`,
        'one part written out',
        'give one of them its own kind and keys',
      )
    else {
      open.add(node)
      const whole = resolve(base)
      open.delete(node)
      made = whole && over(whole, node)
    }
    done.set(node, made)
    return made
  }

  const entries = new Map<string, Entry>()
  const failed = new Set<string>()
  for (const [name, entry] of from.parts.entries) {
    const made = entry.value.is === 'map' ? resolve(entry.value) : entry.value
    if (made) entries.set(name, { key: entry.key, value: made })
    else failed.add(name)
  }
  return { parts: mapNode(from.parts.place, entries), failed }
}

/** Several lights as a list become a map by name: `light`, `light2`, `light3`, … */
export function nameLights(part: MapNode): MapNode {
  const lights = part.entries.get('lights')
  if (lights?.value.is !== 'list') return part
  const named = new Map<string, Entry>()
  for (const [i, item] of lights.value.items.entries())
    named.set(i === 0 ? 'light' : `light${i + 1}`, { key: item.place, value: item })
  const entries = new Map(part.entries)
  entries.set('lights', { key: lights.key, value: mapNode(lights.value.place, named) })
  return mapNode(part.place, entries)
}

/** A key with nothing after it means "with the usual values" where a map is due. */
export const emptyAsMap = (map: MapNode): MapNode => {
  const entries = new Map<string, Entry>()
  for (const [name, { key, value }] of map.entries)
    entries.set(name, {
      key,
      value:
        value.is === 'scalar' && (value.value === null || value.value === 'unknown')
          ? mapNode(value.place, new Map())
          : value,
    })
  return mapNode(map.place, entries)
}
