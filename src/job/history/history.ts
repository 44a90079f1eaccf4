/**
 * Where closed and open jobs are kept, found again and learnt from: the folder of one bench, or a store that several
 * benches share. Both are this; `tests/job/history/contract.ts` says in tests what both promise.
 */

import type { Outcome } from '../../core/checks/prompt.ts'
import type { StoreTrouble } from '../../io/store-trouble.ts'
import type { Summary } from '../report/summary.ts'
import type { Counts, Lesson } from './learn.ts'
import type { Sums } from './sums.ts'

export type { StoreTrouble } from '../../io/store-trouble.ts'

export type Kept<T> = ({ readonly ok: true } & T) | { readonly ok: false; readonly trouble: StoreTrouble }

/** A job as it is handed in: what its log says in short, what it teaches, and the log itself. */
export interface JobRecord {
  /** The same for every copy of a job, however far it had got and with or without names. */
  readonly id: string
  /** Sound lines of the log; a log only grows, so of two copies the longer is the later. */
  readonly lines: number
  /** `log` is the name of its file, without folders. */
  readonly summary: Summary
  readonly lesson?: Lesson
  /** The sound part of the log, whole lines. */
  readonly text: string
}

/** What is looked for; what is left out does not matter. All of it must fit. */
export interface Query {
  /** Every word is somewhere in the summary, whatever its case: `isFound`. */
  readonly words?: string
  /** The build's whole name, whatever its case. */
  readonly build?: string
  /** What the cause sits at: a part or port (`F2`, `SYS1`), or the whole place (`F2.motor`). */
  readonly part?: string
  /** The mode of the cause, whole (`open-TACH`) or its family (`open`). */
  readonly cause?: string
  readonly symptom?: string
  readonly outcome?: Outcome | 'open'
  /** Began at or after this, and before that: ISO 8601, UTC. */
  readonly from?: string
  readonly to?: string
  /** At most so many, the newest. */
  readonly limit?: number
}

export interface Found {
  /** Newest first. `log` is where `report` finds it: a path, or `store:` and its id. */
  readonly jobs: readonly Summary[]
  /** There are more than were asked for. */
  readonly more: boolean
  /** Logs by path that hold no job. */
  readonly unreadable: readonly string[]
}

export interface Handed {
  /** Jobs that were new, or had gone on since. */
  readonly taken: number
  /** Jobs that were there already, as far or farther. */
  readonly known: number
}

export interface Taught {
  readonly counts: Counts
  /** Jobs that began before this are forgotten. */
  readonly since: string | null
}

export interface History {
  find(query: Query): Promise<Kept<{ found: Found }>>
  sums(query: Query): Promise<Kept<{ sums: Sums }>>
  /** All or none of them; handing in the same again changes nothing. */
  put(jobs: readonly JobRecord[]): Promise<Kept<{ handed: Handed }>>
  /** The text of a log, undefined where there is none of that id. */
  log(id: string): Promise<Kept<{ text: string | undefined }>>
  taught(): Promise<Kept<{ taught: Taught }>>
  /** From now on only jobs that begin later teach; the jobs stay. @param now ISO 8601, UTC */
  forget(now: string): Promise<Kept<object>>
  /** Safe to call twice. */
  close(): Promise<void>
}
