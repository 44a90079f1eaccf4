/** What of a list of things told is new: a view that comes again, or with more at its end, brings the old ones too. */
import type { View } from '../job/view.ts'

export function notToldYet(now: View['told'], before: View['told'] | undefined): View['told'] {
  if (now === before || before === undefined) return now === before ? [] : now
  return before.every((one, i) => now[i] === one) ? now.slice(before.length) : now
}
