/**
 * JSON as tools really print it: a key given twice stays twice, a comma before a brace and a stray line of the error
 * stream are passed over and told, several documents may follow one another. Anything else is broken, with its line.
 */

export type Json = string | number | boolean | null | JsonList | JsonObject
export interface JsonList {
  readonly is: 'list'
  readonly items: readonly Json[]
}
export interface JsonObject {
  readonly is: 'object'
  readonly entries: readonly (readonly [string, Json])[]
}

export interface JsonRead {
  readonly documents: readonly Json[]
  readonly commas: number
  readonly strayLines: readonly string[]
  /** Keys that one object has more than once. */
  readonly doubled: readonly string[]
}

export type JsonText =
  | ({ readonly ok: true } & JsonRead)
  | { readonly ok: false; readonly line: number; readonly found: string }

/** Deeper than any tool nests. */
const DEEPEST = 64

class Broken extends Error {}

const STRING = /"(?:[^"\\\n]|\\.)*"/y
const NUMBER = /-?\d+(?:\.\d+)?(?:[eE][+-]?\d+)?/y

/** A line that is none of JSON's: its first sign is no bracket, quote, sign, digit or word of JSON. */
const STRAY = /^(?!\s*(?:$|[{}[\]",:]|-?\d|(?:true|false|null)\s*[,}\]]?\s*$)).*$/

/** The documents in a text, or the line at which it is broken. */
export function readJson(text: string): JsonText {
  const strayLines: string[] = []
  // Blanked, not cut, so that line numbers stay those of the file.
  const sound = text
    .replace(/^\uFEFF/, '')
    .split('\n')
    .map((line) => {
      if (!STRAY.test(line)) return line
      strayLines.push(line.trim())
      return ''
    })
    .join('\n')
  const doubled: string[] = []
  let commas = 0
  let at = 0

  const blank = (): void => {
    while (at < sound.length && /\s/.test(sound[at] ?? '')) at++
  }
  const fail = (): never => {
    throw new Broken()
  }
  const word = (literal: string): boolean => {
    if (!sound.startsWith(literal, at)) return false
    at += literal.length
    return true
  }
  const quoted = (): string => {
    STRING.lastIndex = at
    const match = STRING.exec(sound)
    if (!match) return fail()
    at += match[0].length
    return JSON.parse(match[0]) as string
  }
  const value = (depth: number): Json => {
    blank()
    if (depth > DEEPEST) return fail()
    const sign = sound[at]
    if (sign === '{') return object(depth)
    if (sign === '[') return list(depth)
    if (sign === '"') return quoted()
    if (word('true')) return true
    if (word('false')) return false
    if (word('null')) return null
    NUMBER.lastIndex = at
    const number = NUMBER.exec(sound)
    if (!number) return fail()
    at += number[0].length
    return Number(number[0])
  }
  /** Entries up to the closing sign; a comma with nothing behind it is counted and passed over. */
  const entries = (close: string, entry: () => void): void => {
    at++
    blank()
    let due = false
    while (sound[at] !== close) {
      if (at >= sound.length) fail()
      if (due) {
        if (sound[at] !== ',') fail()
        at++
        blank()
        if (sound[at] === close) {
          commas++
          break
        }
      }
      entry()
      due = true
      blank()
    }
    at++
  }
  const object = (depth: number): JsonObject => {
    const found: [string, Json][] = []
    entries('}', () => {
      const key = quoted()
      blank()
      if (sound[at] !== ':') fail()
      at++
      if (found.some(([k]) => k === key)) doubled.push(key)
      found.push([key, value(depth + 1)])
    })
    return { is: 'object', entries: found }
  }
  const list = (depth: number): JsonList => {
    const items: Json[] = []
    entries(']', () => void items.push(value(depth + 1)))
    return { is: 'list', items }
  }

  const documents: Json[] = []
  try {
    for (blank(); at < sound.length; blank()) documents.push(value(0))
  } catch {
    const before = sound.slice(0, at)
    const line = before.split('\n').length
    return { ok: false, line, found: (text.split('\n')[line - 1] ?? '').trim().slice(0, 60) }
  }
  return { ok: true, documents, commas, strayLines, doubled }
}

export const isObject = (json: Json | undefined): json is JsonObject =>
  typeof json === 'object' && json !== null && json.is === 'object'

/** The last value of a key, as a plain parser would have it. */
export const field = (json: Json | undefined, key: string): Json | undefined =>
  isObject(json) ? json.entries.findLast(([k]) => k === key)?.[1] : undefined

export const textField = (json: Json | undefined, key: string): string | undefined => {
  const found = field(json, key)
  return typeof found === 'string' ? found : undefined
}

export const numberField = (json: Json | undefined, key: string): number | undefined => {
  const found = field(json, key)
  return typeof found === 'number' ? found : undefined
}
