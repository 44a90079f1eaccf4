/**
 * Taking an earlier answer back, line by line: named by its step in the path so far, what it changes said first, done on
 * a plain yes. Anything else leaves all as it is.
 */
import type { Session, View, Without } from '../job/view.ts'
import type { Language } from '../wording/language.ts'
import { takeBackText } from '../wording/take-back.ts'
import { plainly } from './said.ts'

export interface Asked {
  readonly seq: number
  readonly without: Without
}

/** Steps whose answers still stand, as a person counts them. */
export const standingSteps = (view: View): readonly number[] =>
  view.trail.flatMap((e, i) => (e.undone || e.prompt.show !== 'ask' ? [] : [i + 1]))

/** What taking the answer of that step back would change; undefined where it cannot be taken back now. */
export function asked(session: Session, step: number): Asked | undefined {
  const entry = session.view().trail[step - 1]
  if (entry === undefined || entry.undone || entry.prompt.show !== 'ask') return undefined
  const without = session.without(entry.seq)
  return without ? { seq: entry.seq, without } : undefined
}

/** What taking it back would change, and how to say yes. */
export function askedLines(view: View, { without }: Asked, language: Language): readonly string[] {
  const { head, entries, shares } = takeBackText(view, without.takes, without, language)
  return [
    head,
    ...entries.map((entry) => `  ${entry}`),
    ...(shares.length === 0 ? [] : [language.screen.shareHead]),
    ...shares.map((share) => `  ${share}`),
    language.dialogue.takeBackSure,
  ]
}

/** The step meant by "undo 3"; undefined where no step is named. */
export function stepNamed(line: string, { dialogue }: Language): number | undefined {
  const text = plainly(line)
  const word = dialogue.words.undo.find((w) => text.startsWith(`${w} `))
  const digits = word && /^(?:\D+ )?#?(\d{1,4})$/u.exec(text.slice(word.length + 1))?.[1]
  return digits === undefined || digits === '' ? undefined : Number(digits)
}
