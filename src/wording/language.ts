/**
 * What a language must be able to say. Records come in, sentences go out; both front ends, the line protocol and
 * the report use the same ones. A new language is one folder beside `en` and one line in `languages.ts`.
 */
import type { Finding } from '../core/audit/finding.ts'
import type { Edit } from '../core/bench/edit.ts'
import type { Observable, Value } from '../core/bench/observable.ts'
import type { Ask, Do, End, Hands, Note, Outcome, Power, Suspect, Verdict } from '../core/checks/prompt.ts'
import type { Fault } from '../core/faults/fault.ts'
import type { Plan } from '../core/plan/plan.ts'
import type { Problem } from '../core/plan/problem.ts'
import type { PathStep, Refusal, TrailEntry, View, Why } from '../job/view.ts'
import type { Dialogue } from './dialogue.ts'
import type { PracticeWords } from './practice.ts'
import type { Program } from './program.ts'
import type { ScreenWords } from './screen.ts'

/** What names and places are drawn from. A `View` is one. */
export interface Scene {
  readonly plan: Plan
  /** Done to it so far, in order. */
  readonly done?: readonly Edit[]
  /** What the audit found in the plan, where that is at hand. */
  readonly findings?: readonly Finding[]
  /** Explanations are folded away. */
  readonly folded?: boolean
}

/** A thing to do: one sentence for a glance, one sentence an edit, and what to beware of. */
export interface StepText {
  readonly title: string
  readonly lines: readonly string[]
  readonly cautions: readonly CautionText[]
}

export interface CautionText {
  readonly id: string
  readonly title: string
  readonly lines: readonly string[]
}

export interface QuestionText {
  /** The question, one or two sentences. */
  readonly title: string
  /** How to look: where the reading is found, how long to watch. */
  readonly hints: readonly string[]
  /** Why it is asked again, if it is. */
  readonly again?: string
}

/** A place in a list of places: whole, as short as it can be told, and by its id alone where not even that has room. */
export interface RowName {
  readonly long: string
  readonly short: string
  readonly id: string
}

/** `name` fits a list ("motor plug of F2 not plugged in"), `is` is the sentence of a verdict. */
export interface FaultText {
  readonly name: string
  readonly is: string
}

export interface SymptomText {
  /** "Lights dead on some fans" */
  readonly name: string
  /** What a person may have said. */
  readonly means: string
}

/** Short words that front ends put on keys, lists and heads. */
export interface Labels {
  readonly power: Readonly<Record<Power, string>>
  readonly hands: Readonly<Record<Hands, string>>
  readonly outcome: Readonly<Record<Outcome, string>>
  readonly done: string
  readonly unsure: string
  readonly cannot: string
  readonly undo: string
  readonly why: string
  readonly note: string
  readonly handOver: string
  readonly leave: string
  readonly none: string
  readonly step: string
  readonly left: (groups: number) => string
  readonly minutes: (minutes: number) => string
  readonly percent: (p: number) => string
  /** A bare number. */
  readonly figure: (value: number, decimals: number) => string
  /** Day and time of a moment as the log has it, with the name of its zone where `zoned`. */
  readonly moment: (at: string, zoned?: boolean) => string
  readonly noted: string
}

export interface Language {
  readonly code: string
  /** The language's own name. */
  readonly name: string
  readonly labels: Labels

  /** `fan F2 (front-top)`; `board` and `supply` as they are called. */
  part(id: string, scene: Scene): string
  /** What kind of part it is: "fan splitter". Nothing where its id says so. */
  kind(id: string, scene: Scene): string
  /** Any reference: part, port, pin, lead, setting, `build`. "the motor plug of fan F2 (front-top)" */
  ref(ref: string, scene: Scene): string
  /** Several of them: "fans F4 (front) and F5 (front)". */
  refs(refs: readonly string[], scene: Scene): string
  /** "F2, F3 and F4" */
  list(items: readonly string[]): string
  /** Texts that are read together, each part named in full where it stands first and by its id after that. */
  fullOnce(texts: readonly string[], scene: Scene): string[]
  /** Places of a list below each other, their kinds said where they differ: "pump P1", "F2 (front-top)". */
  rows(refs: readonly string[], scene: Scene): RowName[]

  edit(edit: Edit, scene: Scene): string
  step(step: Do, scene: Scene): StepText
  caution(id: string): CautionText
  question(ask: Ask, scene: Scene): QuestionText
  /** The text of one answer, mark or choice of a question, by its id. */
  answer(ask: Ask, id: string, scene: Scene): string
  /** What a value of an observable means, as a short predicate: "dark", "stands still". */
  value(observable: Observable, value: Value, power: Power, scene: Scene): string
  /** "Fan F2 (front-top): dark" */
  sighting(observable: Observable, value: Value, power: Power, scene: Scene): string

  fault(fault: Fault, scene: Scene): FaultText
  /** A fault or a pair, and how many others cannot be told from it. */
  suspect(suspect: Suspect, scene: Scene): string
  verdict(verdict: Verdict, scene: Scene): string[]
  note(note: Note, scene: Scene): string[]
  /** What the audit found: one line with the figure and the limit, one with what to do. */
  finding(finding: Finding, scene: Scene): string[]
  end(end: End, view: View): string[]
  why(why: Why, view: View): string[]
  /** One step of the job so far, on one line. */
  trail(entry: TrailEntry, scene: Scene): string
  /** What words of the trade mean that the prompt and what was told before it use. */
  terms(view: View): string[]
  /** The run of the lead in question, on one line, with its live state. */
  path(path: readonly PathStep[], scene: Scene): string
  /** What the next person gets: found, tried, ruled out, left. */
  handingOver(view: View): string[]

  symptom(id: string): SymptomText
  /** Several in one line, "Lights dead on some fans; wrong colours"; none: that it is not named yet. */
  symptoms(ids: readonly string[]): string
  /** The entry in the list of symptoms for who cannot choose one. */
  readonly helpMe: SymptomText
  refusal(refusal: Refusal): string
  problem(problem: Problem): string[]

  readonly dialogue: Dialogue
  readonly screen: ScreenWords
  readonly practice: PracticeWords
  readonly program: Program
}
