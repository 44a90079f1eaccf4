/** A setting changed or added in the text of a plan, in the way in which what stands beside it is written. */
import { isMap, isScalar, type ParsedNode, type YAMLMap } from 'yaml'
import type { Piece } from './edit-leads.ts'

const keyOf = (key: unknown): string => (isScalar(key) ? String(key.value) : '')

const entryOf = (map: YAMLMap, key: string): { key: ParsedNode; value: ParsedNode | null } | undefined =>
  map.items.find((pair) => keyOf(pair.key) === key) as never

/** `{ SYS1: { drive: pwm } }` for what has no home yet. */
const nested = (path: readonly string[], value: string): string =>
  path.reduceRight((inner, key) => (inner === '' ? `${key}: ${value}` : `${key}: { ${inner} }`), '')

const columnOf = (text: string, offset: number): number => offset - (text.lastIndexOf('\n', offset - 1) + 1)

/** The piece that adds a key to a map. */
function added(text: string, map: YAMLMap, path: readonly string[], value: string): Piece {
  const start = map.range?.[0] ?? 0
  const last = map.items.at(-1)
  const entry = nested(path, value)
  if (map.flow) {
    if (!last) return { from: start, to: map.range?.[1] ?? start, text: `{ ${entry} }` }
    const node = (last.value ?? last.key) as ParsedNode
    return { from: node.range[1], to: node.range[1], text: `, ${entry}` }
  }
  const first = map.items[0]?.key as ParsedNode
  const indent = ' '.repeat(columnOf(text, first.range[0]))
  return { from: first.range[0], to: first.range[0], text: `${entry}\n${indent}` }
}

/** The piece that sets a value at a path of keys below the top of a file. @param value as it is to stand there */
export function setTo(text: string, root: YAMLMap, path: readonly string[], value: string): Piece {
  let map = root
  for (const [i, key] of path.entries()) {
    const entry = entryOf(map, key)
    const rest = path.slice(i)
    if (!entry) {
      if (i > 0) return added(text, map, rest, value)
      // A new section goes to the end, where nothing has to move.
      const breaks = text.endsWith('\n') ? '' : '\n'
      return {
        from: text.length,
        to: text.length,
        text: `${breaks}${key}:\n  ${nested(rest.slice(1), value)}\n`,
      }
    }
    const node = entry.value
    if (i === path.length - 1 || !isMap(node)) {
      const told = i === path.length - 1 ? value : `{ ${nested(rest.slice(1), value)} }`
      const colon = entry.key.range[1] + text.slice(entry.key.range[1]).indexOf(':') + 1
      const empty = node === null || node.range[0] === node.range[1]
      return empty
        ? { from: colon, to: colon, text: ` ${told}` }
        : { from: node.range[0], to: node.range[1], text: told }
    }
    map = node as unknown as YAMLMap
  }
  throw new Error('a setting has a path')
}
