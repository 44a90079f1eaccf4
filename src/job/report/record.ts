/**
 * A job as its report tells it: a view of the log, recomputed from its events each time. Plain data in the order of
 * the job; `wording` makes pages of it. Nothing is judged here beyond what the log says.
 */
import type { Observable, Value } from '../../core/bench/observable.ts'
import type { Note, Outcome, Power, Prompt, Suspect, Verdict } from '../../core/checks/prompt.ts'
import type { Decoded, LogProblem } from '../log/decode.ts'
import type { Cut, Left, LogEvent, Shown } from '../log/event.ts'
import { symptomsIn } from '../log/symptoms-in.ts'
import { readingNote } from '../reading-note.ts'
import { type BootRecord, bootOf } from './boot.ts'

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

/** The report of a log; undefined where it holds no job. */
export function assembleReport(log: Decoded): Report | undefined {
  const [opened] = log.events
  if (opened?.e !== 'opened') return undefined
  const { steps, rankings, notes, toldLast, waiting } = walk(log.events)
  const symptoms = symptomsIn(log.events)
  const ends = log.events.filter((event) => event.e === 'ended')
  const ended = ends.at(-1)
  const valid = steps.filter((step) => !step.undone)
  const boot = bootOf(steps)
  const ranking = rankings.at(-1)
  const told = [...steps.flatMap((step) => step.told), ...toldLast].map((t) => t.record)
  const verdict = told.filter((record) => record.show === 'verdict').at(-1)
  const resumed = log.events.filter((event) => event.e === 'resumed')
  return {
    report: REPORT_FORMAT,
    build: opened.build,
    symptom: symptoms[0] ?? opened.symptom,
    symptoms,
    plan: {
      file: resumed.findLast((event) => event.plan)?.plan?.file ?? opened.plan.file,
      digest: resumed.at(-1)?.digest ?? opened.digest,
    },
    ...(opened.who === undefined ? {} : { who: opened.who }),
    ...(opened.where === undefined ? {} : { where: opened.where }),
    tools: [...new Set([opened.tool, ...resumed.map((event) => event.tool)])],
    began: opened.at,
    ...(ended === undefined ? {} : { ended: ended.at }),
    outcome: ended?.end.outcome ?? 'open',
    minutes:
      ended?.end.minutes ??
      ranking?.minutes ??
      sum(
        valid.map((step) => (step.read === undefined && step.toldBy === undefined ? step.prompt.minutes : 0)),
      ),
    suspects: ended?.end.suspects ?? ranking?.suspects ?? [],
    ...(verdict === undefined ? {} : { verdict }),
    handedOver: log.events.some((event) => event.e === 'handing-over'),
    steps,
    toldLast,
    ...(waiting === undefined || ended !== undefined ? {} : { waiting }),
    seen: valid.flatMap(seenIn),
    repairs: repairsOf(valid),
    rankings,
    notes,
    pauses: pausesOf(log.events),
    problems: log.problems,
    beyond: log.beyond.length,
    ...(boot ? { boot } : {}),
  }
}

const sum = (figures: readonly number[]): number => figures.reduce((a, b) => a + b, 0)

interface Walked {
  readonly steps: readonly ReportStep[]
  readonly rankings: readonly Ranking[]
  readonly notes: readonly ReportNote[]
  readonly toldLast: readonly Telling[]
  readonly waiting?: { readonly prompt: Prompt; readonly text?: string }
}

function walk(events: readonly LogEvent[]): Walked {
  const shown = new Map<number, Shown>()
  const steps: ReportStep[] = []
  const rankings: Ranking[] = []
  const notes: ReportNote[] = []
  let told: Telling[] = []
  let pending: ReportNote[] = []
  let waiting: Walked['waiting']
  for (const event of events) {
    switch (event.e) {
      case 'told':
        told.push({ record: event.record, ...(event.text === undefined ? {} : { text: event.text }) })
        break
      case 'read':
        told.push({ record: readingNote(event) })
        break
      case 'shown':
        shown.set(event.seq, event)
        waiting = { prompt: event.prompt, ...(event.text === undefined ? {} : { text: event.text }) }
        break
      case 'noted': {
        const note = { at: event.at, text: event.text }
        notes.push(note)
        pending.push(note)
        break
      }
      case 'replied': {
        const to = shown.get(event.to)
        if (to === undefined) break
        steps.push({
          step: steps.length + 1,
          seq: event.seq,
          at: event.at,
          prompt: to.prompt,
          ...(to.text === undefined ? {} : { text: to.text }),
          ...(to.answers === undefined ? {} : { answers: to.answers }),
          reply: event.reply,
          undone: false,
          ...(event.by === undefined ? {} : { by: event.by }),
          ...(event.read === undefined ? {} : { read: event.read }),
          ...(event.told === undefined ? {} : { toldBy: event.told }),
          notes: pending,
          told,
          suspects: [],
        })
        told = []
        pending = []
        waiting = undefined
        break
      }
      case 'undone': {
        const at = steps.findIndex((step) => step.seq === event.of)
        const step = steps[at]
        if (step !== undefined) steps[at] = { ...step, undone: true }
        break
      }
      case 'suspects': {
        const last = steps.at(-1)
        if (last !== undefined) steps[steps.length - 1] = { ...last, suspects: event.suspects }
        rankings.push({
          step: last?.step ?? 0,
          at: event.at,
          minutes: event.minutes,
          suspects: event.suspects,
        })
        break
      }
      default:
        break
    }
  }
  // A note after the last reply belongs to no step; it stands in the list of notes.
  return { steps, rankings, notes, toldLast: told, ...(waiting === undefined ? {} : { waiting }) }
}

/** What a reply says of the build, observable by observable; "can't tell" and questions about the past say nothing. */
function seenIn(step: ReportStep): Seen[] {
  const { prompt, reply } = step
  if (prompt.show !== 'ask' || typeof reply === 'string') return []
  const base = { step: step.step, stage: prompt.stage, power: prompt.power }
  if (prompt.many) {
    return prompt.marks
      .filter((mark) => reply.includes(mark.id))
      .map(({ observe, value }) => ({ ...base, observe, value }))
  }
  if (!('observe' in prompt)) return []
  const answer = prompt.answers.find((a) => reply.includes(a.id))
  return prompt.observe.flatMap((observe, i) => {
    const value = answer?.means[i]
    return value === undefined || value === null ? [] : [{ ...base, observe, value }]
  })
}

/** Each repair done, with the proofs that follow it until the next one; a look taken back and made again after it is one. */
function repairsOf(valid: readonly ReportStep[]): ReportRepair[] {
  const repairs: { step: number; proof: number[] }[] = []
  for (const { step, prompt, reply } of valid) {
    if (prompt.show === 'do' && prompt.purpose === 'repair' && reply === 'done')
      repairs.push({ step, proof: [] })
    else if (prompt.show === 'ask' && (prompt.stage === 'proof' || prompt.again === 'undone'))
      repairs.at(-1)?.proof.push(step)
  }
  return repairs
}

function pausesOf(events: readonly LogEvent[]): Pause[] {
  const pauses: Pause[] = []
  let digest = events[0]?.e === 'opened' ? events[0].digest : ''
  let left: { at: string; how: Pause['how'] } | undefined
  for (const [i, event] of events.entries()) {
    if (event.e === 'left') left = { at: event.at, how: event.how ?? 'not-known' }
    if (event.e !== 'resumed') continue
    const from = left ?? { at: events[i - 1]?.at ?? event.at, how: 'not-known' as const }
    pauses.push({
      ...from,
      resumed: event.at,
      planChanged: event.digest !== digest,
      ...(event.cut === undefined ? {} : { cut: event.cut }),
    })
    digest = event.digest
    left = undefined
  }
  if (left !== undefined) pauses.push({ ...left, planChanged: false })
  return pauses
}
