/**
 * A job as its report tells it: a view of the log, recomputed from its events each time. Plain data in the order of
 * the job; `wording` makes pages of it. Nothing is judged here beyond what the log says.
 */
import type { Observable, Value } from '../../core/bench/observable.ts'
import type { Note, Outcome, Power, Prompt, Suspect, Verdict } from '../../core/checks/prompt.ts'
import type { LogProblem } from '../log/decode.ts'
import type { Cut, Left } from '../log/event.ts'

/** Counts up when a field changes its meaning or goes. */
export const REPORT_FORMAT = 1

/** One thing done or asked, with what was said to it. */
export interface ReportStep {
  /** From 1, in the order of the job; steps taken back keep theirs. */
  readonly step: number
  /** Line of the reply in the log. */
  readonly seq: number
  readonly at: string
  readonly prompt: Prompt
  /** As it was shown, where the log has it. */
  readonly text?: string
  readonly answers?: Readonly<Record<string, string>>
  readonly reply: 'done' | 'unsure' | 'cannot' | readonly string[]
  readonly undone: boolean
  /** Who signed, where the step was to sign. */
  readonly by?: string
  /** A reading answered it; the line of the log that has it. */
  readonly read?: number
  /** The guide's answer had said it already; the line of the log that has that. */
  readonly toldBy?: number
  readonly notes: readonly ReportNote[]
  /** Told between the step before and this one. */
  readonly told: readonly Telling[]
  /** The ranking after the reply, likeliest first, as far as the log has it. */
  readonly suspects: readonly Suspect[]
}

export interface Telling {
  readonly record: Note | Verdict
  readonly text?: string
}

export interface ReportNote {
  readonly at: string
  readonly text: string
}

/** One observable as somebody saw it. */
export interface Seen {
  readonly step: number
  readonly stage: 'scope' | 'check' | 'proof'
  readonly observe: Observable
  readonly value: Value
  readonly power: Power
}

/** Something changed to mend the build, and the looks that followed. */
export interface ReportRepair {
  readonly step: number
  readonly proof: readonly number[]
}

export interface Ranking {
  /** The step after which it stood so; 0 before the first. */
  readonly step: number
  readonly at: string
  readonly minutes: number
  readonly suspects: readonly Suspect[]
}

/** From `left` (or a stop that left no word) to the next `resumed`. */
export interface Pause {
  readonly at: string
  readonly how: Left['how'] | 'not-known'
  readonly resumed?: string
  readonly planChanged: boolean
  /** What was cut off the log before it was gone on with. */
  readonly cut?: Cut
}

/** One point of a first boot as it was seen. */
export interface BootPointSeen {
  readonly id: string
  readonly step: number
  readonly at: string
  /** What was to be seen, as it was told. */
  readonly expected?: Note
}

/** The points of a first boot in their order, and who signed. */
export interface BootRecord {
  readonly points: readonly BootPointSeen[]
  /** Missing while nobody has signed. */
  readonly signed?: { readonly at: string; readonly step: number; readonly by?: string }
  /** What was told to whoever signs: how many points were seen, which were not, what is still wrong. */
  readonly summary?: Note
}

export interface Report {
  readonly report: number
  readonly build: string
  /** The first of them; `which-symptom` where it was never found. */
  readonly symptom: string
  /** All that the job was about, in the order in which they were taken up. */
  readonly symptoms: readonly string[]
  readonly plan: { readonly file: string; readonly digest: string }
  readonly who?: string
  readonly where?: string
  readonly tools: readonly string[]
  readonly began: string
  readonly ended?: string
  /** `open` while the job has no end in the log. */
  readonly outcome: Outcome | 'open'
  /** At the bench, as the steps are costed. */
  readonly minutes: number
  readonly suspects: readonly Suspect[]
  readonly verdict?: Verdict
  readonly handedOver: boolean
  readonly steps: readonly ReportStep[]
  /** Told after the last step. */
  readonly toldLast: readonly Telling[]
  /** Asked or to be done when the log stops. */
  readonly waiting?: { readonly prompt: Prompt; readonly text?: string }
  readonly seen: readonly Seen[]
  readonly repairs: readonly ReportRepair[]
  readonly rankings: readonly Ranking[]
  readonly notes: readonly ReportNote[]
  readonly pauses: readonly Pause[]
  readonly problems: readonly LogProblem[]
  /** Whole lines after damage that the report leaves out. */
  readonly beyond: number
  /** Where the job was a first boot. */
  readonly boot?: BootRecord
}
