/** Several rows of a menu taken at once: Space marks the highlighted one, Enter takes the marked ones, or else the highlighted. */
import type { Key } from '../keys/key.ts'
import { type Chosen, type Highlight, menuKey, rowsShown } from './menu-keys.ts'

export interface Marked {
  readonly highlight: Highlight
  /** Rows by their index, in the order of the menu. */
  readonly marks: readonly number[]
}

export interface Taking {
  readonly marked: Marked
  readonly chosen?: Exclude<Chosen, { take: number }> | { readonly take: readonly number[] }
}

/** @param single rows that are only ever taken alone */
export function markingKey(
  before: Marked,
  key: Key,
  labels: readonly string[],
  single: ReadonlySet<number>,
): Taking {
  const { highlight, marks } = before
  const row = rowsShown(labels, highlight.filter)[highlight.at]
  if (key.key === 'char' && key.char === ' ' && !highlight.typing) {
    if (row === undefined || single.has(row)) return { marked: before }
    const now = marks.includes(row) ? marks.filter((m) => m !== row) : [...marks, row]
    return { marked: { highlight: { ...highlight, digits: '' }, marks: now.sort((a, b) => a - b) } }
  }
  const pressed = menuKey(highlight, key, labels)
  const marked = { highlight: pressed.highlight, marks }
  const { chosen } = pressed
  if (chosen === undefined) return { marked }
  if (typeof chosen !== 'object' || !('take' in chosen)) return { marked, chosen }
  return { marked, chosen: { take: marks.length > 0 ? marks : [chosen.take] } }
}
