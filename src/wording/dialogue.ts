/** What a language must say, and understand, line by line: the ways beside an answer, heads, refusals, mistakes. */
import type { Hands, Power } from '../core/checks/prompt.ts'
import type { View } from '../job/view.ts'

/** What a person may say at any time beside an answer. */
export type Way =
  | 'done'
  | 'unsure'
  | 'cannot'
  | 'undo'
  | 'why'
  | 'path'
  | 'where'
  | 'findings'
  | 'again'
  | 'fold'
  | 'unfold'
  | 'hand-over'
  | 'leave'
  | 'help'
  | 'none'

/** What the line-by-line front end says and understands of its own. */
export interface Dialogue {
  /** The words for each way, in small letters; `note` takes the rest of the line. */
  readonly words: Readonly<Record<Way, readonly string[]>>
  readonly noteWord: string
  /** Before the name of a reading. */
  readonly readWord: string
  readonly readWhat: string
  readonly readNotHere: string
  readonly prompt: string
  /** Beside what an empty line takes. */
  readonly enter: string
  readonly hello: (view: View) => string[]
  readonly help: (kind: 'do' | 'one' | 'many' | 'ended') => string[]
  /**
   * Above each step: what it takes.
   * @param power null where nobody knows   @param left causes still to tell apart, null while nobody is suspected
   */
  readonly head: (
    n: number,
    power: Power | null,
    hands: Hands,
    minutes: number,
    left: number | null,
  ) => string
  readonly ways: (kind: 'do' | 'one' | 'many', canUndo: boolean) => string
  readonly notUnderstood: (said: string) => string
  readonly whichOf: (said: string, choices: readonly string[]) => string
  readonly outOfRange: (n: number, last: number) => string
  readonly twice: (thing: string) => string
  /** The words by which things are marked, the first being the one that is meant where none is said. */
  readonly markWords: (values: readonly (readonly [word: string, means: string])[]) => string
  readonly noteTaken: string
  readonly folded: string
  readonly unfolded: string
  /** How to sign; with the name that is known already, if one is. */
  readonly signHow: (who: string | null) => string
  readonly signed: (by: string) => string
  readonly noteEmpty: string
  readonly nothingToUndo: string
  readonly undone: string
  /** After what taking an earlier answer back would change: how it is done. */
  readonly takeBackSure: string
  readonly takenBackNot: string
  readonly noTakingBack: (step: number, standing: readonly number[]) => string
  readonly yes: readonly string[]
  readonly pathSoFar: string
  readonly pathEmpty: string
  /** How many findings of the audit there are beside those that were told. */
  readonly moreFindings: (count: number) => string
  readonly noFindings: string
  readonly where: string
  readonly whereUnknown: string
  readonly inputEnded: (log: string) => string
  readonly tooLong: string
  readonly notUtf8: string
}
