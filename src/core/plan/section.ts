/**
 * One branch of the tree against one schema: the typed value, or every problem in it at its own place with what
 * was expected and the nearest known key or word.
 */
import * as z from 'zod/v4/core'
import { listed, nearest } from './nearest.ts'
import type { Place } from './problem.ts'
import { type Notebook, reportLocal, shown } from './problem.ts'
import { type MapNode, type Node, plain } from './tree-node.ts'

type Path = readonly PropertyKey[]

/** Takes off what wraps a schema, keeping the outermost description. */
function bared(schema: z.$ZodType): { schema: z.$ZodType; expected: string | undefined } {
  let expected: string | undefined
  let inner = schema
  for (;;) {
    expected ??= z.globalRegistry.get(inner)?.expected as string | undefined
    if (!(inner instanceof z.$ZodOptional)) return { schema: inner, expected }
    inner = inner._zod.def.innerType
  }
}

/** The schema that is responsible for a path, and what it expects there. */
function schemaAt(root: z.$ZodType, path: Path) {
  let { schema, expected } = bared(root)
  for (const key of path) {
    let next: z.$ZodType | undefined
    if (schema instanceof z.$ZodObject) next = schema._zod.def.shape[String(key)]
    else if (schema instanceof z.$ZodRecord) next = schema._zod.def.valueType
    else if (schema instanceof z.$ZodArray) next = schema._zod.def.element
    else if (schema instanceof z.$ZodTuple) next = schema._zod.def.items[Number(key)]
    if (next === undefined) return { schema: undefined, expected: undefined }
    ;({ schema, expected } = bared(next))
  }
  return { schema, expected }
}

export const keysOf = (schema: z.$ZodType | undefined): string[] =>
  schema instanceof z.$ZodObject ? Object.keys(schema._zod.def.shape) : []

/** The node at a path, or the nearest above it; `exact` tells which. */
function nodeAt(root: Node, path: Path): { node: Node; key: Place; exact: boolean } {
  let node = root
  let key = root.place
  for (const step of path) {
    if (node.is === 'map') {
      const entry = node.entries.get(String(step))
      if (!entry) return { node, key, exact: false }
      node = entry.value
      key = entry.key
    } else if (node.is === 'list') {
      const item = node.items[Number(step)]
      if (!item) return { node, key, exact: false }
      node = item
      key = item.place
    } else return { node, key, exact: false }
  }
  return { node, key, exact: true }
}

const kindOfSchema = (schema: z.$ZodType | undefined): string => {
  if (schema instanceof z.$ZodObject) return `a map with ${listed(keysOf(schema), 6)}`
  if (schema instanceof z.$ZodRecord) return 'a map of names'
  if (schema instanceof z.$ZodArray || schema instanceof z.$ZodTuple) return 'a list'
  return 'another value'
}

export const unknownKey = (book: Notebook, at: Place, key: string, known: readonly string[]): void => {
  const meant = nearest(key, known)
  const todo = meant === undefined ? 'take it out, or move it to where it belongs' : `write ${meant}`
  reportLocal(book, at, `the key ${shown(key)}`, meant ?? `one of ${listed(known, 30)}`, todo)
}

/** `{ amps: 1,5 A }` is a key `amps` and a key `5 A` to YAML: what was meant is told. */
function decimalComma(book: Notebook, map: MapNode, key: string): boolean {
  const names = [...map.entries.keys()]
  const before = names[names.indexOf(key) - 1] ?? ''
  const [whole, rest] = [map.entries.get(before)?.value, map.entries.get(key)]
  const number =
    whole?.is === 'scalar' && /^-?\d+$/.test(String(whole.value)) ? String(whole.value) : undefined
  if (number === undefined || !/^\d+(\s*[\p{L}%°/³]+)?$/u.test(key) || rest?.value.is !== 'scalar')
    return false
  if (rest.value.value !== null) return false
  reportLocal(
    book,
    whole?.place ?? rest.key,
    `${before}: ${shown(`${number},${key}`)}`,
    'a point before the decimals: a comma ends the value here',
    `write ${number}.${key}`,
  )
  return true
}

function tell(book: Notebook, root: Node, schema: z.$ZodType, issue: z.$ZodIssue, here: Place): void {
  const where = nodeAt(root, issue.path)
  const asked = schemaAt(schema, issue.path)
  const at = where.node === root && issue.path.length === 0 ? here : where.node.place
  if (issue.code === 'unrecognized_keys') {
    for (const key of issue.keys) {
      if (where.node.is === 'map' && decimalComma(book, where.node, key)) continue
      const place = where.node.is === 'map' ? (where.node.entries.get(key)?.key ?? at) : at
      unknownKey(book, place, key, keysOf(asked.schema))
    }
    return
  }
  if (issue.code === 'custom' && issue.params) {
    const { found, expected, todo, words } = issue.params as Record<string, unknown>
    const meant = Array.isArray(words) ? nearest(String(found).replaceAll('"', ''), words) : undefined
    const advice = todo ?? (meant === undefined ? 'choose one of these' : `write ${meant}`)
    reportLocal(book, at, String(found), String(expected), String(advice))
    return
  }
  if (!where.exact) {
    const key = String(issue.path.at(-1))
    const home = nodeAt(root, issue.path.slice(0, -1))
    const place = issue.path.length === 1 ? here : home.key
    reportLocal(book, place, `no ${key}`, asked.expected ?? kindOfSchema(asked.schema), `add ${key}`)
    return
  }
  const value = where.node.is === 'scalar' ? where.node.value : where.node.is === 'list' ? [] : {}
  if (issue.code === 'too_small' || issue.code === 'too_big') {
    const empty = where.node.is === 'list' && where.node.items.length === 0
    reportLocal(
      book,
      at,
      empty ? 'an empty list' : 'a list of another length',
      asked.expected ?? kindOfSchema(asked.schema),
      empty ? 'write its values, or leave it out' : 'count the values',
    )
    return
  }
  const todo = value === 'unknown' ? 'write {} where nothing of it is known' : 'write it in this form'
  reportLocal(book, at, shown(value), asked.expected ?? kindOfSchema(asked.schema), todo)
}

/** Takes what is wrong out of a plain value, so that the rest can be looked at. */
function without(value: unknown, issue: z.$ZodIssue): PropertyKey[] | undefined {
  const paths =
    issue.code === 'unrecognized_keys' ? issue.keys.map((key) => [...issue.path, key]) : [issue.path]
  let removed: PropertyKey[] | undefined
  for (const path of paths) {
    const chain: [Record<PropertyKey, unknown>, PropertyKey][] = []
    let here = value
    for (const step of path) {
      if (typeof here !== 'object' || here === null) break
      if (!Array.isArray(here)) chain.push([here as Record<PropertyKey, unknown>, step])
      here = (here as Record<PropertyKey, unknown>)[step]
    }
    const last = chain.at(-1)
    if (!last || !Object.hasOwn(last[0], last[1])) continue
    delete last[0][last[1]]
    removed = path.slice(0, chain.length)
  }
  return removed
}

export interface Section<T> {
  /** What could be read: all of it, or what is left without the values that are wrong. */
  readonly value: T | undefined
  /** Dotted paths of what was left out; empty where all was right. */
  readonly dropped: readonly string[]
}

/** The value of a branch. Problems go into the book, and what is right in spite of them is still given. */
export function section<S extends z.$ZodType>(
  book: Notebook,
  node: Node,
  schema: S,
  here: Place = node.place,
): Section<z.output<S>> {
  const value = plain(node)
  const dropped: string[] = []
  for (let round = 0; round < 4; round++) {
    const got = z.safeParse(schema, value)
    if (got.success) return { value: got.data, dropped }
    if (round === 0) for (const issue of got.error.issues) tell(book, node, schema, issue, here)
    const paths = got.error.issues.map((issue) => without(value, issue))
    if (paths.every((path) => path === undefined)) break
    for (const path of paths) if (path) dropped.push(path.join('.'))
  }
  return { value: undefined, dropped: [...dropped, ''] }
}

/** Notes where everything in a branch stands, by dotted path: keys for maps and lists, values else. */
export function markPlaces(book: Notebook, node: Node, path: string, key: Place): void {
  book.places.set(path, node.is === 'scalar' ? node.place : key)
  if (node.is === 'map')
    for (const [name, entry] of node.entries) markPlaces(book, entry.value, `${path}.${name}`, entry.key)
  else if (node.is === 'list')
    for (const [i, item] of node.items.entries()) markPlaces(book, item, `${path}.${i}`, item.place)
}
