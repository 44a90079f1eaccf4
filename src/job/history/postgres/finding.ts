/** Finds jobs in a store: the conditions of a query as SQL, so that an index answers each. */
import * as z from 'zod/mini'
import type { Postgres, Row } from '../../../io/postgres.ts'
import { suspectSchema } from '../../log/records.ts'
import { type Summary, searchWords } from '../../report/summary.ts'
import type { Found, Query } from '../history.ts'
import { causeKey, keyOf, partKey } from '../query.ts'
import { STORE_LOG } from '../store-log.ts'
import { storable } from './storable.ts'

interface Clause {
  readonly sql: string
  readonly values: readonly unknown[]
  /** A job with several faults that fit comes several times; `DISTINCT` makes one of them. */
  readonly byFault: boolean
}

/** Makes `$n` of values as they come. */
function numbered(): { readonly values: unknown[]; of(value: unknown): string } {
  const values: unknown[] = []
  return { values, of: (value) => `$${values.push(value)}` }
}

/** What is searched for stands in a pattern as it is. */
const somewhere = (word: string): string => `%${word.replace(/[\\%_]/g, '\\$&')}%`

/** Jobs `j` that fit; where a part or cause is asked for, by way of their faults `f`, which are sorted by time as well. */
export function fitting(query: Query): Clause {
  const { values, of } = numbered()
  const text = (t: string): string => of(storable(t))
  const { words, build, part, cause, symptom, outcome, from, to } = query
  const byFault = part !== undefined || cause !== undefined
  const began = byFault ? 'f.began' : 'j.began'
  const conditions = [
    ...(part === undefined ? [] : faultAt(keyOf(part), partKey(part), text)),
    ...(cause === undefined ? [] : faultOf(keyOf(cause), causeKey(cause), text)),
    ...(build === undefined ? [] : [`j.build_key = ${text(keyOf(build))}`]),
    ...(symptom === undefined ? [] : [`j.symptom = ${text(symptom)}`]),
    ...(outcome === undefined ? [] : [`j.outcome = ${of(outcome)}`]),
    ...(from === undefined ? [] : [`${began} >= ${of(from)}::timestamptz`]),
    ...(to === undefined ? [] : [`${began} < ${of(to)}::timestamptz`]),
    ...searchWords(words ?? '').map((word) => `j.words LIKE ${text(somewhere(word))}`),
  ]
  const tables = byFault ? 'whichlead.fault f JOIN whichlead.job j ON j.id = f.job' : 'whichlead.job j'
  return {
    sql: `FROM ${tables}${conditions.length === 0 ? '' : ` WHERE ${conditions.join(' AND ')}`}`,
    values,
    byFault,
  }
}

const faultAt = (key: string, part: string, text: (t: string) => string): string[] =>
  key === part
    ? [`f.part_key = ${text(part)}`]
    : // A whole place: found by its part, as the index is, then looked at closely.
      [`f.part_key = ${text(part)}`, `f.place_key = ${text(key)}`]

const faultOf = (key: string, cause: string, text: (t: string) => string): string[] =>
  key === cause
    ? [`f.cause_key = ${text(cause)}`]
    : [`f.cause_key = ${text(cause)}`, `f.mode_key = ${text(key)}`]

const COLUMNS = `j.id, j.build, j.symptom, j.outcome, j.who, j.place, j.began, j.minutes, j.damaged, j.cause`

const text = z.string()
/** Others write there too, so what comes is looked at like any file. */
const rowSchema = z.object({
  id: text,
  build: text,
  symptom: text,
  outcome: z.enum(['fixed', 'nothing-wrong', 'handed-over', 'declined', 'left', 'open']),
  who: z.nullable(text),
  place: z.nullable(text),
  began: z.date(),
  minutes: z.number(),
  damaged: z.boolean(),
  cause: z.nullable(text),
})

function summaryOf(row: Row): Summary | undefined {
  const read = rowSchema.safeParse(row)
  if (!read.success || Number.isNaN(read.data.began.getTime())) return undefined
  const { id, who, place, began, cause, ...rest } = read.data
  const suspect = cause === null ? undefined : suspectIn(cause)
  return {
    ...rest,
    log: `${STORE_LOG}${id}`,
    began: began.toISOString(),
    ...(who === null ? {} : { who }),
    ...(place === null ? {} : { where: place }),
    ...(suspect === undefined ? {} : { cause: suspect }),
  }
}

function suspectIn(cause: string): Summary['cause'] {
  try {
    return suspectSchema.safeParse(JSON.parse(cause)).data
  } catch {
    return undefined
  }
}

/** The newest jobs first, and whether there are more than the query's limit. */
export async function findJobs(store: Postgres, query: Query): Promise<Found> {
  const { sql, values, byFault } = fitting(query)
  // In the order of the index, so that the newest are read and no more.
  const [distinct, began] = byFault
    ? ['DISTINCT ON (f.began, f.job)', 'f.began DESC, f.job']
    : ['', 'j.began DESC, j.id']
  const limit = query.limit === undefined ? '' : ` LIMIT ${Math.max(0, Math.trunc(query.limit)) + 1}`
  const rows = await store.rows(`SELECT ${distinct} ${COLUMNS} ${sql} ORDER BY ${began}${limit}`, values)
  const { limit: most = rows.length } = query
  const jobs: Summary[] = []
  const unreadable: string[] = []
  for (const row of rows.slice(0, most)) {
    const summary = summaryOf(row)
    if (summary === undefined) unreadable.push(`${STORE_LOG}${String(row.id)}`)
    else jobs.push(summary)
  }
  return { jobs, more: rows.length > most, unreadable }
}
