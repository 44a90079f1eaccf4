/** What a typed line was understood as, and the form in which lines and words are compared. */
import type { Reply } from '../job/view.ts'

export type Said =
  | { readonly do: 'reply'; readonly reply: Reply }
  | { readonly do: 'tell'; readonly what: 'help' | 'why' | 'path' | 'where' | 'findings' | 'again' }
  | { readonly do: 'ask-back'; readonly text: string }
  /** The answer of that step of the path so far is to be taken back. */
  | { readonly do: 'take-back'; readonly step: number }
  /** A reading is to be fetched: a file, `live` or `clipboard`, and which of its names is which place. */
  | { readonly do: 'read'; readonly from: string; readonly as: readonly string[] }

/** Small letters, one blank between words, one form for accents and apostrophes. */
export const plainly = (text: string): string =>
  text
    .normalize('NFKC')
    .toLowerCase()
    .replace(/[‘’`´]/g, "'")
    .replace(/\s+/g, ' ')
    .trim()
