/** Whether a job is what is looked for. The keys are made here too, so that the folder and a store agree on them. */
import { stemOf } from '../../core/infer/learned.ts'
import { isFound, type Summary } from '../report/summary.ts'
import type { Query } from './history.ts'

/** An index takes no longer ones; names that differ only beyond this are taken as one. */
const LONGEST_KEY = 200

/** Two spellings of one name have one key. */
export const keyOf = (name: string): string =>
  name.normalize('NFC').trim().toLowerCase().slice(0, LONGEST_KEY)

/** What leads a place and is no name of its own: `board.SYS1`, `headers/SYS1/drive`, `supply.SA.1`. */
const LEADS: ReadonlySet<string> = new Set(['board', 'headers', 'channels', 'ports', 'host', 'supply'])

/** The part or port that a place belongs to, as a key: `f2` of `F2.motor`, `sys1` of `board.SYS1`. */
export function partKey(place: string): string {
  const [first = '', second] = keyOf(place).split(/[./]/)
  return LEADS.has(first) && second !== undefined ? second : first
}

/** The family of a mode, as a key: `open` of `open-TACH`, `loose` of `loose`. */
export const causeKey = (mode: string): string => familyOf(mode.trim())

function familyOf(mode: string): string {
  const stem = stemOf(mode)
  return keyOf(stem.endsWith('-') ? stem.slice(0, -1) : stem)
}

/** Whether a job has all that the query names; what it leaves open fits any. */
export function fits(job: Summary, query: Query): boolean {
  const faults = job.cause?.faults ?? []
  const { words, build, part, cause, symptom, outcome, from, to } = query
  if (words !== undefined && !isFound(job, words)) return false
  if (build !== undefined && keyOf(job.build) !== keyOf(build)) return false
  if (symptom !== undefined && job.symptom !== symptom) return false
  if (outcome !== undefined && job.outcome !== outcome) return false
  const began = Date.parse(job.began)
  if (from !== undefined && began < Date.parse(from)) return false
  if (to !== undefined && began >= Date.parse(to)) return false
  return part === undefined && cause === undefined
    ? true
    : faults.some((f) => isAt(f.at, part) && isOf(f.mode, cause))
}

const isAt = (place: string, part: string | undefined): boolean =>
  part === undefined || keyOf(place) === keyOf(part) || partKey(place) === keyOf(part)

const isOf = (mode: string, cause: string | undefined): boolean =>
  cause === undefined || keyOf(mode) === keyOf(cause) || causeKey(mode) === keyOf(cause)
