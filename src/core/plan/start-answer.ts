/**
 * What a typed line answers to one of the questions that begin a plan: the value, or why it is none. Nothing typed,
 * and "unknown", mean the usual value, or where there is none that it stays unknown.
 */
import type { StartQuestion } from './start-questions.ts'
import { quantity } from './units.ts'

export type Answered =
  | { readonly ok: true; readonly value: string | number | undefined }
  | { readonly ok: false; readonly why: 'no-count' | 'no-current' | 'comma' | 'out-of-range' | 'no-choice' }

const no = (why: Extract<Answered, { ok: false }>['why']): Answered => ({ ok: false, why })

/** By its id, by its number in the list, or by a beginning that only one of them has. */
function choice(said: string, choices: readonly string[]): Answered {
  const text = said.toLowerCase()
  const exact = choices.find((c) => c.toLowerCase() === text)
  const numbered = /^\d{1,2}$/.test(text) ? choices[Number(text) - 1] : undefined
  const begun = choices.filter((c) => c.toLowerCase().startsWith(text))
  const value = exact ?? numbered ?? (begun.length === 1 ? begun[0] : undefined)
  return value === undefined ? no('no-choice') : { ok: true, value }
}

/** @param said one line as typed */
export function startAnswer({ answer, usual }: StartQuestion, said: string): Answered {
  const text = said.trim()
  if (text === '' || text.toLowerCase() === 'unknown') return { ok: true, value: usual }
  switch (answer.is) {
    case 'text':
      return { ok: true, value: text }
    case 'choice':
      return choice(text, answer.choices)
    case 'count': {
      if (!/^\d{1,9}$/.test(text)) return no('no-count')
      const value = Number(text)
      return value < answer.min || value > answer.max ? no('out-of-range') : { ok: true, value }
    }
    case 'amps': {
      const read = quantity(text, 'current')
      if (!read.ok) return no(read.why === 'comma' ? 'comma' : 'no-current')
      return read.value <= 0 || read.value > answer.max ? no('out-of-range') : { ok: true, value: read.value }
    }
  }
}
