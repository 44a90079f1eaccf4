/** All that a view draws from: the job, the cursor, the words, the marks and the size. Views are functions of it. */
import type { View, Why, Without } from '../../job/view.ts'
import { clean } from '../../wording/clean.ts'
import type { Language } from '../../wording/language.ts'
import type { ScreenWords } from '../../wording/screen.ts'
import type { Cursor } from '../state/cursor.ts'
import { BLANK, type Line, paragraph, type Tone } from '../text/line.ts'
import { ASCII, inAscii, type Marks, UNICODE } from '../text/marks.ts'

export interface Size {
  readonly columns: number
  readonly rows: number
}

export interface Model {
  readonly view: View
  readonly why: Why | null
  /** What taking the answer in question back would change. */
  readonly without: Without | null
  readonly cursor: Cursor
  readonly language: Language
  readonly words: ScreenWords
  readonly ascii: boolean
  readonly size: Size
}

export const marksOf = (model: Pick<Model, 'ascii'>): Marks => (model.ascii ? ASCII : UNICODE)

/** A text as it may be drawn: cleaned, and in plain ASCII signs where that is asked for. */
export function say(model: Pick<Model, 'ascii'>, text: string): string {
  const cleaned = clean(text)
  return model.ascii ? inAscii(cleaned) : cleaned
}

/** A sentence wrapped to `columns`; blanks that it begins with stay, as indent of all its lines. */
export function sayLines(
  model: Pick<Model, 'ascii'>,
  text: string,
  columns: number,
  tone: Tone = 'plain',
  lead = '',
): Line[] {
  const said = say(model, text)
  if (said === '') return [BLANK]
  const indent = /^ */.exec(text)?.[0] ?? ''
  return paragraph(said, columns, tone, indent + lead)
}
