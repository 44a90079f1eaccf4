/** What the reducer is given beside the cursor and the event, and what it gives back. */
import type { HandIn } from '../../job/hand-in.ts'
import type { Reply } from '../../job/view.ts'
import type { Mode } from '../../wording/screen-mode.ts'
import type { Cursor, Message } from './cursor.ts'
import type { Kind, Row } from './rows.ts'

/** What the reducer must know of the job and of what is drawn. */
export interface Facts {
  readonly kind: Kind
  /** Rows as shown: filtered, top to bottom. */
  readonly rows: readonly Row[]
  /** Where each place is drawn on the map of the case, by row id; empty where a list is drawn. */
  readonly map: Readonly<Record<string, { readonly x: number; readonly y: number }>>
  /** Furthest scroll of what scrolls in this mode, 0 if all is seen, and the lines seen at once. */
  readonly scrollMax: number
  readonly page: number
  /** Steps of the path so far that can be taken back, oldest first, as listed. */
  readonly seqs: readonly number[]
  readonly canUndo: boolean
  /** Whether there is a picture of a connector for this question, and anything told. */
  readonly picture: boolean
  readonly told: boolean
  /** What is told can be folded, and whether it is; null where there is nothing to fold. */
  readonly folded: boolean | null
  /** The step is to sign, by this name if none is typed; null where there is nothing to sign. */
  readonly signs: string | null
}

export type Act =
  | { readonly act: 'reply'; readonly reply: Reply }
  | { readonly act: 'take-back'; readonly seq: number }
  | { readonly act: 'read'; readonly handIn: HandIn }
  | { readonly act: 'exit' }
  | { readonly act: 'interrupt' | 'suspend' | 'redraw' }

export interface Outcome {
  readonly cursor: Cursor
  readonly act?: Act
}

export const stay = (cursor: Cursor): Outcome => ({ cursor })
/** Only a remark; nothing else changes. */
export const tell = (
  cursor: Cursor,
  say: Exclude<Message['say'], 'recorded' | 'did' | 'taken-back' | 'refused' | 'held-after'>,
): Outcome => ({
  cursor: { ...cursor, message: { say } },
})

/** Says something to the job; keys wait until it is in the log. */
export const reply = (cursor: Cursor, said: Reply): Outcome => ({
  cursor: { ...cursor, busy: true, digits: '' },
  act: { act: 'reply', reply: said },
})

export const open = (cursor: Cursor, mode: Mode, seq: number | null = cursor.seq): Cursor => ({
  ...cursor,
  toldRead: cursor.toldRead || cursor.mode === 'told',
  mode,
  seq,
  scroll: 0,
  filter: '',
  filtering: false,
  digits: '',
})
