/** What a language says on the pages of a report and about logs, beyond what `Language` says of the job itself. */
import type { Outcome } from '../../core/checks/prompt.ts'
import type { LogProblem } from '../../job/log/decode.ts'
import type { Trouble } from '../../job/log/trouble.ts'
import type { Misfit } from '../../job/play-back.ts'
import type { Pause } from '../../job/report/record.ts'

export interface ReportWords {
  readonly title: (build: string, symptom: string) => string
  readonly outcome: Readonly<Record<Outcome | 'open', string>>
  /** The outcome as a sentence with what follows from it. */
  readonly ended: Readonly<Record<Outcome | 'open', string>>
  readonly head: {
    readonly outcome: string
    readonly cause: string
    readonly likely: string
    readonly build: string
    readonly symptom: string
    readonly plan: string
    readonly began: string
    readonly ended: string
    readonly minutes: string
    readonly who: string
    readonly where: string
    readonly tools: string
    readonly log: string
  }
  readonly section: {
    readonly result: string
    readonly boot: string
    readonly seen: string
    readonly repair: string
    readonly left: string
    readonly notes: string
    readonly path: string
    readonly suspects: string
    readonly plan: string
    readonly wiring: string
    readonly cautions: string
    readonly goingOn: string
    readonly log: string
  }
  /** A first boot point by point, and who signed it. */
  readonly boot: {
    readonly point: string
    readonly asExpected: string
    readonly signed: (by: string | undefined, at: string) => string
    readonly notSigned: string
  }
  readonly stage: Readonly<Record<'scope' | 'check' | 'proof', string>>
  readonly table: {
    readonly step: string
    readonly time: string
    readonly asked: string
    readonly answer: string
    readonly minutes: string
    readonly after: string
    readonly likeliest: string
  }
  readonly reply: Readonly<Record<'done' | 'unsure' | 'cannot' | 'none', string>>
  readonly takenBack: string
  /** Behind an answer that a reading gave. */
  readonly byReading: string
  readonly struck: string
  readonly stepRefs: (steps: readonly number[]) => string
  readonly alsoWrong: string
  /** Faults that no check at hand tells from the cause. */
  readonly alike: string
  readonly nothingSeen: string
  readonly nothingWrongSeen: string
  readonly noRepair: string
  readonly notProven: string
  readonly proven: string
  readonly suspectsLeft: string
  readonly wouldMend: string
  readonly nothingToMend: string
  readonly waiting: string
  readonly nothingLeft: string
  readonly still: string
  readonly hidden: string
  readonly start: string
  readonly takeUp: string
  readonly again: string
  readonly withoutTool: string
  readonly pause: (pause: Pause, when: (at: string) => string) => string
  readonly beyond: (lines: number) => string
  readonly intact: string
  readonly other: string
  readonly chart: (steps: number) => string
  readonly timeline: {
    readonly title: string
    readonly powerOff: string
    readonly handsIn: string
    readonly minutes: string
    readonly kinds: Readonly<Record<'gate' | 'look' | 'repair' | 'proof', string>>
  }
  readonly judgement: string
  /** Under the wiring drawing. */
  readonly wiring: string
  readonly jobs: JobsWords
  /** A figure of minutes for a table, without its unit. */
  readonly figure: (minutes: number) => string
}

export interface JobsWords {
  readonly notFound: (text: string) => string
  readonly total: (jobs: number, ended: number) => string
  /** Where more than words was asked for. */
  readonly noneFits: string
  readonly badDate: (option: string, given: string) => string
  readonly emptySpan: (from: string, to: string) => string
  readonly badOutcome: (given: string, known: readonly string[]) => string
  readonly damaged: string
  readonly unreadable: (path: string) => string
  readonly sums: Readonly<Record<'outcomes' | 'causes' | 'places' | 'builds', string>>
  /** "12 jobs, 140 minutes". */
  readonly sum: (jobs: number, minutes: number) => string
  readonly nothingLearnt: string
  readonly learnt: (jobs: number, since: string | null) => string
  /** One class of fault with its factor: "2.4 times as much: loose (fan, light lead)". `spot`: kind of lead, or a setting. */
  readonly factor: (factor: number, mode: string, kind: string, spot: string | undefined) => string
  readonly moreLearnt: (classes: number) => string
  readonly forgotten: string
}

export interface LogWords {
  /** What is wrong with a file or the log in it, and what to do; the first line is the whole in short. */
  readonly trouble: (trouble: Trouble) => string[]
  readonly problem: (problem: LogProblem) => string
  /** A sound log with a line that this version can't follow, and what to do. */
  readonly misfit: (misfit: {
    readonly log: string
    readonly line: number
    readonly why: Misfit
    readonly tool: string
  }) => string[]
  /** Half a last line was cut off. */
  readonly cutOff: (rest: string) => string
}
