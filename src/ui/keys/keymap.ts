/**
 * What a key means, given what is open. Pure: the same key in the same place always means the same. Nothing here can
 * lose work: what is recorded can be taken back, and what ends a job asks first.
 */
import type { Mode } from '../../wording/screen-mode.ts'
import type { Kind } from '../state/rows.ts'
import type { Key } from './key.ts'

export type Event =
  | { readonly on: 'move'; readonly to: 'up' | 'down' | 'left' | 'right' | 'next' | 'previous' }
  | { readonly on: 'page'; readonly by: 1 | -1 }
  | { readonly on: 'edge'; readonly to: 'first' | 'last' }
  | { readonly on: 'digit'; readonly digit: string }
  | { readonly on: 'take' }
  | { readonly on: 'mark' | 'mark-all' }
  | { readonly on: 'back' }
  | { readonly on: 'open'; readonly mode: Exclude<Mode, 'job' | 'take-back' | 'sign'> }
  | { readonly on: 'unsure' | 'cannot' | 'undo' | 'fold' }
  | { readonly on: 'filter' }
  | { readonly on: 'type'; readonly char: string }
  | { readonly on: 'erase' }
  | { readonly on: 'interrupt' | 'suspend' | 'redraw' }

export interface Place {
  readonly mode: Mode
  readonly kind: Kind
  readonly filtering: boolean
}

const OPENS: Readonly<Record<string, Exclude<Mode, 'job' | 'take-back' | 'sign'>>> = {
  '?': 'help',
  w: 'why',
  p: 'trail',
  n: 'note',
  r: 'reading',
  h: 'hand-over',
  q: 'leave',
  d: 'wiring',
  v: 'picture',
  e: 'expected',
  m: 'told',
}

/** Letters that work in every view without a text field. */
const MOVES: Readonly<Record<string, Event>> = {
  j: { on: 'move', to: 'next' },
  k: { on: 'move', to: 'previous' },
  g: { on: 'edge', to: 'first' },
  G: { on: 'edge', to: 'last' },
  ' ': { on: 'mark' },
}

/** What is typed there is text. */
export const FIELDS: readonly Mode[] = ['note', 'reading', 'sign']
const CONFIRMS: readonly Mode[] = ['leave', 'hand-over', 'take-back']
/** Where the last answer is in sight, so that it is clear what is taken back. */
const UNDOES: readonly Mode[] = ['job', 'told', 'trail']
/** Where explanations are in sight. */
const FOLDS: readonly Mode[] = ['job', 'told']
/** Lists that can be narrowed by typing. */
const FILTERS: readonly Mode[] = ['job', 'wiring', 'trail']

/** What a key means here; null where it means nothing. */
export function keymap(place: Place, key: Key): Event | null {
  switch (key.key) {
    case 'interrupt':
    case 'suspend':
    case 'redraw':
      return { on: key.key }
    case 'escape':
      return { on: 'back' }
    case 'enter':
      return { on: 'take' }
    case 'erase':
      return { on: 'erase' }
    case 'up':
    case 'down':
    case 'left':
    case 'right':
      return { on: 'move', to: key.key }
    case 'tab':
      return { on: 'move', to: 'next' }
    case 'page-up':
      return { on: 'page', by: -1 }
    case 'page-down':
      return { on: 'page', by: 1 }
    case 'home':
      return { on: 'edge', to: 'first' }
    case 'end':
      return { on: 'edge', to: 'last' }
    case 'char':
      return charEvent(place, key.char)
  }
}

function charEvent({ mode, kind, filtering }: Place, char: string): Event | null {
  if (FIELDS.includes(mode) || filtering) return { on: 'type', char }
  if (CONFIRMS.includes(mode)) return char === 'y' ? { on: 'take' } : { on: 'back' }
  const move = MOVES[char]
  if (move) return move
  if (char === '/') return FILTERS.includes(mode) ? { on: 'filter' } : null
  const opens = OPENS[char]
  if (opens) return opens === mode ? { on: 'back' } : { on: 'open', mode: opens }
  if (char === 'u') return UNDOES.includes(mode) ? { on: 'undo' } : null
  if (char === 'f') return FOLDS.includes(mode) ? { on: 'fold' } : null
  if (mode !== 'job') return null
  if (/^[0-9]$/.test(char)) return { on: 'digit', digit: char }
  if (kind === 'ended') return null
  if (char === 'a') return kind === 'many' ? { on: 'mark-all' } : null
  if (char === 'c') return { on: 'unsure' }
  if (char === 'x') return { on: 'cannot' }
  return null
}
