/** The history that several benches share: the tables of a PostgreSQL server. */
import { connect, type Postgres } from '../../../io/postgres.ts'
import { StoreFailure } from '../../../io/postgres-trouble.ts'
import { readStoreAddress } from '../../../io/store-address.ts'
import type { History, JobRecord, Kept } from '../history.ts'
import { sumUp } from './adding-up.ts'
import { findJobs } from './finding.ts'
import { putJobs } from './handing-in.ts'
import { bringUpToDate } from './schema.ts'
import { taughtBy } from './taught.ts'

export interface SharedHistory extends History {
  /** Host, port and database. */
  readonly where: string
  /** Drawn when the store was made; another one at the same address is another store. */
  readonly id: string
}

/** Makes values of what goes wrong in the store; anything else is a mistake of ours and goes on up. */
async function kept<T extends object>(work: () => Promise<T>): Promise<Kept<T>> {
  try {
    return { ok: true, ...(await work()) }
  } catch (error) {
    if (error instanceof StoreFailure) return { ok: false, trouble: error.trouble }
    throw error
  }
}

export interface Opening {
  readonly program: string
  /** Brings the tables up to date even where that takes a while, and waits far longer for a busy server. */
  readonly patient: boolean
  /** For what the address leaves out, by libpq's names. */
  readonly env?: Readonly<Record<string, string | undefined>>
}

/** Connects and brings the tables up to date, or says why not. @param text the address as a person wrote it */
export async function openShared(
  text: string,
  { program, patient, env = process.env }: Opening,
): Promise<Kept<{ history: SharedHistory }>> {
  const read = readStoreAddress(text, env)
  if (!read.ok) return read
  return kept(async () => {
    const store = await connect(read.address, program, patient)
    try {
      await bringUpToDate(store, patient)
      const [row] = await store.rows('SELECT id FROM whichlead.store')
      return { history: historyOf(store, String(row?.id)) }
    } catch (error) {
      await store.close()
      throw error
    }
  })
}

const historyOf = (store: Postgres, id: string): SharedHistory => ({
  where: store.where,
  id,
  find: (query) => kept(async () => ({ found: await findJobs(store, query) })),
  sums: (query) => kept(async () => ({ sums: await sumUp(store, query) })),
  put: (jobs: readonly JobRecord[]) => kept(async () => ({ handed: await putJobs(store, jobs) })),
  log: (of) =>
    kept(async () => {
      const [row] = await store.rows('SELECT log FROM whichlead.job WHERE id = $1', [of])
      return { text: typeof row?.log === 'string' ? row.log : undefined }
    }),
  taught: () => kept(async () => ({ taught: await taughtBy(store) })),
  forget: (now) =>
    kept(async () => {
      await store.transaction(async () => {
        await store.rows('UPDATE whichlead.learning SET since = $1', [now])
        await store.rows('SELECT whichlead.relearn()')
      })
      return {}
    }),
  close: () => store.close(),
})
