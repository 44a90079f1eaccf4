/**
 * Where the person is on the screen: which prompt, what is open over it, what is highlighted, marked, typed. The job
 * itself is in the session; all that is here may be lost without harm.
 */
import type { View } from '../../job/view.ts'
import type { Remark } from '../../wording/screen.ts'
import type { Mode } from '../../wording/screen-mode.ts'

/** One line about the last key; its words are made when it is drawn. */
type Said =
  /** An answer, which can be taken back; or a step, which cannot. */
  | { readonly say: 'recorded' | 'did'; readonly what: string }
  | { readonly say: 'taken-back'; readonly count: number }
  | { readonly say: 'refused'; readonly text: string }
  | { readonly say: Remark }

/** Said, or an Enter that was not taken behind what the one before it came to. */
export type Message = Said | { readonly say: 'held-after'; readonly first: Said }

export interface Cursor {
  /** Which prompt this belongs to; another one resets the rest. */
  readonly prompt: string
  readonly mode: Mode
  /** Id of the highlighted row; null where there is none to choose. */
  readonly row: string | null
  /** Mark ids by place, for questions with several. */
  readonly marked: Readonly<Record<string, string>>
  /** Digits typed so far for a row number of two digits. */
  readonly digits: string
  readonly filter: string
  readonly filtering: boolean
  /** First line shown of what scrolls. */
  readonly scroll: number
  /** The step highlighted in the path so far. */
  readonly seq: number | null
  readonly note: string
  /** What was typed to hand a reading in, and why it was not taken. */
  readonly reading: string
  readonly unread: string
  readonly message: Message | null
  /** All that was told before this prompt has been read. */
  readonly toldRead: boolean
  /** A reply is being written to the log: keys wait for nothing and are dropped. */
  readonly busy: boolean
  /** False while a gate has just come up: it takes no key until the keyboard has been quiet. */
  readonly settled: boolean
}

export const freshCursor = (
  prompt: string,
  row: string | null,
  settled: boolean,
  toldRead: boolean,
): Cursor => ({
  prompt,
  mode: 'job',
  row,
  marked: {},
  digits: '',
  filter: '',
  filtering: false,
  scroll: 0,
  seq: null,
  note: '',
  reading: '',
  unread: '',
  message: null,
  toldRead,
  busy: false,
  settled,
})

/** Which prompt a view shows: the same question asked again after an undo is another one. */
export const promptKey = (view: View): string =>
  `${view.trail.length} ${view.trail.filter((e) => e.undone).length} ${view.prompt?.id ?? 'end'}`

/** The cursor after an Enter that was not taken: what the last one came to stays said; a question once more stands. */
export function heldBack(cursor: Cursor): Cursor {
  const { message } = cursor
  if (message === null) return { ...cursor, message: { say: 'held-key' } }
  if (message.say === 'held-after' || message.say === 'held-key' || message.say === 'none-marked')
    return cursor
  return { ...cursor, message: { say: 'held-after', first: message } }
}
