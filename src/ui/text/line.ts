/**
 * A line of the screen as data: pieces of text, each in a tone. Views make lines, one component prints them, tests
 * read them. A tone never carries meaning alone: the words or the mark beside it say the same.
 */
import { characters, characterWidth, shortened, width } from './width.ts'

export type Tone = 'plain' | 'strong' | 'dim' | 'picked'

export interface Span {
  readonly text: string
  readonly tone: Tone
}

export type Line = readonly Span[]

export const span = (text: string, tone: Tone = 'plain'): Span => ({ text, tone })

export const line = (...spans: readonly (Span | string)[]): Line =>
  spans.map((s) => (typeof s === 'string' ? span(s) : s)).filter((s) => s.text !== '')

export const BLANK: Line = []

export const lineText = (l: Line): string => l.map((s) => s.text).join('')

export const lineWidth = (l: Line): number => l.reduce((sum, s) => sum + width(s.text), 0)

/** Cut to `columns`; where something was cut the last piece ends in a mark. */
export function cutLine(l: Line, columns: number, mark = '…'): Line {
  if (lineWidth(l) <= columns) return l
  const out: Span[] = []
  let left = columns
  for (const s of l) {
    const wide = width(s.text)
    if (wide < left) {
      out.push(s)
      left -= wide
      continue
    }
    out.push({ text: shortened(`${s.text}${mark}`, left, mark), tone: s.tone })
    break
  }
  return out
}

/** Filled with blanks up to `columns`, in the tone of its last piece if `fill` says so. */
export function padLine(l: Line, columns: number, tone: Tone = 'plain'): Line {
  const missing = columns - lineWidth(l)
  return missing > 0 ? [...l, span(' '.repeat(missing), tone)] : l
}

/** Left and right on one line; the left gives way. */
export function spread(left: Line, right: Line, columns: number, mark = '…'): Line {
  const room = columns - lineWidth(right)
  if (room < 1) return cutLine(right, columns, mark)
  return [...padLine(cutLine(left, room - 1, mark), room), ...right]
}

/** Blanks, but for the one between a figure and its unit. */
const BETWEEN_WORDS = / (?!(?<=\d )(?:°C|%|[VAW]|mA|mm|RPM)(?![\p{L}\p{N}]))/u

/** Breaks a text at blanks into lines of at most `columns`; words longer than a line are cut into pieces. */
export function wrap(text: string, columns: number): string[] {
  const room = Math.max(1, columns)
  const lines: string[] = []
  let current = ''
  for (const word of text.split(BETWEEN_WORDS)) {
    const candidate = current === '' ? word : `${current} ${word}`
    if (width(candidate) <= room) {
      current = candidate
      continue
    }
    if (current !== '') lines.push(current)
    current = word
    while (width(current) > room) {
      const [piece, rest] = split(current, room)
      lines.push(piece)
      current = rest
    }
  }
  lines.push(current)
  return lines
}

function split(word: string, columns: number): [piece: string, rest: string] {
  let piece = ''
  let used = 0
  for (const character of characters(word)) {
    const wide = characterWidth(character)
    if (piece !== '' && used + wide > columns) break
    piece += character
    used += wide
  }
  return [piece, word.slice(piece.length)]
}

/** A text in one tone, wrapped, behind a lead (a bullet, a number) that the following lines are indented by. */
export function paragraph(text: string, columns: number, tone: Tone = 'plain', lead = ''): Line[] {
  const indent = width(lead)
  return wrap(text, columns - indent).map((part, i) =>
    line(span(i === 0 ? lead : ' '.repeat(indent), tone), span(part, tone)),
  )
}

/** The last of some texts that have room together, none of them in part. */
export function lastThatFit(texts: readonly (readonly string[])[], room: number): (readonly string[])[] {
  let left = room
  const from = texts.findLastIndex((text) => {
    left -= text.length
    return left < 0
  })
  return texts.slice(from + 1)
}

/** Two blocks beside each other, the left one `columns` wide. */
export function beside(left: readonly Line[], right: readonly Line[], columns: number, gap: string): Line[] {
  const height = Math.max(left.length, right.length)
  return Array.from({ length: height }, (_, i) => [
    ...padLine(cutLine(left[i] ?? BLANK, columns), columns),
    span(gap, 'dim'),
    ...(right[i] ?? BLANK),
  ])
}
