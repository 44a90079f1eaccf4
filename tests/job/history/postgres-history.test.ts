/** A store on a real PostgreSQL server keeps what every history promises. */
import { afterAll, beforeAll, describe } from 'vitest'
import { openShared, type SharedHistory } from '../../../src/job/history/postgres/postgres-history.ts'
import { hasPostgres, type Server, startPostgres } from '../../support/postgres.ts'
import { contract } from './contract.ts'

describe.skipIf(!hasPostgres)('a store', () => {
  let server: Server
  let url: string
  let history: SharedHistory
  beforeAll(async () => {
    server = await startPostgres()
    url = await server.database()
    const opened = await openShared(url, { program: 'test', patient: false })
    if (!opened.ok) throw new Error(JSON.stringify(opened.trouble))
    history = opened.history
  })
  afterAll(async () => {
    await history?.close()
    await server?.remove()
  })

  contract(async () => {
    await server.clear(url)
    return history
  })
})
