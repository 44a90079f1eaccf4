/** Puts jobs into a store: all or none of a batch, each once, the later of two copies. */
import type { Postgres } from '../../../io/postgres.ts'
import { clockText } from '../../log/encode.ts'
import { textToSearch } from '../../report/summary.ts'
import type { Handed, JobRecord } from '../history.ts'
import { isLater } from '../job-record.ts'
import { causeKey, keyOf, partKey } from '../query.ts'
import { sharesId } from './shares-id.ts'
import { storable } from './storable.ts'

/** As JSON with storable texts, whatever stands in a name. */
const json = (rows: readonly object[]): string =>
  JSON.stringify(rows, (_, value: unknown) => (typeof value === 'string' ? storable(value) : value))

const isEnded = ({ summary }: JobRecord): boolean => summary.outcome !== 'open'

/** The clock's word may be any date that ISO 8601 can write; a store knows those after the year 0. */
const when = (at: string): string => clockText(Date.parse(at))

function jobRow(job: JobRecord): object {
  const { summary, lesson } = job
  return {
    id: job.id,
    lines: job.lines,
    ended: isEnded(job),
    file: summary.log,
    build: summary.build,
    build_key: keyOf(summary.build),
    symptom: summary.symptom,
    outcome: summary.outcome,
    who: summary.who ?? null,
    place: summary.where ?? null,
    began: when(summary.began),
    minutes: summary.minutes,
    damaged: summary.damaged,
    cause: summary.cause === undefined ? null : JSON.stringify(summary.cause),
    words: textToSearch(summary),
    shares: lesson === undefined ? null : sharesId(lesson.shares),
    classes: lesson === undefined ? null : [...lesson.causes.keys()],
    parts: lesson === undefined ? null : [...lesson.causes.values()],
    log: job.text,
  }
}

const faultRows = (job: JobRecord): object[] =>
  (job.summary.cause?.faults ?? []).map((fault, nth) => ({
    job: job.id,
    nth,
    began: when(job.summary.began),
    place: fault.at,
    mode: fault.mode,
    place_key: keyOf(fault.at),
    part_key: partKey(fault.at),
    mode_key: keyOf(fault.mode),
    cause_key: causeKey(fault.mode),
  }))

const shareRows = (jobs: readonly JobRecord[]): object[] => {
  const rows = new Map<string, object>()
  for (const { lesson } of jobs) {
    if (lesson === undefined) continue
    const shares = sharesId(lesson.shares)
    for (const [of, share] of lesson.shares) rows.set(`${shares} ${of}`, { shares, class: of, share })
  }
  return [...rows].sort(([a], [b]) => (a < b ? -1 : 1)).map(([, row]) => row)
}

const JOB = `id text, lines integer, ended boolean, file text, build text, build_key text, symptom text, outcome text,
  who text, place text, began timestamptz, minutes float8, damaged boolean, cause text, words text, shares text,
  classes text[], parts float8[], log text`
const JOB_COLUMNS = JOB.split(',').map((column) => column.trim().split(' ')[0])

const PUT_JOBS = `
  INSERT INTO whichlead.job AS j (${JOB_COLUMNS.join(', ')})
    SELECT * FROM json_to_recordset($1::json) AS r (${JOB}) ORDER BY id
    ON CONFLICT (id) DO UPDATE SET (${JOB_COLUMNS.join(', ')}, handed_in) =
      (${JOB_COLUMNS.map((column) => `excluded.${column}`).join(', ')}, now())
    WHERE (excluded.ended, excluded.lines) > (j.ended, j.lines)
    RETURNING id`

const PUT_FAULTS = `
  INSERT INTO whichlead.fault (job, nth, began, place, mode, place_key, part_key, mode_key, cause_key)
    SELECT * FROM json_to_recordset($1::json) AS r (job text, nth integer, began timestamptz, place text, mode text,
      place_key text, part_key text, mode_key text, cause_key text)`

const PUT_SHARES = `
  INSERT INTO whichlead.share (shares, class, share)
    SELECT * FROM json_to_recordset($1::json) AS r (shares text, class text, share float8) ORDER BY shares, class
    ON CONFLICT DO NOTHING`

/** Locks are taken in one order by all: shares, then jobs by id, then counts; so writers wait and never stand still. */
export async function putJobs(store: Postgres, jobs: readonly JobRecord[]): Promise<Handed> {
  const once = new Map<string, JobRecord>()
  for (const job of jobs) {
    const other = once.get(job.id)
    if (other === undefined || isLater(job, other)) once.set(job.id, job)
  }
  const batch = [...once.values()]
  if (batch.length === 0) return { taken: 0, known: jobs.length }
  const shares = shareRows(batch)
  return store.transaction(async () => {
    if (shares.length > 0) await store.rows(PUT_SHARES, [json(shares)])
    const taken = (await store.rows(PUT_JOBS, [json(batch.map(jobRow))])).map((row) => String(row.id))
    if (taken.length > 0) {
      const isTaken = new Set(taken)
      const faults = batch.filter((job) => isTaken.has(job.id)).flatMap(faultRows)
      await store.rows('DELETE FROM whichlead.fault WHERE job = ANY ($1)', [taken])
      if (faults.length > 0) await store.rows(PUT_FAULTS, [json(faults)])
    }
    return { taken: taken.length, known: jobs.length - taken.length }
  })
}
