/** Records of readings that were handed in: what the log keeps, what is known since, why one is not taken. */
import type { Value } from '../core/bench/observable.ts'
import type { Named, NamedRead } from '../core/readings/naming.ts'
import type { Remark, Source, Unreadable } from '../core/readings/reading.ts'
import type { LeftOut, Taken } from '../core/readings/takes.ts'

/** What the log keeps of it. */
export interface ReadBody {
  readonly e: 'read'
  readonly source: Source
  /** Where it came from, as it was named: a file, `live`, `clipboard`, or nothing where it was handed over whole. */
  readonly by?: string
  readonly text: string
  readonly named: readonly Named[]
  readonly taken: readonly Taken[]
  readonly left: readonly LeftOut[]
  readonly remarks: readonly { readonly code: Remark; readonly at: string }[]
}

export type ReadingRefusal =
  | { readonly is: 'unreadable'; readonly why: Unreadable; readonly line?: number; readonly found?: string }
  | { readonly is: 'name'; readonly mistake: Extract<NamedRead, { ok: false }> }
  | { readonly is: 'power-off' }
  | {
      readonly is: 'nothing-taken'
      readonly left: readonly LeftOut[]
      readonly remarks: ReadBody['remarks']
      /** What a name may stand for. */
      readonly places: readonly string[]
    }

/** A value that was read and holds as long as nothing is done to the build. */
export interface Known {
  readonly seq: number
  readonly value: Value
  /** How many edits had been made. */
  readonly after: number
}
