/**
 * What a key does in a menu: the highlight after it, and what it ends in, if it does. Digits only highlight; `/` narrows
 * the rows to those that have the typed text in their words, and what is taken is always the row that is highlighted.
 */
import type { Key } from '../keys/key.ts'

/** Where the highlight is among the rows shown, the digits typed so far of a number of two, and what narrows the rows. */
export interface Highlight {
  readonly at: number
  readonly digits: string
  readonly filter: string
  readonly typing: boolean
}

export const AT_TOP: Highlight = { at: 0, digits: '', filter: '', typing: false }

export type Chosen =
  | { readonly take: number }
  | { readonly leave: 'end' | 'back' | 'interrupt' }
  | 'suspend'
  | 'redraw'

export interface Pressed {
  readonly highlight: Highlight
  readonly chosen?: Chosen
}

/** Indices of the rows that a filter leaves. */
export function rowsShown(labels: readonly string[], filter: string): readonly number[] {
  const wanted = filter.trim().toLocaleLowerCase()
  return [...labels.keys()].filter((i) => labels[i]?.toLocaleLowerCase().includes(wanted))
}

const LONGEST_FILTER = 60

export function menuKey(before: Highlight, key: Key, labels: readonly string[]): Pressed {
  const shown = rowsShown(labels, before.filter)
  const to = (at: number, digits = ''): Pressed => ({
    highlight: { ...before, at: Math.max(0, Math.min(shown.length - 1, at)), digits },
  })
  const still = { ...before, digits: '' }
  const narrowed = (filter: string, typing = before.typing): Pressed => ({
    highlight: { at: 0, digits: '', filter, typing },
  })
  switch (key.key) {
    case 'up':
    case 'left':
      return to(before.at - 1)
    case 'down':
    case 'right':
    case 'tab':
      return to(before.at + 1)
    case 'home':
    case 'page-up':
      return to(0)
    case 'end':
    case 'page-down':
      return to(shown.length - 1)
    case 'enter': {
      const row = shown[before.at]
      return row === undefined ? { highlight: still } : { highlight: still, chosen: { take: row } }
    }
    case 'escape':
      return before.typing || before.filter !== ''
        ? narrowed('', false)
        : { highlight: still, chosen: { leave: 'back' } }
    case 'interrupt':
      return { highlight: still, chosen: { leave: 'interrupt' } }
    case 'suspend':
    case 'redraw':
      return { highlight: still, chosen: key.key }
    case 'erase':
      return narrowed([...before.filter].slice(0, -1).join(''))
    case 'char':
      if (before.typing)
        return before.filter.length < LONGEST_FILTER
          ? narrowed(before.filter + key.char)
          : { highlight: still }
      return letter(before, key.char, shown.length, to)
  }
}

function letter(
  before: Highlight,
  char: string,
  count: number,
  to: (at: number, digits?: string) => Pressed,
): Pressed {
  const still = { ...before, digits: '' }
  if (char === 'j') return to(before.at + 1)
  if (char === 'k') return to(before.at - 1)
  if (char === 'g') return to(0)
  if (char === 'G') return to(count - 1)
  if (char === 'q') return { highlight: still, chosen: { leave: 'end' } }
  if (char === '/') return { highlight: { ...still, typing: true } }
  for (const digits of /^\d$/.test(char) ? [before.digits + char, char] : []) {
    const number = Number(digits)
    if (number >= 1 && number <= count) return to(number - 1, digits)
  }
  return { highlight: still }
}
