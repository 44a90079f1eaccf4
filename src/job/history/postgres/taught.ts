/** What the jobs of a store teach: counts that are kept added up, of the last year and of as many months more as it takes. */
import type { Postgres } from '../../../io/postgres.ts'
import type { Taught } from '../history.ts'

/** So many of the newest jobs count in any case, like in a folder. */
const ENOUGH_JOBS = 1000

const USED = `
  WITH month AS (
    SELECT month, jobs, sum(jobs) OVER (ORDER BY month DESC) - jobs AS newer, max(month) OVER () AS newest
    FROM whichlead.learnt_jobs
  ), used AS (
    SELECT month, jobs FROM month WHERE newer < ${ENOUGH_JOBS} OR month > newest - interval '1 year'
  )`

const COUNTS = `${USED}
  SELECT NULL AS class, sum(jobs) AS jobs, NULL AS counted, NULL AS expected FROM used
  UNION ALL
  SELECT class, NULL, sum(counted), sum(expected) FROM whichlead.learnt JOIN used USING (month) GROUP BY class`

/** Adding and taking away leaves dust where nothing is. */
const amount = (sum: unknown): number => (Number(sum) > 1e-9 ? Number(sum) : 0)

export async function taughtBy(store: Postgres): Promise<Taught> {
  const [learning] = await store.rows('SELECT since FROM whichlead.learning')
  const rows = await store.rows(COUNTS)
  const classes = new Map<string, { counted: number; expected: number }>()
  let jobs = 0
  for (const row of rows) {
    if (row.class === null) {
      jobs = Number(row.jobs)
      continue
    }
    const counts = { counted: amount(row.counted), expected: amount(row.expected) }
    if (counts.counted > 0 || counts.expected > 0) classes.set(String(row.class), counts)
  }
  const since = learning?.since
  return { counts: { jobs, classes }, since: since instanceof Date ? since.toISOString() : null }
}
