/**
 * Takes apart what Ink hands over as one event. Ink 6.8 joins keys that arrive in one read ("y\r", "jk", "abc\x03"), and
 * leaks sequences it does not know as text ("[I", "[200~"); remove the second part when it no longer does.
 */
import type { Key as InkKey } from 'ink'
import { characters } from '../text/width.ts'
import type { Key } from './key.ts'

/** Focus, mouse, cursor and status reports, paste marks, keypad keys, as they leak without their escape. */
const LEAKED = /^(?:\[(?:I|O|M.{0,3}|<[\d;]*[mM]?|[\d;]*[R~]|\?[\d;]*[a-zA-Z])|O[a-zA-Z])$/su

const CONTROL: Readonly<Record<string, Key>> = {
  '\r': { key: 'enter' },
  '\n': { key: 'enter' },
  '\t': { key: 'tab' },
  '\b': { key: 'erase' },
  '\x7f': { key: 'erase' },
  '\x1b': { key: 'escape' },
  '\x03': { key: 'interrupt' },
  '\x1a': { key: 'suspend' },
  '\x0c': { key: 'redraw' },
}

const NAMED: readonly (readonly [keyof InkKey, Key])[] = [
  ['upArrow', { key: 'up' }],
  ['downArrow', { key: 'down' }],
  ['leftArrow', { key: 'left' }],
  ['rightArrow', { key: 'right' }],
  ['pageUp', { key: 'page-up' }],
  ['pageDown', { key: 'page-down' }],
  ['home', { key: 'home' }],
  ['end', { key: 'end' }],
  ['return', { key: 'enter' }],
  ['escape', { key: 'escape' }],
  ['tab', { key: 'tab' }],
  ['backspace', { key: 'erase' }],
  ['delete', { key: 'erase' }],
]

/** With Ctrl, Ink gives the letter's name; only three of them mean something here. */
const WITH_CTRL: Readonly<Record<string, Key>> = {
  c: { key: 'interrupt' },
  z: { key: 'suspend' },
  l: { key: 'redraw' },
  j: { key: 'enter' },
  h: { key: 'erase' },
}

const isUnseen = (character: string): boolean => /^\p{C}/u.test(character)

/** The single keys of one event of `useInput`, in order; what is no key of ours is dropped. */
export function splitKeys(input: string, ink: Partial<InkKey>): Key[] {
  const named = NAMED.find(([flag]) => ink[flag] === true)
  if (named) return [named[1]]
  if (ink.ctrl) return WITH_CTRL[input] ? [WITH_CTRL[input]] : []
  // Alt and a letter: on many terminals that is Escape and a letter in one read. Going back harms nothing.
  if (ink.meta) return LEAKED.test(input) ? [] : [{ key: 'escape' }]
  if (input.length > 1 && LEAKED.test(input)) return []
  return characters(input)
    .flatMap((c) => (c === '\r\n' ? ['\r'] : [c]))
    .flatMap((c): Key[] => {
      const control = CONTROL[c]
      if (control) return [control]
      return isUnseen(c) ? [] : [{ key: 'char', char: c }]
    })
}
