/**
 * The known word that a mistyped one was most likely meant to be: edit distance with neighbouring letters swapped
 * counted as one slip (optimal string alignment), not minding case. Another word of the trade for it comes first.
 */
import { planWordFor } from './other-words.ts'

/** Number of single slips (insert, leave out, replace, swap neighbours) between two words. */
export function editDistance(a: string, b: string): number {
  let before: number[] = []
  let last = Array.from({ length: b.length + 1 }, (_, j) => j)
  for (let i = 1; i <= a.length; i++) {
    const row = [i]
    for (let j = 1; j <= b.length; j++) {
      const same = a[i - 1] === b[j - 1]
      let least = Math.min((last[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, (last[j - 1] ?? 0) + (same ? 0 : 1))
      if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1])
        least = Math.min(least, (before[j - 2] ?? 0) + 1)
      row[j] = least
    }
    before = last
    last = row
  }
  return last[b.length] ?? 0
}

const LONGEST = 40

const digits = (word: string): string => word.replace(/\D/g, '')

/** F7 is not a slip for F1: numbers are chosen, letters are mistyped. */
const otherNumber = (a: string, b: string): boolean => {
  const [x, y] = [digits(a), digits(b)]
  return x !== '' && y !== '' && x !== y
}

/** The nearest of `known`, the first on a tie; undefined where nothing is near enough to be meant. */
export function nearest(word: string, known: readonly string[]): string | undefined {
  if (word.length > LONGEST) return undefined
  const plain = word.toLowerCase().replace(/[-\s]/g, '_')
  const own = planWordFor(plain, known)
  if (own !== undefined) return own
  let best: string | undefined
  let least = Math.max(1, Math.floor(Math.max(word.length, 3) / 2.5)) + 1
  for (const candidate of known) {
    if (otherNumber(word, candidate)) continue
    if (Math.abs(candidate.length - word.length) >= least) continue
    const distance = editDistance(plain, candidate.toLowerCase().replace(/[-\s]/g, '_'))
    if (distance < least) {
      least = distance
      best = candidate
    }
  }
  return best ?? begunBy(plain, known)
}

/** `usb` for `usb_headers`: the one known word that begins with it. */
function begunBy(word: string, known: readonly string[]): string | undefined {
  const begun = word.length < 3 ? [] : known.filter((candidate) => candidate.toLowerCase().startsWith(word))
  return begun.length === 1 ? begun[0] : undefined
}

/** `a, b, c and 4 more`: a list that stays readable. */
export function listed(words: readonly string[], most = 12): string {
  if (words.length === 0) return 'none'
  if (words.length <= most) return words.join(', ')
  return `${words.slice(0, most).join(', ')} and ${words.length - most} more`
}
