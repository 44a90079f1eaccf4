/** The two ends of a line-by-line talk, so that tests can hold them. */
import type { Outcome } from '../core/checks/prompt.ts'
import type { FileTrouble } from '../io/trouble.ts'
import type { InputLine } from './lines-in.ts'

export type Fetched =
  | { readonly ok: true; readonly text: string }
  | { readonly ok: false; readonly trouble: FileTrouble }

export interface Talk {
  readonly lines: AsyncIterable<InputLine>
  /** Writes as it is: a line's end is part of the text. */
  readonly write: (text: string) => void
  /** Columns to break lines at, between words; none where the other end breaks them itself. */
  readonly columns?: number
  /** Fetches a reading by what a person calls it; where it is missing, readings cannot be handed in here. */
  readonly fetch?: (from: string) => Promise<Fetched>
}

/** How a job ended; null where it was stopped before it had an end of its own. */
export type Ended = Outcome | null
