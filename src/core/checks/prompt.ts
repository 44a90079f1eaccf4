/**
 * What a technician is shown, as plain records: something to do, something to look at and say, a verdict, the
 * end. The flows and the engine make them, the log keeps them, `wording` turns them into sentences, and every
 * front end shows the same ones.
 */
import type { Edit } from '../bench/edit.ts'
import type { Observable, Value } from '../bench/observable.ts'
import type { Fault } from '../faults/fault.ts'

export type Power = 'on' | 'off'
export type Hands = 'in' | 'out'

/** Why something is done: to be safe, to find out, to mend, to put back. */
export type Purpose = 'gate' | 'check' | 'repair' | 'restore' | 'proof'

/**
 * Something to do on a first boot that changes neither plug nor setting, or more than its edits say: to see that it is
 * off before it was ever on, to watch while it is switched on, to stay in the
 * firmware's setup, to start the system or the lighting program, to save the pattern, to let it run, to start it
 * cold and leave it to come up by itself, to sign.
 */
export type Task =
  | 'never-on'
  | 'first-on'
  | 'on-again'
  | 'firmware'
  | 'system'
  | 'program'
  | 'save-pattern'
  | 'soak'
  | 'cold-start'
  | 'by-itself'
  | 'sign-off'

export interface Do {
  readonly show: 'do'
  readonly id: string
  readonly purpose: Purpose
  readonly edits: readonly Edit[]
  readonly power: Power
  readonly hands: Hands
  readonly minutes: number
  /** Ids of cautions to show with it; the first hands-in step of a job carries them in full. */
  readonly cautions: readonly string[]
  readonly task?: Task
}

/** `means` has one value per observable of its question, null where it says nothing of that one. */
export interface Answer {
  readonly id: string
  readonly means: readonly (Value | null)[]
}

/** One thing that may hold, of a question where several can: which observable it is about and its value. */
export interface Mark {
  readonly id: string
  readonly observe: Observable
  readonly value: Value
}

/** Questions about the past or about what is at hand; they look at nothing on the build. */
export type About = 'since' | 'worked' | 'comes-and-goes' | 'spare' | 'tool' | 'consent' | 'symptom'

interface AskBase {
  readonly show: 'ask'
  readonly id: string
  /** What the question is for: scoping, telling suspects apart, or proving a repair. */
  readonly stage: 'scope' | 'check' | 'proof'
  readonly power: Power
  readonly hands: Hands
  readonly minutes: number
  /** Tools needed, such as `meter`; a technician without is not asked. */
  readonly tools: readonly string[]
  /** Chance that a person answers wrong, 0 to 0.5. */
  readonly error: number
  /** Given when the same thing was asked before: why it is asked again. */
  readonly again?: 'conflict' | 'changed' | 'undone'
}

export type Ask =
  | (AskBase & {
      readonly many: false
      readonly observe: readonly Observable[]
      readonly answers: readonly Answer[]
    })
  | (AskBase & { readonly many: true; readonly marks: readonly Mark[] })
  | (AskBase & {
      readonly many: false
      readonly about: About
      readonly at?: string
      /** Symptoms by their ids, so that the question can name what it is about. */
      readonly of?: readonly string[]
      readonly choices: readonly string[]
    })

/** One of several that are told together, with its own part of their belief; older logs do not have it. */
export interface Alike {
  readonly faults: readonly Fault[]
  readonly p?: number
}

/** A fault or a pair, or several that no available check tells apart (`alike`). */
export interface Suspect {
  readonly faults: readonly Fault[]
  readonly p: number
  readonly alike: readonly Alike[]
}

export interface Verdict {
  readonly show: 'verdict'
  readonly suspects: readonly Suspect[]
  /** What would mend it, if anything can be done at this bench. */
  readonly repair: { readonly id: string; readonly edits: readonly Edit[] } | null
}

export type NoteKind =
  | 'finding'
  | 'caution'
  | 'conflict'
  | 'assumed'
  | 'repeat'
  | 'cross-check'
  | 'restored'
  | 'read'
  /** On a first boot: what is to be seen, why, and what it means if it is not. */
  | 'expect'
  /** Something unexpected opens the flow of its symptom; and the way back from there. */
  | 'opens'
  | 'returns'
  | 'symptom'

export interface Note {
  readonly show: 'note'
  readonly kind: NoteKind
  /** What the note is about, as data for the wording. */
  readonly facts: Readonly<Record<string, string | number | readonly string[]>>
}

export type Outcome = 'fixed' | 'nothing-wrong' | 'handed-over' | 'declined' | 'left'

export interface End {
  readonly show: 'end'
  readonly outcome: Outcome
  readonly suspects: readonly Suspect[]
  readonly minutes: number
}

/** What waits for a reply, and what is only told. */
export type Prompt = Do | Ask
export type Telling = Note | Verdict
