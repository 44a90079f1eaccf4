/**
 * Shorthand for many names at once: `F1..F6`, `F1..6`, `fan1..fan3`, `1..3`, `a..b`, `Ya..Yb`. Either end may be the
 * higher one; leading zeros are kept (`F01..F12`).
 */

/** No range is longer than this. */
export const LONGEST_RANGE = 5000

const NUMBERED = /^(.*?)(\d{1,6})\.\.(.*?)(\d{1,6})$/
const LETTERED = /^(.*?)([A-Za-z])\.\.(.*?)([A-Za-z])$/

const steps = (from: number, to: number): number[] => {
  const down = to < from
  return Array.from({ length: Math.abs(to - from) + 1 }, (_, i) => (down ? from - i : from + i))
}

export const isRange = (text: string): boolean => text.includes('..')

/** The names that a range stands for, a plain name for itself; undefined where it is no proper range. */
export function expandRange(text: string): string[] | undefined {
  if (!isRange(text)) return [text]
  const letters = LETTERED.exec(text)
  if (letters) return lettered(letters)
  const match = NUMBERED.exec(text)
  if (!match) return undefined
  const [, prefix = '', first = '', again = '', last = ''] = match
  if (again !== '' && again !== prefix) return undefined
  const [from, to] = [Number(first), Number(last)]
  if (Math.abs(to - from) >= LONGEST_RANGE) return undefined
  const width = first.startsWith('0') ? first.length : 0
  return steps(from, to).map((n) => prefix + String(n).padStart(width, '0'))
}

/** `a..c`, `Ya..Yb`: the same before the letter, and both small or both capital. */
function lettered([, prefix = '', first = '', again = '', last = '']: readonly string[]):
  | string[]
  | undefined {
  const small = (letter: string): boolean => letter === letter.toLowerCase()
  if (again !== prefix || small(first) !== small(last)) return undefined
  return steps(first.charCodeAt(0), last.charCodeAt(0)).map((code) => prefix + String.fromCharCode(code))
}

/**
 * The references that one with ranges stands for: `F1..F3.motor` gives F1.motor, F2.motor, F3.motor; with two
 * ranges the first turns slowest. Undefined where a range is not a proper one.
 */
export function expandReference(text: string): string[] | undefined {
  let whole: string[] = ['']
  for (const [i, segment] of text.split(/(?<!\.)\.(?!\.)/).entries()) {
    const names = expandRange(segment)
    if (names === undefined || whole.length * names.length > LONGEST_RANGE) return undefined
    whole = whole.flatMap((start) => names.map((name) => (i === 0 ? name : `${start}.${name}`)))
  }
  return whole
}
