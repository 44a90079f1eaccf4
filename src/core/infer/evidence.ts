/**
 * What has been learnt, in the order it was learnt. Each answer is kept with the edits that had been made by then,
 * so the bench can be asked what a suspect would have shown at that very moment.
 */
import type { Edit } from '../bench/edit.ts'
import type { Observable } from '../bench/observable.ts'
import type { Answer, Mark } from '../checks/prompt.ts'

interface Base {
  /** Number in the job's log. */
  readonly seq: number
  /** The question's id; the same id again is the same look again. */
  readonly id: string
  /** Everything done to the build before, in order, power included. */
  readonly history: readonly Edit[]
  readonly error: number
}

export type Evidence =
  | (Base & {
      readonly kind: 'one'
      readonly observe: readonly Observable[]
      readonly answers: readonly Answer[]
      readonly chosen: string
    })
  | (Base & { readonly kind: 'many'; readonly marks: readonly Mark[]; readonly chosen: readonly string[] })
  | (Base & { readonly kind: 'about'; readonly about: string; readonly chosen: string })
