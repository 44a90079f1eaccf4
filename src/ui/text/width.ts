/**
 * How many columns a text takes on a terminal: most characters one, East Asian wide ones and emoji two, combining and
 * unseen ones none. Counted by what a person sees as one character, so that a joined emoji is not counted thrice.
 */

/** Blocks that terminals draw two columns wide (Unicode East Asian Width W and F, and the emoji blocks). */
const WIDE: readonly (readonly [first: number, last: number])[] = [
  [0x1100, 0x115f],
  [0x231a, 0x231b],
  [0x2329, 0x232a],
  [0x23e9, 0x23ec],
  [0x23f0, 0x23f0],
  [0x23f3, 0x23f3],
  [0x25fd, 0x25fe],
  [0x2614, 0x2615],
  [0x2648, 0x2653],
  [0x267f, 0x267f],
  [0x2693, 0x2693],
  [0x26a1, 0x26a1],
  [0x26aa, 0x26ab],
  [0x26bd, 0x26be],
  [0x26c4, 0x26c5],
  [0x26ce, 0x26ce],
  [0x26d4, 0x26d4],
  [0x26ea, 0x26ea],
  [0x26f2, 0x26f3],
  [0x26f5, 0x26f5],
  [0x26fa, 0x26fa],
  [0x26fd, 0x26fd],
  [0x2705, 0x2705],
  [0x270a, 0x270b],
  [0x2728, 0x2728],
  [0x274c, 0x274c],
  [0x274e, 0x274e],
  [0x2753, 0x2755],
  [0x2757, 0x2757],
  [0x2795, 0x2797],
  [0x27b0, 0x27b0],
  [0x27bf, 0x27bf],
  [0x2b1b, 0x2b1c],
  [0x2b50, 0x2b50],
  [0x2b55, 0x2b55],
  [0x2e80, 0x303e],
  [0x3041, 0x4dbf],
  [0x4e00, 0xa4cf],
  [0xa960, 0xa97f],
  [0xac00, 0xd7a3],
  [0xf900, 0xfaff],
  [0xfe10, 0xfe19],
  [0xfe30, 0xfe6f],
  [0xff01, 0xff60],
  [0xffe0, 0xffe6],
  [0x16fe0, 0x18aff],
  [0x1aff0, 0x1b2ff],
  [0x1f004, 0x1f004],
  [0x1f0cf, 0x1f0cf],
  [0x1f18e, 0x1f18e],
  [0x1f191, 0x1f19a],
  [0x1f200, 0x1f320],
  [0x1f32d, 0x1f64f],
  [0x1f680, 0x1f6ff],
  [0x1f7e0, 0x1f7eb],
  [0x1f7f0, 0x1f7f0],
  [0x1f90c, 0x1faff],
  [0x20000, 0x3fffd],
]

const NONE = /^[\p{M}\p{Cc}\p{Cf}\p{Zl}\p{Zp}\p{Default_Ignorable_Code_Point}]*$/u

// Made when first needed: its tables take 2 MB for good.
let segmenter: Intl.Segmenter | undefined

/** Letters and signs of one column each, none of which joins another: what most screens are made of. */
const PLAIN = /^[ -~¡-¬®-ʯΑ-ϿЀ-ҁҊ-ӿ‐-‧‰-⁞℀-↋←-⇿─-◼⚠✓✗]*$/

/** The characters of a text as a person counts them. */
export function characters(text: string): string[] {
  if (PLAIN.test(text)) return [...text]
  segmenter ??= new Intl.Segmenter('en', { granularity: 'grapheme' })
  return [...segmenter.segment(text)].map((s) => s.segment)
}

/** Columns of one character, as a person counts characters: 0, 1 or 2. */
export function characterWidth(character: string): number {
  if (NONE.test(character)) return 0
  const code = character.codePointAt(0) ?? 0
  if (code < 0x300) return character.includes('\ufe0f') ? 2 : 1
  if (character.includes('\ufe0f')) return 2
  return WIDE.some(([first, last]) => code >= first && code <= last) ? 2 : 1
}

/** Columns that a text takes, without control bytes. */
export const width = (text: string): number =>
  PLAIN.test(text) ? text.length : characters(text).reduce((sum, c) => sum + characterWidth(c), 0)

/** The longest beginning of a text that fits `columns`, at the border of a character. */
export function fitting(text: string, columns: number): string {
  if (width(text) <= columns) return text
  let taken = ''
  let used = 0
  for (const character of characters(text)) {
    const wide = characterWidth(character)
    if (used + wide > columns) break
    taken += character
    used += wide
  }
  return taken
}

/** Cut to `columns`, with a mark where something was cut. */
export const shortened = (text: string, columns: number, mark = '…'): string => {
  if (width(text) <= columns) return text
  const room = columns - width(mark)
  return room <= 0 ? fitting(text, Math.max(0, columns)) : `${fitting(text, room).trimEnd()}${mark}`
}

/** The same, but between words where at least half of the room is filled that way. */
export function shortenedAtWord(text: string, columns: number, mark = '…'): string {
  const cut = shortened(text, columns, mark)
  if (cut === text) return text
  const blank = text.slice(0, cut.length - mark.length + 1).lastIndexOf(' ')
  return blank >= cut.length / 2 ? `${text.slice(0, blank).replace(/[\s,;:–-]+$/u, '')}${mark}` : cut
}

/** Cut in the middle, so that beginning and end of a long name both stay readable. */
export function middleCut(text: string, columns: number, mark = '…'): string {
  if (width(text) <= columns) return text
  const room = columns - width(mark)
  if (room < 4) return shortened(text, columns, mark)
  const head = fitting(text, Math.ceil(room / 2))
  const reversed = characters(text).reverse()
  let tail = ''
  let used = 0
  for (const character of reversed) {
    const wide = characterWidth(character)
    if (used + wide > room - width(head)) break
    tail = character + tail
    used += wide
  }
  return `${head}${mark}${tail}`
}
