/**
 * What has been learnt, in the order it was learnt. Each answer is kept with the edits that had been made by then,
 * so the bench can be asked what a suspect would have shown at that very moment.
 */
import type { Edit } from '../bench/edit.ts'
import { type Observable, observableKey } from '../bench/observable.ts'
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

export type One = Extract<Evidence, { kind: 'one' }>
export type Many = Extract<Evidence, { kind: 'many' }>

/** One thing on a map: a small question of its own, answered by a mark or by none. */
export interface Thing {
  readonly observe: Observable
  readonly marks: readonly Mark[]
  readonly chosen: Mark | undefined
}

/** The number of the mark that was chosen; the one after the last where none was. */
export const optionOf = ({ marks, chosen }: Thing): number => (chosen ? marks.indexOf(chosen) : marks.length)

/** Sorted once an answer, since every suspect is held against it. */
const sorted = new WeakMap<Many, readonly Thing[]>()

/** What a map goes over, each thing with its marks and the one that was chosen. */
export function thingsIn(e: Many): readonly Thing[] {
  const known = sorted.get(e) ?? things(e.marks, e.chosen)
  sorted.set(e, known)
  return known
}

/** Chance level of one piece of evidence. */
export const flat = (e: Evidence): number => {
  if (e.kind === 'one') return 1 / e.answers.length
  if (e.kind === 'about') return 1
  return thingsIn(e).reduce((p, { marks }) => p / (marks.length + 1), 1)
}

const observed = new WeakMap<Many, readonly Observable[]>()

/** What a map goes over, always as the same list. */
export function observedIn(e: Many): readonly Observable[] {
  const known = observed.get(e) ?? thingsIn(e).map((t) => t.observe)
  observed.set(e, known)
  return known
}

function things(marks: readonly Mark[], chosen: readonly string[]): readonly Thing[] {
  const by = new Map<string, Mark[]>()
  for (const mark of marks) {
    const key = observableKey(mark.observe)
    by.set(key, [...(by.get(key) ?? []), mark])
  }
  return [...by.values()].flatMap((of) =>
    of[0] ? [{ observe: of[0].observe, marks: of, chosen: of.find((m) => chosen.includes(m.id)) }] : [],
  )
}
