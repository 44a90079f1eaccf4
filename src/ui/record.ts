/** What is left in the scrollback when the screen is gone: how it ended, what was done and seen, where the log is. */
import type { View } from '../job/view.ts'
import type { Language } from '../wording/language.ts'
import { lineText } from './text/line.ts'
import { sayLines } from './views/model.ts'

/** The longest trail printed in full; of longer ones the last steps, the log has them all. */
const LONGEST = 30

/** Plain text of whole lines, ending in a line break. */
export function recordText(view: View, language: Language, ascii: boolean, columns: number): string {
  const out: string[] = []
  const words = language.screen
  const put = (text: string): void => {
    out.push(...sayLines({ ascii }, text, Math.max(20, columns - 1)).map(lineText))
  }
  put(`${words.record.head}: ${view.plan.build}, ${language.symptoms(view.symptoms)}`)
  const standing = view.trail.filter((e) => !e.undone)
  if (standing.length > LONGEST) put(words.more(standing.length - LONGEST))
  for (const entry of standing.slice(-LONGEST)) {
    put(`  ${language.trail(entry, view)}`)
    for (const note of entry.notes) put(`     ${language.labels.noted}: ${note}`)
  }
  if (view.end) for (const text of language.end(view.end, view)) put(text)
  else put(`${words.record.log}: ${view.log}`)
  if (view.end === null || view.end.outcome === 'left') put(`${words.record.resume} ${view.log}`)
  return `${out.join('\n')}\n`
}
