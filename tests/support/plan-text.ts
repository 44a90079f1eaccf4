/** Where something stands in a text, found by looking for it: what a person would count in an editor. */
import type { Place } from '../../src/core/plan/problem.ts'

/** Line and column of the first (or n-th) time that `what` stands in `text`. */
export function standsAt(text: string, what: string, file = 'test.build.yaml', nth = 1): Place {
  let offset = -1
  for (let i = 0; i < nth; i++) {
    offset = text.indexOf(what, offset + 1)
    if (offset < 0) throw new Error(`"${what}" does not stand in the text ${nth} times`)
  }
  const before = text.slice(0, offset).split('\n')
  return { file, line: before.length, col: (before.at(-1) ?? '').length + 1 }
}
