/**
 * Digests: of a plan, so that a job knows whether it still runs on the plan that it began with, and of each line of a
 * log together with all lines before it, so that a changed, lost or moved line is noticed.
 */
import { createHash } from 'node:crypto'
import type { PlanCopy } from './event.ts'

const sha256 = (pieces: readonly string[]): string => {
  const hash = createHash('sha256')
  for (const piece of pieces) hash.update(piece, 'utf8')
  return hash.digest('hex')
}

/**
 * SHA-256 of the plan file's text in hex. With includes, of all texts one after the other, each led by its length,
 * so that moving text from one file to the next makes another digest; names of files do not count.
 */
export function planDigest(plan: PlanCopy): string {
  if (plan.includes.length === 0) return sha256([plan.text])
  const texts = [plan.text, ...plan.includes.map((include) => include.text)]
  return sha256(texts.flatMap((text) => [`${text.length}:`, text]))
}

/** The sum before the first line. */
export const FIRST_SUM = '0'.repeat(16)

/**
 * The first 64 bits, in hex, of SHA-256 over the sum of the line before and this line's text without its sum. Against
 * accident and careless hands; whoever wants to forge a log can compute it as well.
 */
export const lineSum = (before: string, body: string): string => sha256([before, body]).slice(0, 16)
