/** Breaks lines between words for a terminal in line mode; the second line of a point is set in under its text. */

/** East Asian wide and emoji blocks, two columns each; combining marks none. Enough to break lines, not to draw. */
const WIDE =
  /[\u1100-\u115f\u2e80-\u303e\u3041-\ua4cf\uac00-\ud7a3\uf900-\ufaff\ufe30-\ufe6f\uff00-\uff60\uffe0-\uffe6\u{1f300}-\u{1faff}\u{20000}-\u{3fffd}]/u
const NO_WIDTH = /\p{M}/u

/** Columns that a text takes in a terminal. */
function columnsOf(text: string): number {
  let n = 0
  for (const c of text) n += NO_WIDTH.test(c) ? 0 : WIDE.test(c) ? 2 : 1
  return n
}

/** The indent of following lines: under the text of "  1. " or "62 %  ", or of leading blanks. */
const hang = (line: string): string =>
  ' '.repeat(columnsOf(/^\s*(?:\d+[.]\s+|(?:\p{L}+ )?\d+ %\s+)?/u.exec(line)?.[0] ?? ''))

/** One line broken to `columns`; a word that is longer than a line is left whole. */
export function wrap(line: string, columns: number | undefined): string {
  if (columns === undefined || columnsOf(line) <= columns) return line
  const indent = hang(line)
  const lines: string[] = []
  let now = /^\s*/.exec(line)?.[0] ?? ''
  let empty = true
  for (const word of line.trim().split(' ')) {
    if (!empty && columnsOf(now) + 1 + columnsOf(word) > columns) {
      lines.push(now)
      now = indent + word
    } else now += (empty ? '' : ' ') + word
    empty = false
  }
  return [...lines, now].join('\n')
}
