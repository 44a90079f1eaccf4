/**
 * Text from a plan, a log or another program, made fit for a terminal: no control bytes (a name must not move the
 * cursor), no marks that turn the reading direction of what follows, one line, and not endlessly long.
 */

/** Without C0, DEL, C1, zero-width and direction marks, line and paragraph separators, tags, lone surrogates. */
const withoutUnseen = (text: string): string =>
  text.replace(
    /[\p{Cc}\u061c\u200b-\u200f\u2028-\u202e\u2060-\u206f\ufeff\ufff9-\ufffb\u{e0000}-\u{e007f}]|\p{Cs}/gu,
    '',
  )

/** Words of ASCII with single blanks between: nearly every text, with nothing to clean; the rule above is slow to make ready. */
const PLAIN = /^[!-~]+(?: [!-~]+)*$/

/** The longest name that a sentence carries, in characters as a person counts them. */
export const LONGEST_NAME = 48

// Made when first needed: it takes milliseconds, and most texts are short.
let segmenter: Intl.Segmenter | undefined

/** Cuts after `longest` characters as a person counts them and marks the cut with an ellipsis. */
export function shorten(text: string, longest: number): string {
  if (text.length <= longest) return text
  segmenter ??= new Intl.Segmenter('en', { granularity: 'grapheme' })
  const seen = [...segmenter.segment(text)].map((s) => s.segment)
  return seen.length <= longest ? text : `${seen.slice(0, longest - 1).join('')}…`
}

/** One line without anything unseen; line breaks and tabs become single blanks. */
export const clean = (text: string): string =>
  PLAIN.test(text) ? text : withoutUnseen(text.replace(/[\s\u2028\u2029]+/gu, ' ')).trim()

/** A name for use inside a sentence: cleaned and at most `LONGEST_NAME` characters. */
export const cleanName = (text: string): string => shorten(clean(text), LONGEST_NAME)
