/** One line of a list of jobs: what a log says in short, and whether a text is found in it. */
import type { Outcome, Suspect } from '../../core/checks/prompt.ts'
import { faultText } from '../../core/faults/fault.ts'
import type { Decoded } from '../log/decode.ts'
import { assembleReport } from './assemble.ts'
import type { Report } from './record.ts'

export interface Summary {
  readonly log: string
  readonly build: string
  readonly symptom: string
  readonly who?: string
  readonly where?: string
  readonly began: string
  readonly outcome: Outcome | 'open'
  readonly minutes: number
  /** The likeliest suspect of a job that came to one. */
  readonly cause?: Suspect
  /** Something is wrong with the log; the report tells. */
  readonly damaged: boolean
}

/** Undefined where the file holds no job. */
export function summarize(log: string, decoded: Decoded): Summary | undefined {
  const report = assembleReport(decoded)
  if (report === undefined) return undefined
  const cause = causeOf(report)
  return {
    log,
    build: report.build,
    symptom: report.symptom,
    ...(report.who === undefined ? {} : { who: report.who }),
    ...(report.where === undefined ? {} : { where: report.where }),
    began: report.began,
    outcome: report.outcome,
    minutes: report.minutes,
    ...(cause === undefined ? {} : { cause }),
    damaged: report.problems.length > 0,
  }
}

/** A cause is named where the job ended with something mended, or handed a likely one over. */
function causeOf(report: Report): Suspect | undefined {
  const [first] = report.suspects
  if (report.outcome === 'fixed') return first
  return report.outcome === 'handed-over' && first !== undefined && first.p >= 0.5 ? first : undefined
}

/** All that is looked through for words, lower-case; a store keeps it as it is here. */
export function textToSearch(summary: Summary): string {
  const faults = summary.cause === undefined ? [] : summary.cause.faults.map(faultText)
  const words = [
    summary.log.split(/[/\\]/).at(-1) ?? '',
    summary.build,
    summary.symptom,
    summary.outcome,
    summary.began,
    summary.who ?? '',
    summary.where ?? '',
    ...faults,
  ]
  return words.join('\n').normalize('NFC').toLowerCase()
}

/** The words of a search as they are looked for. */
export const searchWords = (text: string): string[] =>
  text
    .normalize('NFC')
    .toLowerCase()
    .split(/\s+/)
    .filter((word) => word !== '')

/** Every word of `text` is somewhere in the summary, whatever its case. An empty text finds all. */
export function isFound(summary: Summary, text: string): boolean {
  const hay = textToSearch(summary)
  return searchWords(text).every((word) => hay.includes(word))
}
