/**
 * Why a log cannot be written or gone on with, as a value: trouble with the file, or with what is in it.
 * `wording/en/log.ts` says it and what to do.
 */
import type { FileTrouble } from '../../io/trouble.ts'
import type { LogProblem } from './decode.ts'

export type { FileTrouble, FileTroubleCode } from '../../io/trouble.ts'

export interface LogTrouble {
  /** `damaged` inside, `no-job` in it at all, or written by a `newer` program. */
  readonly code: 'damaged' | 'no-job' | 'newer'
  readonly path: string
  readonly problems: readonly LogProblem[]
  readonly facts: Readonly<Record<string, string | number>>
}

export type Trouble = FileTrouble | LogTrouble

export type Attempt<T> = ({ readonly ok: true } & T) | { readonly ok: false; readonly trouble: Trouble }
