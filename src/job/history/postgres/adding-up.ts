/** Sums over the jobs of a store, made by the store. */
import type { Postgres } from '../../../io/postgres.ts'
import type { Query } from '../history.ts'
import type { Row as SumRow, Sums } from '../sums.ts'
import { fitting } from './finding.ts'

const rounded = (minutes: unknown): number => Math.round(Number(minutes) * 10) / 10

/** The same order as in `sumsOf`: most first, then by name as numbers of letters go. */
const SUMS = `SELECT * FROM (
  SELECT 'all' AS of, '' AS name, count(*) AS jobs, coalesce(sum(minutes), 0) AS minutes FROM hit
  UNION ALL SELECT 'outcomes', outcome, count(*), sum(minutes) FROM hit GROUP BY outcome
  UNION ALL SELECT 'builds', build, count(*), sum(minutes) FROM hit GROUP BY build
  UNION ALL SELECT 'causes', f.mode, count(*), sum(h.minutes)
    FROM hit h JOIN whichlead.fault f ON f.job = h.id GROUP BY f.mode
  UNION ALL SELECT 'places', h.build || ': ' || f.place || ':' || f.mode, count(*), sum(h.minutes)
    FROM hit h JOIN whichlead.fault f ON f.job = h.id GROUP BY 2
  ) AS sums ORDER BY of, jobs DESC, name COLLATE "C"`

/** The same as `sumsOf` over the jobs that the query finds. */
export async function sumUp(store: Postgres, query: Query): Promise<Sums> {
  const { sql, values, byFault } = fitting(query)
  const rows = await store.rows(
    `WITH hit AS MATERIALIZED (SELECT ${byFault ? 'DISTINCT' : ''} j.id, j.build, j.outcome, j.minutes ${sql}) ${SUMS}`,
    values,
  )
  const of = (kind: string): SumRow[] =>
    rows
      .filter((row) => row.of === kind)
      .map((row) => ({ name: String(row.name), jobs: Number(row.jobs), minutes: rounded(row.minutes) }))
  const [all] = of('all')
  return {
    jobs: all?.jobs ?? 0,
    minutes: all?.minutes ?? 0,
    outcomes: of('outcomes'),
    causes: of('causes'),
    places: of('places'),
    builds: of('builds'),
  }
}
