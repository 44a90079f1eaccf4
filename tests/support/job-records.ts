/** Jobs to hand in: real logs of one morning each, with another build, cause and end as asked for. */
import type { JobRecord } from '../../src/job/history/history.ts'
import { recordOf } from '../../src/job/history/job-record.ts'
import type { LogBody } from '../../src/job/log/event.ts'
import { jobBodies, writtenJob } from './job-log.ts'

export interface Wanted {
  readonly id?: string
  readonly build?: string
  readonly symptom?: string
  readonly who?: string
  /** The cause as place and mode. */
  readonly cause?: readonly (readonly [at: string, mode: string])[]
  /** Days and minutes after the morning of the sample. */
  readonly day?: number
  readonly minutes?: number
  /** Only so many lines of the log: the job is open. */
  readonly lines?: number
}

export const idOf = (n: number): string => n.toString(16).padStart(32, '0')

function body(one: LogBody, wanted: Wanted): LogBody {
  if (one.e === 'opened') {
    const { id, build = one.build, symptom = one.symptom, who = one.who } = wanted
    return {
      ...one,
      build,
      symptom,
      ...(who === undefined ? {} : { who }),
      ...(id === undefined ? {} : { id }),
    }
  }
  if (one.e !== 'ended') return one
  const { cause, minutes = one.end.minutes } = wanted
  const suspects =
    cause === undefined
      ? one.end.suspects
      : [{ faults: cause.map(([at, mode]) => ({ at, mode })), p: 0.99, alike: [] }]
  return { ...one, end: { ...one.end, minutes, suspects } }
}

export function bytesOf(wanted: Wanted = {}): Uint8Array {
  const bodies = jobBodies.slice(0, wanted.lines).map((one) => body(one, wanted))
  const { text } = writtenJob(bodies, (wanted.day ?? 0) * 24 * 3600_000)
  return new TextEncoder().encode(text)
}

export function recordFor(wanted: Wanted = {}, hidden?: string): JobRecord {
  const record = recordOf('/home/somebody/jobs/sample.ndjson', bytesOf(wanted), hidden)
  if (record === undefined) throw new Error('no job')
  return record
}
