/**
 * A store's tables on a real server: made once by whoever comes first, brought up to date from what an older program left, left
 * alone when a newer one was there; and what is said of a server that cannot be used.
 */
import { readFileSync } from 'node:fs'
import { createServer, type Server as Net } from 'node:net'
import { fileURLToPath } from 'node:url'
import { afterAll, beforeAll, describe, expect, test } from 'vitest'
import type { Query } from '../../../src/job/history/history.ts'
import { MIGRATIONS } from '../../../src/job/history/postgres/migrations.ts'
import { openShared, type SharedHistory } from '../../../src/job/history/postgres/postgres-history.ts'
import { storeWords } from '../../../src/wording/en/store.ts'
import { idOf, recordFor } from '../../support/job-records.ts'
import { CERTIFICATE, hasPostgres, PASSWORD, type Server, startPostgres } from '../../support/postgres.ts'

const fixture = fileURLToPath(new URL('../../fixtures/store/schema-1.sql', import.meta.url))
const LAST = MIGRATIONS.at(-1)?.version

describe.skipIf(!hasPostgres)('the tables of a store', () => {
  let server: Server
  beforeAll(async () => {
    server = await startPostgres({ tls: true })
  })
  afterAll(() => server?.remove())

  const tryTo = (url: string, patient = false) => openShared(url, { program: 'test', patient, env: {} })
  async function open(url: string): Promise<SharedHistory> {
    const opened = await tryTo(url)
    if (!opened.ok) throw new Error(JSON.stringify(opened.trouble))
    return opened.history
  }
  async function troubleOf(url: string) {
    const opened = await tryTo(url)
    if (opened.ok) {
      await opened.history.close()
      throw new Error('it could be used')
    }
    expect(JSON.stringify(opened.trouble)).not.toContain(PASSWORD)
    expect(storeWords.goingOn(opened.trouble)).not.toContain(PASSWORD)
    return opened.trouble
  }

  test('are made once, however many programs start at the same time', async () => {
    const url = await server.database()
    const all = await Promise.all(Array.from({ length: 6 }, () => open(url)))
    const ids = new Set(all.map((history) => history.id))
    expect(ids.size).toBe(1)
    for (const history of all) await history.close()
    const steps = await server.sql<{ version: number }>(
      url,
      'SELECT version FROM whichlead.migration ORDER BY 1',
    )
    expect(steps.map((step) => step.version)).toEqual(MIGRATIONS.map((m) => m.version))
  })

  test('that an older program left are brought up to date with all that is in them', async () => {
    const url = await server.database()
    await server.sql(url, readFileSync(fixture, 'utf8'))
    const history = await open(url)
    const builds = async (query: Query) => {
      const read = await history.find(query)
      return read.ok ? read.found.jobs.map((job) => job.build) : read.trouble
    }
    expect(await builds({})).toEqual(['Attic', 'Vault', 'Map room'])
    expect(await builds({ part: 'F1', words: 'map' })).toEqual(['Map room'])
    const before = await history.taught()
    expect(before.ok && before.taught.counts.jobs).toBe(2)
    await history.put([recordFor({ id: idOf(2), build: 'Vault', day: 1 })])
    const after = await history.taught()
    expect(after.ok && after.taught.counts.jobs).toBe(3)
    // Two from before plugs were told apart, and one of now.
    const counted = (key: string) => (after.ok ? after.taught.counts.classes.get(key)?.counted : undefined)
    expect(counted('loose|fan')).toBeCloseTo(2, 9)
    expect(counted('loose|fan|light')).toBeCloseTo(1, 9)
    await history.close()
  })

  test('with many jobs in them are not changed at the start of a job, only when there is time', async () => {
    const url = await server.database()
    await server.sql(url, readFileSync(fixture, 'utf8'))
    await server.sql(
      url,
      `INSERT INTO whichlead.job (id, lines, ended, file, build, build_key, symptom, outcome, began, minutes, damaged, words, log)
        SELECT 'x' || n, 1, false, '', '', '', '', 'open', now(), 0, false, '', '' FROM generate_series(1, 20000) n`,
    )
    expect(await troubleOf(url)).toMatchObject({ code: 'older-schema', facts: { found: 1, known: LAST } })
    const opened = await tryTo(url, true)
    expect(opened.ok).toBe(true)
    if (opened.ok) await opened.history.close()
  })

  test('that a newer program has changed are left alone', async () => {
    const url = await server.database()
    await (await open(url)).close()
    await server.sql(url, "INSERT INTO whichlead.migration (version, name) VALUES (99, 'something new')")
    const trouble = await troubleOf(url)
    expect(trouble).toMatchObject({ code: 'newer-schema', facts: { found: 99, known: LAST } })
    expect(storeWords.trouble(trouble)).toContain('Update whichlead')
  })

  test('a step that fails leaves nothing behind', async () => {
    const url = await server.database()
    await server.sql(url, 'CREATE SCHEMA whichlead; CREATE TABLE whichlead.learnt (other int)')
    expect((await troubleOf(url)).code).toBe('failed')
    const steps = await server.sql(url, 'SELECT * FROM whichlead.migration')
    expect(steps).toHaveLength(1)
    expect(await server.sql(url, "SELECT to_regclass('whichlead.share') AS there")).toEqual([{ there: null }])
  })

  test('a job that goes takes what it taught along; counting anew gives what was added up', async () => {
    const url = await server.database()
    const history = await open(url)
    await history.put(
      [1, 2, 3, 4].map((n) => recordFor({ id: idOf(n), day: n * 15, lines: n === 4 ? 12 : 25 })),
    )
    await history.put([recordFor({ id: idOf(4), day: 60 })])
    await server.sql(url, 'DELETE FROM whichlead.job WHERE id = $1', [idOf(2)])
    const counts = () =>
      server.sql(
        url,
        `SELECT month::text, class, round(counted::numeric, 6) AS counted, round(expected::numeric, 6) AS expected
          FROM whichlead.learnt WHERE abs(counted) > 1e-9 OR abs(expected) > 1e-9 ORDER BY 1, 2`,
      )
    const added = await counts()
    expect(added.length).toBeGreaterThan(10)
    await server.sql(url, 'SELECT whichlead.relearn()')
    expect(await counts()).toEqual(added)
    const taught = await history.taught()
    expect(taught.ok && taught.taught.counts.jobs).toBe(3)
    await history.close()
  })

  test('a user who may only read and add to them can hand in; one who may not is told so', async () => {
    const url = await server.database()
    await (await open(url)).close()
    await server.sql(
      url,
      `CREATE ROLE bench LOGIN PASSWORD 'b'; CREATE ROLE guest LOGIN PASSWORD 'g';
      GRANT USAGE ON SCHEMA whichlead TO bench;
      GRANT SELECT, INSERT, UPDATE, DELETE ON ALL TABLES IN SCHEMA whichlead TO bench`,
    )
    const as = (user: string) => url.replace(/\/\/[^@]+@/, `//${user}@`)
    const bench = await open(as('bench:b'))
    expect(await bench.put([recordFor({ id: idOf(1) })])).toMatchObject({ handed: { taken: 1 } })
    expect(await bench.forget('2020-01-01T00:00:00Z')).toEqual({ ok: true })
    await bench.close()
    expect((await troubleOf(as('guest:g'))).code).toBe('no-rights')
  })

  describe('a server that cannot be used is told as what it is:', () => {
    const nets: Net[] = []
    afterAll(() => {
      for (const net of nets) net.close()
    })
    const listening = (speak: (data: Buffer) => string | undefined): Promise<number> =>
      new Promise((resolve) => {
        const net = createServer((socket) => {
          socket.on('error', () => {})
          socket.on('data', (data) => {
            const say = speak(data)
            if (say !== undefined) socket.end(say)
          })
        }).listen(0, '127.0.0.1', () => {
          const at = net.address()
          resolve(typeof at === 'object' && at !== null ? at.port : 0)
        })
        nets.push(net)
      })

    test('a wrong password, an unknown user, no such database', async () => {
      const url = server.url('postgres')
      const other = (user: string) => url.replace(/\/\/[^@]+@/, `//${user}@`)
      expect((await troubleOf(other('chief:wrong'))).code).toBe('wrong-password')
      expect((await troubleOf(other('nobody:x'))).code).toBe('wrong-password')
      expect((await troubleOf(server.url('nothing'))).code).toBe('no-such-database')
    })

    test('no TLS, or a certificate that is not trusted or is of another', async () => {
      const at = (host: string, how: string) => `${server.url().replace('127.0.0.1', host)}&sslmode=${how}`
      const trusted = `verify-full&sslrootcert=${CERTIFICATE}`
      expect((await troubleOf(at('localhost', 'verify-full'))).code).toBe('tls')
      expect((await troubleOf(at('127.0.0.1', trusted))).code).toBe('tls')
      const plain = await listening(() => 'N')
      const trouble = await troubleOf(
        `postgres://u:x@127.0.0.1:${plain}/h?connect_timeout=60&sslmode=require`,
      )
      expect(trouble.code).toBe('tls')
      for (const [i, how] of [trusted, 'require'].entries()) {
        const program = `tls ${i}`
        const opened = await openShared(at('localhost', how), { program, patient: false, env: {} })
        expect(opened.ok || opened.trouble).toBe(true)
        const [secure] = await server.sql<{ n: number }>(
          server.url(),
          'SELECT count(*)::int AS n FROM pg_stat_ssl s JOIN pg_stat_activity a USING (pid) WHERE s.ssl AND a.application_name = $1',
          [program],
        )
        expect(secure?.n).toBe(1)
        if (opened.ok) await opened.history.close()
      }
    })

    test('nothing there, somebody else there, somebody who says nothing', async () => {
      const at = (port: number) => `postgres://chief:x@127.0.0.1:${port}/h?connect_timeout=1`
      const free = await listening(() => undefined)
      expect((await troubleOf(at(free))).code).toBe('unreachable')
      const web = await listening(() => 'HTTP/1.1 400 Bad Request\r\n\r\n')
      expect(['unreachable', 'failed']).toContain((await troubleOf(at(web))).code)
      nets.splice(0).forEach((net) => {
        net.close()
      })
      expect((await troubleOf(at(1))).code).toBe('refused')
    })
  })
})
