/**
 * What is wrong in a file, and the notebook of one reading: problems as they come up, where each thing stands, and what
 * had to be assumed. A person mends a file in one go, so reading never stops at the first problem.
 */

/** Where something stands in a file; line and column count from 1. */
export interface Place {
  readonly file: string
  readonly line: number
  readonly col: number
}

/** Something in a file that cannot be used as it stands. */
export interface Problem {
  readonly at: Place
  readonly found: string
  readonly expected: string
  readonly todo: string
}

export type Read<T> =
  | { readonly ok: true; readonly value: T }
  | { readonly ok: false; readonly problems: readonly Problem[] }

export interface Notebook {
  readonly problems: Problem[]
  /** Problems of one value or key by itself, which hold whatever the rest of the file says. */
  readonly local: Set<Problem>
  readonly places: Map<string, Place>
  readonly assumed: Set<string>
}

export const notebook = (): Notebook => ({
  problems: [],
  local: new Set(),
  places: new Map(),
  assumed: new Set(),
})

/** What is wrong with a value, before it is known where the value stands. */
export interface Trouble {
  readonly found: string
  readonly expected: string
  readonly todo: string
}

export const report = (book: Notebook, at: Place, found: string, expected: string, todo: string): void => {
  book.problems.push({ at, found, expected, todo })
}

/** Reports what is wrong with a key or value by itself. */
export const reportLocal: typeof report = (book, at, found, expected, todo) => {
  const problem = { at, found, expected, todo }
  book.problems.push(problem)
  book.local.add(problem)
}

/** The given value, or the usual one with its path marked as assumed. */
export function usual<T>(book: Notebook, path: string, given: T | undefined, common: T): T {
  if (given !== undefined) return given
  book.assumed.add(path)
  return common
}

const escaped = (char: string): string => `\\u{${(char.codePointAt(0) ?? 0).toString(16)}}`

/**
 * Text without what a terminal could obey, which is written out: control, format (zero width, text direction), lone
 * surrogates, private use. A plan without problems never needs it, so the rule is only made here.
 */
export const harmless = (text: string): string =>
  text.replace(/[\p{Cc}\p{Cf}\p{Cs}\p{Co}\p{Zl}\p{Zp}]/gu, escaped)

/** Text from a file as it may be shown: on one line, without control bytes, not longer than `most` characters. */
export function shown(value: unknown, most = 60): string {
  if (value === null || value === undefined) return 'nothing'
  if (Array.isArray(value)) return 'a list'
  if (typeof value === 'object') return 'a map'
  const whole = String(value)
  const cut = whole.length > most ? `${whole.slice(0, most - 1)}…` : whole
  const text = harmless(cut)
  return typeof value === 'string' ? `"${text}"` : text
}

const inFileOrder = (a: Problem, b: Problem): number =>
  (a.at.file < b.at.file ? -1 : a.at.file > b.at.file ? 1 : 0) || a.at.line - b.at.line || a.at.col - b.at.col

/** How many problems are listed before the rest is only counted. */
const MOST_LISTED = 50

/** Problems in file order, each once, and a count of the rest where there are very many. */
export function tidy(problems: readonly Problem[], main: string): Problem[] {
  const seen = new Set<string>()
  const once = problems.filter((p) => {
    const key = `${p.at.file}\0${p.at.line}\0${p.at.col}\0${p.found}\0${p.expected}`
    return seen.has(key) ? false : seen.add(key)
  })
  const rank = (p: Problem): number => (p.at.file === main ? 0 : 1)
  once.sort((a, b) => rank(a) - rank(b) || inFileOrder(a, b))
  const rest = once.length - MOST_LISTED
  const next = once[MOST_LISTED]
  if (rest <= 1 || next === undefined) return once
  const more = {
    at: next.at,
    found: `${rest} more problems from here on`,
    expected: 'a plan without problems',
    todo: 'mend the ones above first; the same mistake may be behind many of them',
  }
  return [...once.slice(0, MOST_LISTED), more]
}
