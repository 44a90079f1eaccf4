/**
 * One connection to a PostgreSQL server: queries and transactions with short timeouts, and whatever goes wrong as
 * trouble. Knows nothing of what is kept there. Loaded only when there is a store.
 */
import pg from 'pg'
import pgpass from 'pgpass'
import { StoreFailure, storeFailure } from './postgres-trouble.ts'
import type { StoreAddress } from './store-address.ts'

export type Row = Readonly<Record<string, unknown>>

export interface Postgres {
  /** Host, port and database. */
  readonly where: string
  /** Rows of one statement. @throws StoreFailure */
  rows(sql: string, values?: readonly unknown[]): Promise<readonly Row[]>
  /** Several statements without values, however long they take. Only within a transaction. @throws StoreFailure */
  patiently(sql: string): Promise<void>
  /** All or nothing; tried again where others were in the way. @throws StoreFailure */
  transaction<T>(work: () => Promise<T>): Promise<T>
  close(): Promise<void>
}

/** The oldest that is tested for: `gen_random_uuid` and trusted extensions are of 13. */
const OLDEST_SERVER = 130000

/** A statement, a wait for somebody's lock, and an answer that never comes (a cable that was pulled), in ms. */
const STATEMENT_MS = 10_000
const LOCK_MS = 4_000
const ANSWER_MS = 12_000
const PATIENT_MS = 3_600_000

/** So many times as long where somebody asked for it and waits. */
const PATIENCE = 20

const ATTEMPTS = 5

async function passwordOf({ host, port, database, user }: StoreAddress): Promise<string> {
  const of = { host, port, database: database ?? '', user: user ?? '' }
  return (await new Promise<string | undefined>((resolve) => pgpass(of, resolve))) ?? ''
}

/**
 * @param program shown by the server beside the connection
 * @param patient takes far longer for a busy server
 * @throws StoreFailure
 */
export async function connect(address: StoreAddress, program: string, patient = false): Promise<Postgres> {
  const times = patient ? PATIENCE : 1
  const { where, connectSeconds, ssl, password, user, database } = address
  const client = new pg.Client({
    host: address.host,
    port: address.port,
    ...(user === undefined ? {} : { user }),
    ...(database === undefined ? {} : { database }),
    password: password ?? (() => passwordOf(address)),
    ssl,
    connectionTimeoutMillis: connectSeconds * 1000,
    query_timeout: ANSWER_MS * times,
    application_name: program,
    keepAlive: true,
  })
  // A server that goes while nothing is asked; the next query tells.
  client.on('error', () => {})
  const end = () => client.end().catch(() => {})

  async function rows(sql: string, values: readonly unknown[] = []): Promise<readonly Row[]> {
    try {
      return (await client.query<Record<string, unknown>>(sql, [...values])).rows
    } catch (error) {
      throw storeFailure(error, where)
    }
  }

  async function patiently(sql: string): Promise<void> {
    await rows('SET LOCAL statement_timeout = 0')
    try {
      // The driver takes this, its types do not tell of it.
      const query = { text: sql, query_timeout: PATIENT_MS }
      await client.query(query)
    } catch (error) {
      throw storeFailure(error, where)
    }
  }

  async function once<T>(work: () => Promise<T>): Promise<T> {
    await rows('BEGIN')
    try {
      const done = await work()
      await rows('COMMIT')
      return done
    } catch (error) {
      await client.query('ROLLBACK').catch(() => {})
      throw error
    }
  }

  async function transaction<T>(work: () => Promise<T>): Promise<T> {
    for (let attempt = 1; ; attempt++) {
      try {
        return await once(work)
      } catch (error) {
        if (!(error instanceof StoreFailure && error.passing) || attempt === ATTEMPTS) throw error
      }
    }
  }

  try {
    await client.connect()
    // Compiling a query that ends after 200 rows takes ten times as long as running it.
    await client.query(
      `SET statement_timeout = ${STATEMENT_MS * times}; SET lock_timeout = ${LOCK_MS * times}; SET timezone = 'UTC'; SET jit = off`,
    )
    const [found] = (
      await client.query<{ n: string; name: string }>(
        "SELECT current_setting('server_version_num') AS n, current_setting('server_version') AS name",
      )
    ).rows
    if (Number(found?.n) < OLDEST_SERVER) {
      const facts = { version: found?.name ?? '', needed: OLDEST_SERVER / 10_000 }
      throw new StoreFailure({ code: 'server-too-old', where, facts })
    }
  } catch (error) {
    await end()
    const failure = storeFailure(error, where)
    const { code, facts } = failure.trouble
    // Nothing can break off that never stood.
    throw code === 'lost' ? new StoreFailure({ code: 'unreachable', where, facts }) : failure
  }
  return {
    where,
    rows,
    patiently,
    transaction,
    close: async () => void (await end()),
  }
}
