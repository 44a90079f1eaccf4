/** A reading that a person named (a file, this machine, the clipboard) fetched and handed into the job. */
import type { Session } from '../job/view.ts'
import type { Language } from '../wording/language.ts'
import { logWordsOf } from '../wording/report/language.ts'
import { type Kept, say } from './kept.ts'
import type { Said } from './said.ts'
import type { Talk } from './talk.ts'

export async function handIn(
  session: Session,
  { from, as }: Extract<Said, { do: 'read' }>,
  talk: Talk,
  language: Language,
): Promise<Kept & { readonly lines: readonly string[] }> {
  const got = talk.fetch && (await talk.fetch(from))
  if (!got) return { ok: false, lines: [language.dialogue.readNotHere], expected: [] }
  if (!got.ok) return { ok: false, lines: logWordsOf(language).trouble(got.trouble), expected: [] }
  const kept = await say(session, { say: 'read', text: got.text, as, by: from }, language)
  return kept.ok ? { ok: true, lines: [] } : kept
}
