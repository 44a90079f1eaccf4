/** What a language must be able to say to begin a plan by questions, and in the file that comes of it. */
import type { StartRemarks } from '../core/plan/start-plan.ts'
import type { StartId, StartQuestion } from '../core/plan/start-questions.ts'

export interface StartWords {
  /** Before the first question. */
  readonly hello: readonly string[]
  readonly ask: Readonly<Record<StartId, string>>
  /** What each choice means, by question. */
  readonly choices: Readonly<Partial<Record<StartId, Readonly<Record<string, string>>>>>
  /** The key that takes what is usual. */
  readonly enter: string
  /** What is taken where nothing is typed. */
  readonly usual: (question: StartQuestion) => string
  readonly help: (question: StartQuestion) => readonly string[]
  readonly refused: (question: StartQuestion, why: string, said: string) => string
  readonly noWayBack: string
  readonly inputEnded: string
  readonly nothingWritten: string
  readonly remarks: StartRemarks
}
