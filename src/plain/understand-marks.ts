/**
 * "F2 F5", "F3 part", "1 4", "f1..f3": which of many things hold, by name or by number in the list of things. A thing
 * that can be marked in several ways is marked in its first way, unless a word after it says which.
 */
import type { Ask, Mark } from '../core/checks/prompt.ts'
import type { Language } from '../wording/language.ts'
import { plainly, type Said } from './said.ts'

type Marks = Extract<Ask, { many: true }>['marks']

const sameThing = (a: Mark, b: Mark): boolean =>
  a.observe.at === b.observe.at && a.observe.what === b.observe.what

/** Things in the order of the question, each with its marks; so they are numbered. */
export function things(marks: Marks): Mark[][] {
  const found: Mark[][] = []
  for (const mark of marks) {
    const thing = found.find((t) => t[0] !== undefined && sameThing(t[0], mark))
    if (thing) thing.push(mark)
    else found.push([mark])
  }
  return found
}

const nameOf = (thing: readonly Mark[]): string => plainly(thing[0]?.observe.at ?? '')

/** By the whole reference, without `board.`, or by the part alone where only one of the things is on it. */
function thingsNamed(token: string, all: readonly Mark[][]): Mark[][] {
  const exact = all.filter((t) => nameOf(t) === token || nameOf(t) === `board.${token}`)
  if (exact.length > 0) return exact
  const ofPart = all.filter((t) => nameOf(t).startsWith(`${token}.`))
  return ofPart.length === 1 ? ofPart : []
}

/** `f1..f3` spelled out in the order of the question; undefined where an end is unknown. */
function range(token: string, all: readonly Mark[][]): Mark[][] | undefined {
  const [from, to] = token.split(/\.\.+|–/)
  if (!from || !to) return undefined
  const [start] = thingsNamed(from, all)
  const [end] = thingsNamed(to, all)
  if (!start || !end) return undefined
  const first = all.indexOf(start)
  const last = all.indexOf(end)
  return last < first ? undefined : all.slice(first, last + 1)
}

type Token = { readonly mark: Mark } | { readonly things: readonly Mark[][] } | { readonly value: string }

function read(token: string, marks: Marks, all: readonly Mark[][]): Token | undefined {
  const exact = marks.find((m) => plainly(m.id) === token && m.id !== m.observe.at)
  if (exact) return { mark: exact }
  const named = thingsNamed(token, all)
  if (named.length > 0) return { things: named }
  if (/^\d{1,4}$/.test(token)) {
    const thing = all[Number(token) - 1]
    return thing && { things: [thing] }
  }
  const spelled = range(token, all)
  if (spelled) return { things: spelled }
  const values = [...new Set(marks.map((m) => m.value))]
  const value =
    values.find((v) => plainly(v) === token) ?? unique(values.filter((v) => plainly(v).startsWith(token)))
  return value === undefined ? undefined : { value }
}

const unique = (values: readonly string[]): string | undefined =>
  values.length === 1 ? values[0] : undefined

/** Undefined where the first word is no mark at all, so that it may be something else. */
export function understandMarks(
  text: string,
  ask: Extract<Ask, { many: true }>,
  language: Language,
): Said | undefined {
  const all = things(ask.marks)
  const back = (said: string): Said => ({ do: 'ask-back', text: said })
  const taken: Mark[] = []
  let last: readonly Mark[][] = []
  const tokens = text.split(/[\s,;]+|\band\b/u).filter(Boolean)
  for (const [i, token] of tokens.entries()) {
    const found = read(token, ask.marks, all)
    if (found === undefined) {
      if (/^\d+$/.test(token)) return back(language.dialogue.outOfRange(Number(token), all.length))
      return i === 0 ? undefined : back(language.dialogue.notUnderstood(token))
    }
    if ('mark' in found) {
      taken.push(found.mark)
      last = []
    } else if ('things' in found) {
      taken.push(...found.things.flatMap((t) => t.slice(0, 1)))
      last = found.things
    } else {
      if (last.length === 0) return i === 0 ? undefined : back(language.dialogue.notUnderstood(token))
      const marks = last.map((t) => t.find((m) => m.value === found.value))
      if (marks.some((m) => m === undefined)) return back(language.dialogue.notUnderstood(token))
      taken.splice(taken.length - last.length, last.length, ...(marks as Mark[]))
      last = []
    }
  }
  const clash = taken.find((m) => taken.some((n) => n.id !== m.id && sameThing(m, n)))
  if (clash) return back(language.dialogue.twice(clash.observe.at))
  const ids = ask.marks.filter((m) => taken.includes(m)).map((m) => m.id)
  return { do: 'reply', reply: { say: 'answer', ids } }
}
