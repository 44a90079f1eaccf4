/**
 * The marks that the screen draws with, and their twins for terminals that have plain ASCII only. All are one column
 * wide on every terminal tried; none says anything that a word beside it does not say too.
 */

export interface Marks {
  readonly pointer: string
  readonly on: string
  readonly off: string
  readonly rule: string
  readonly bar: string
  readonly up: string
  readonly down: string
  readonly bullet: string
  readonly cut: string
  /** Before and after the place in question. */
  readonly here: readonly [before: string, after: string]
  readonly struck: string
  readonly warn: string
  readonly full: string
  readonly empty: string
  readonly unset: string
  /** A shape for each way in which a place can be marked, in their order; where there are more the last goes on. */
  readonly set: readonly string[]
  readonly joint: Readonly<Record<'planned' | 'unplugged' | 'moved' | 'suspect', string>>
  readonly link: string
  readonly down1: string
  readonly box: Readonly<Record<'tl' | 'tr' | 'bl' | 'br' | 'h' | 'v' | 'tee' | 'last', string>>
}

export const UNICODE: Marks = {
  pointer: '▸',
  on: '●',
  off: '○',
  rule: '─',
  bar: '│',
  up: '↑',
  down: '↓',
  bullet: '•',
  cut: '…',
  here: ['»', '«'],
  struck: '✕',
  warn: '!',
  full: '█',
  empty: '░',
  unset: ' ',
  set: ['●', '◐', '◆', '▲', '■', '▼', '◇'],
  joint: { planned: '─●─', unplugged: '─○ ', moved: '─◆─', suspect: '─?─' },
  link: '─',
  down1: '│',
  box: { tl: '┌', tr: '┐', bl: '└', br: '┘', h: '─', v: '│', tee: '├', last: '└' },
}

export const ASCII: Marks = {
  pointer: '>',
  on: '*',
  off: 'o',
  rule: '-',
  bar: '|',
  up: '^',
  down: 'v',
  bullet: '*',
  cut: '~',
  here: ['>>', '<<'],
  struck: 'x',
  warn: '!',
  full: '#',
  empty: '.',
  unset: ' ',
  set: ['X', '/', '#', '^', '=', 'v', '%'],
  joint: { planned: '-*-', unplugged: '-o ', moved: '-#-', suspect: '-?-' },
  link: '-',
  down1: '|',
  box: { tl: '+', tr: '+', bl: '+', br: '+', h: '-', v: '|', tee: '+', last: '+' },
}

const TWINS: Readonly<Record<string, string>> = {
  '→': '->',
  '←': '<-',
  '↑': '^',
  '↓': 'v',
  '…': '...',
  '–': '-',
  '—': '-',
  '’': "'",
  '‘': "'",
  '“': '"',
  '”': '"',
  '·': '-',
  '°': ' deg ',
  Ω: 'ohm',
  µ: 'u',
  '×': 'x',
  '½': '1/2',
  '≤': '<=',
  '≥': '>=',
  '±': '+/-',
  '≈': '~',
  '━': '=',
  '─': '-',
  '│': '|',
  '»': '>>',
  '«': '<<',
  '●': '*',
  '○': 'o',
  '✔': 'ok',
  '⚠': '!',
  '•': '*',
  '\u00a0': ' ',
  '\u202f': ' ',
}

const TWIN = new RegExp(`[${Object.keys(TWINS).join('')}]`, 'gu')

/** Trade signs and punctuation in plain ASCII; letters of names stay what they are. */
export const inAscii = (text: string): string => text.replace(TWIN, (c) => TWINS[c] ?? c)
