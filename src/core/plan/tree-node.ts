/** The nodes of a plan's tree: every key and value knows where it was written. */
import type { Place } from './problem.ts'

export interface Entry {
  readonly key: Place
  readonly value: Node
}
export interface MapNode {
  readonly is: 'map'
  readonly place: Place
  readonly entries: ReadonlyMap<string, Entry>
}
export interface ListNode {
  readonly is: 'list'
  readonly place: Place
  readonly items: readonly Node[]
}
export interface ScalarNode {
  readonly is: 'scalar'
  readonly place: Place
  readonly value: string | number | boolean | null
}
export type Node = MapNode | ListNode | ScalarNode

export const mapNode = (place: Place, entries: ReadonlyMap<string, Entry>): MapNode => ({
  is: 'map',
  place,
  entries,
})
export const listNode = (place: Place, items: readonly Node[]): ListNode => ({ is: 'list', place, items })
export const scalarNode = (place: Place, value: ScalarNode['value']): ScalarNode => ({
  is: 'scalar',
  place,
  value,
})

/** A tree as plain values; maps have no prototype, so no name in a file can mean anything by accident. */
export function plain(node: Node): unknown {
  if (node.is === 'scalar') return node.value
  if (node.is === 'list') return node.items.map(plain)
  const made: Record<string, unknown> = Object.create(null)
  for (const [key, entry] of node.entries) made[key] = plain(entry.value)
  return made
}
