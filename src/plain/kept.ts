/**
 * A reply, and what became of it. When the disk refuses, the question stands and nothing is lost: that is told like any
 * other trouble, instead of ending the talk.
 */
import type { Trouble } from '../job/log/trouble.ts'
import type { Reply, Session } from '../job/view.ts'
import type { Language } from '../wording/language.ts'
import { logWordsOf } from '../wording/report/language.ts'

export type Kept =
  | { readonly ok: true }
  | { readonly ok: false; readonly lines: readonly string[]; readonly expected: readonly string[] }

const troubleIn = (error: unknown): Trouble | undefined =>
  error instanceof Error && 'trouble' in error ? (error.trouble as Trouble) : undefined

export async function say(session: Session, reply: Reply, language: Language): Promise<Kept> {
  try {
    const taken = await session.reply(reply)
    if (taken.ok) return { ok: true }
    return { ok: false, lines: [language.refusal(taken.refusal)], expected: taken.refusal.expected }
  } catch (error) {
    const trouble = troubleIn(error)
    if (trouble === undefined) throw error
    return { ok: false, lines: logWordsOf(language).trouble(trouble), expected: [] }
  }
}
