/** The steps of a job out of its log, in their order, with what was told, noted and suspected on the way. */
import type { Prompt } from '../../core/checks/prompt.ts'
import type { LogEvent, Shown } from '../log/event.ts'
import { readingNote } from '../reading-note.ts'
import type { Ranking, ReportNote, ReportStep, Telling } from './record.ts'

/** What a walk over the log comes to. */
interface Walked {
  readonly steps: readonly ReportStep[]
  readonly rankings: readonly Ranking[]
  readonly notes: readonly ReportNote[]
  readonly toldLast: readonly Telling[]
  readonly waiting?: { readonly prompt: Prompt; readonly text?: string }
}

/** The reply to a prompt as a step of the job; what comes after it in the log is added as it is met. */
function stepOf(
  step: number,
  to: Shown,
  replied: Extract<LogEvent, { e: 'replied' }>,
  notes: readonly ReportNote[],
  told: readonly Telling[],
): ReportStep {
  return {
    step,
    seq: replied.seq,
    at: replied.at,
    prompt: to.prompt,
    ...(to.text === undefined ? {} : { text: to.text }),
    ...(to.answers === undefined ? {} : { answers: to.answers }),
    reply: replied.reply,
    undone: false,
    ...(replied.by === undefined ? {} : { by: replied.by }),
    ...(replied.read === undefined ? {} : { read: replied.read }),
    ...(replied.told === undefined ? {} : { toldBy: replied.told }),
    notes,
    told,
    suspects: [],
  }
}

/** Every step of a job, those taken back too, with what was told, noted and ranked. */
export function stepsIn(events: readonly LogEvent[]): Walked {
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
        steps.push(stepOf(steps.length + 1, to, event, pending, told))
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
