/** Which known word a mistyped one was most likely meant to be. */
import { editDistance } from '../core/plan/nearest.ts'

/** The nearest known words, best first, at most two; a beginning of a word counts as near. */
export function near(given: string, known: readonly string[]): string[] {
  const word = given.toLowerCase().slice(0, 40)
  const most = Math.max(1, Math.floor(word.length / 3))
  return known
    .map((k) => ({ k, slips: word.length > 1 && k.startsWith(word) ? 0 : editDistance(word, k) }))
    .filter(({ slips }) => slips <= most)
    .sort((a, b) => a.slips - b.slips)
    .slice(0, 2)
    .map(({ k }) => k)
}
