/**
 * A job as it is handed in, from its log: what the log says in short, what it teaches, and the sound part of its text.
 * The same job has the same id in each copy of its log, whether names were taken out of it or not.
 */
import { logName } from '../../io/job-folder.ts'
import { decodeLog } from '../log/decode.ts'
import { FIRST_SUM, lineSum } from '../log/digest.ts'
import type { LogEvent } from '../log/event.ts'
import { logWithoutNames } from '../log/log-without-names.ts'
import { summarize } from '../report/summary.ts'
import type { JobRecord } from './history.ts'
import { lessonOf } from './lesson.ts'

export const fileName = (path: string): string => path.split(/[/\\]/).at(-1) ?? path

/** As `anyId` makes them. */
const ID = /^[0-9a-f]{32}$/

/**
 * The one that a job drew when it began; for one that drew none, made from its opening without names. Undefined where
 * there is no opening.
 */
export function jobId([opened]: readonly LogEvent[]): string | undefined {
  if (opened?.e !== 'opened') return undefined
  if (opened.id !== undefined && ID.test(opened.id)) return opened.id
  const line = logWithoutNames([opened], '')
  const half = lineSum(FIRST_SUM, line)
  return half + lineSum(half, line)
}

/**
 * @param path of the log; its folders are not kept
 * @param hidden stands where a text was, if names are to be left out; undefined keeps them
 * @returns undefined where the bytes hold no job
 */
export function recordOf(path: string, bytes: Uint8Array, hidden?: string): JobRecord | undefined {
  const decoded = decodeLog(bytes)
  const { events, problems, soundBytes } = decoded
  const id = jobId(events)
  const text =
    hidden === undefined
      ? new TextDecoder().decode(bytes.subarray(0, soundBytes))
      : logWithoutNames(events, hidden)
  const whole = summarize(fileName(path), decoded)
  if (id === undefined || whole === undefined) return undefined
  const { who, where, ...rest } = whole
  // A file may be called after somebody too; this is what the folder of jobs would call it.
  const nameless = { ...rest, log: logName(whole.began, whole.build, whole.symptom) }
  const summary = hidden === undefined ? whole : nameless
  // A damaged log is kept and reported, and teaches nothing.
  const lesson = problems.length > 0 ? undefined : lessonOf(events)
  return { id, lines: decoded.tail.seq, summary, text, ...(lesson === undefined ? {} : { lesson }) }
}

/** Of two copies of one job the one that has ended is the later, else the longer. */
export const isLater = (a: JobRecord, b: Pick<JobRecord, 'lines' | 'summary'>): boolean => {
  const ended = ({ summary }: Pick<JobRecord, 'summary'>): number => (summary.outcome === 'open' ? 0 : 1)
  return ended(a) - ended(b) > 0 || (ended(a) === ended(b) && a.lines > b.lines)
}
