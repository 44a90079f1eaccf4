/**
 * What a front end gets and what it may say. A view is a plain record of where the job stands; a reply is what a
 * person did or said. Front ends hold nothing else: the job is in the log, the cursor is in the front end.
 */

import type { Finding } from '../core/audit/finding.ts'
import type { Edit } from '../core/bench/edit.ts'
import type { End, Hands, Note, Power, Prompt, Suspect, Verdict } from '../core/checks/prompt.ts'
import type { Plan } from '../core/plan/plan.ts'
import type { ReadingRefusal } from './read-body.ts'

export type SymptomId = string

/** A prompt that was answered, in the order of the job; `undone` ones stay in the trail, struck out. */
export interface TrailEntry {
  readonly seq: number
  readonly prompt: Prompt
  /** `done`, ids of answers or marks, or one of the ways not to answer. */
  readonly reply: 'done' | 'unsure' | 'cannot' | readonly string[]
  readonly undone: boolean
  readonly notes: readonly string[]
  /** A reading answered: the line of the log that has it. */
  readonly read?: number
  /** The guide's answer had said it already: the line of the log that has that. */
  readonly told?: number
}

/** Where the lead in question runs, from source to sink; `here` marks the place in question. */
export interface PathStep {
  readonly ref: string
  /** The plug and the socket of one joint, or a part that passes through. */
  readonly kind: 'part' | 'joint'
  readonly here: boolean
  /** As the job believes it to be now. */
  readonly state: 'planned' | 'unplugged' | 'moved' | 'suspect'
}

export interface View {
  readonly plan: Plan
  /** The first of them; `which-symptom` while it is not known yet. */
  readonly symptom: SymptomId
  /** What is looked into now, together; empty while it is not known yet. */
  readonly symptoms: readonly SymptomId[]
  /** What is taken up afterwards. */
  readonly queued: readonly SymptomId[]
  readonly log: string
  /** The flow's state, such as `scoping` or `outside.asking`, for people who read the flow's drawing. */
  readonly state: string
  readonly power: Power
  readonly hands: Hands
  /** Edits that are in force beyond the plan (two plugs still exchanged, say). */
  readonly inForce: readonly Edit[]
  /** Everything done to the build, in order, power included. */
  readonly done: readonly Edit[]
  /** Told since the last reply, in order, to be shown before the prompt. */
  readonly told: readonly (Note | Verdict)[]
  /** What waits for a reply; null once the job has ended. */
  readonly prompt: Prompt | null
  readonly end: End | null
  readonly trail: readonly TrailEntry[]
  /** Likeliest first; empty while nothing is known. */
  readonly suspects: readonly Suspect[]
  /** Groups of suspects still worth telling apart: what is left to do, honestly. */
  readonly left: number
  /** Findings of the plan's audit that bear on this symptom. */
  readonly findings: readonly Finding[]
  readonly path: readonly PathStep[]
  /** Spent at the bench so far, as the steps are costed. */
  readonly minutes: number
  readonly canUndo: boolean
  /** How far a first boot is, in points of its walk; null for other jobs. */
  readonly walk: { readonly n: number; readonly of: number } | null
  /** On a first boot: the symptom whose flow something unexpected has opened. */
  readonly opened: SymptomId | null
  /** Who is at the bench, where it was said. */
  readonly who: string | null
  /** Explanations are folded away. */
  readonly folded: boolean
}

/** Why this step: what each reply would do, what else was weighed, what speaks for and against each suspect. */
export interface Why {
  /** Expected minutes to a verified fix from here, with this step first. */
  readonly expectedMinutes: number
  readonly others: readonly { readonly id: string; readonly what: string; readonly expectedMinutes: number }[]
  readonly replies: readonly {
    readonly id: string
    readonly p: number
    readonly suspects: readonly Suspect[]
  }[]
  readonly suspects: readonly {
    readonly suspect: Suspect
    /** Trail entries with the weight of evidence in decibans (10 log10 of the odds ratio), strongest first. */
    readonly speaksFor: readonly { readonly seq: number; readonly decibans: number }[]
    readonly speaksAgainst: readonly { readonly seq: number; readonly decibans: number }[]
  }[]
}

/** What taking an answer back would change. */
export interface Without {
  /** Numbers of the answers that go, the last first. */
  readonly takes: readonly number[]
  /** Who would be suspected then; empty while nobody is suspected yet. */
  readonly suspects: readonly Suspect[]
}

export type Reply =
  /** `by`: who signs, where that is what is to be done. */
  | { readonly say: 'done'; readonly by?: string }
  | { readonly say: 'answer'; readonly ids: readonly string[] }
  | { readonly say: 'unsure' }
  | { readonly say: 'cannot' }
  /** Takes the answer of that line of the log back; without a number, the last one. */
  | { readonly say: 'undo'; readonly seq?: number }
  | { readonly say: 'note'; readonly text: string }
  /** What another tool printed; `as` names which of its channels is which place (`fan1=SYS1`). */
  | { readonly say: 'read'; readonly text: string; readonly as: readonly string[]; readonly by?: string }
  /** Folds explanations away for the rest of the job, or shows them again. */
  | { readonly say: 'fold'; readonly folded: boolean }
  | { readonly say: 'hand-over' }
  | { readonly say: 'leave' }

/** Why a reply was not taken. */
export type Refused =
  | 'ended'
  | 'no-prompt'
  | 'not-an-ask'
  | 'not-a-do'
  | 'unknown-answer'
  | 'one-answer'
  | 'one-mark-each'
  | 'nothing-to-undo'
  | 'reading'

/** A reply that does not fit what was asked; the prompt stands. */
export interface Refusal {
  readonly problem: Refused
  readonly expected: readonly string[]
  /** Why a reading was not taken. */
  readonly reading?: ReadingRefusal
}

/** One job, open for writing. Every reply is on disk before the promise resolves. */
export interface Session {
  view(): View
  why(): Why
  /** What it would change to take this answer back; null where it cannot be taken back now. */
  without(seq: number): Without | null
  reply(reply: Reply): Promise<{ readonly ok: true } | { readonly ok: false; readonly refusal: Refusal }>
  /** Works out what follows one more of the likely replies to the question that stands. @returns whether there are others */
  ahead(): boolean
  /** Closes the log; safe to call twice. */
  close(): Promise<void>
}
