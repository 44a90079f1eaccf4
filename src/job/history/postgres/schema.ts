/**
 * Brings the tables of a store up to date: each step in a transaction, one program at a time. A store that a newer
 * program has changed is left alone.
 */
import type { Postgres } from '../../../io/postgres.ts'
import { StoreFailure } from '../../../io/postgres-trouble.ts'
import { MIGRATIONS, type Migration } from './migrations.ts'

/** Of the advisory lock; any number will do that others do not use. */
const LOCK = 4_207_181_993

/** With fewer jobs than this the steps take a moment only. */
const FEW_JOBS = 20_000

const known = (steps: readonly Migration[]): number => steps.at(-1)?.version ?? 0

/** 0 where there is nothing yet. */
async function versionOf(store: Postgres): Promise<number> {
  // The catalogue itself is asked: what `to_regclass` knows may be from before we waited for another program.
  const [there] = await store.rows(
    `SELECT EXISTS (SELECT 1 FROM pg_catalog.pg_class c JOIN pg_catalog.pg_namespace n ON n.oid = c.relnamespace
      WHERE n.nspname = 'whichlead' AND c.relname = 'migration') AS yes`,
  )
  if (there?.yes !== true) return 0
  const [row] = await store.rows('SELECT max(version) AS version FROM whichlead.migration')
  return Number(row?.version ?? 0)
}

async function step(store: Postgres, { version, name, sql }: Migration): Promise<void> {
  const [found] = await store.rows(
    "SELECT EXISTS (SELECT 1 FROM pg_catalog.pg_namespace WHERE nspname = 'whichlead') AS yes",
  )
  if (found?.yes !== true) await store.rows('CREATE SCHEMA whichlead')
  await store.rows(
    `CREATE TABLE IF NOT EXISTS whichlead.migration (
      version integer PRIMARY KEY, name text NOT NULL, done timestamptz NOT NULL DEFAULT now())`,
  )
  await store.patiently(sql)
  await store.rows('INSERT INTO whichlead.migration (version, name) VALUES ($1, $2)', [version, name])
}

const few = async (store: Postgres): Promise<boolean> => {
  // A plain count, cut off early: what the server estimates may be far off on a fresh table.
  const [row] = await store.rows(
    `SELECT count(*) < ${FEW_JOBS} AS few FROM (SELECT 1 FROM whichlead.job LIMIT ${FEW_JOBS}) AS beginning`,
  )
  return row?.few === true
}

/**
 * @param patient also where many jobs make it long
 * @throws StoreFailure: `newer-schema` where a newer program was there, `older-schema` where it would take long
 */
export async function bringUpToDate(
  store: Postgres,
  patient: boolean,
  steps: readonly Migration[] = MIGRATIONS,
): Promise<void> {
  const last = known(steps)
  const refuse = (code: 'newer-schema' | 'older-schema', found: number): never => {
    throw new StoreFailure({ code, where: store.where, facts: { found, known: last } })
  }
  for (;;) {
    const found = await versionOf(store)
    if (found > last) refuse('newer-schema', found)
    if (found === last) return
    if (!patient && found > 0 && !(await few(store))) refuse('older-schema', found)
    await store.transaction(async () => {
      await store.rows('SELECT pg_advisory_xact_lock($1)', [LOCK])
      // Another program may have been quicker.
      const now = await versionOf(store)
      const next = steps.find((s) => s.version === now + 1)
      if (next !== undefined) await step(store, next)
    })
  }
}
