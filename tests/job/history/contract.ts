/** What every history promises, wherever it is kept. Each test gets an empty one. */
import { expect, test } from 'vitest'
import type { Found, History, Kept, Query } from '../../../src/job/history/history.ts'
import { learnFrom } from '../../../src/job/history/learn.ts'
import { idOf, recordFor } from '../../support/job-records.ts'

const given = <T>(kept: Kept<T>): T => {
  if (!kept.ok) throw new Error(JSON.stringify(kept.trouble))
  return kept
}

export function contract(empty: () => Promise<History>): void {
  const foundBy = async (history: History, query: Query): Promise<Found> =>
    given(await history.find(query)).found
  const buildsOf = async (history: History, query: Query): Promise<string[]> =>
    (await foundBy(history, query)).jobs.map((job) => job.build)
  const learnt = async (history: History) => {
    const { taught } = given(await history.taught())
    return { jobs: taught.counts.jobs, since: taught.since, factors: learnFrom(taught.counts) }
  }

  test('an empty one has nothing and has taught nothing', async () => {
    const history = await empty()
    expect(await foundBy(history, {})).toEqual({ jobs: [], more: false, unreadable: [] })
    expect(given(await history.sums({})).sums.jobs).toBe(0)
    expect(await learnt(history)).toEqual({ jobs: 0, since: null, factors: new Map() })
    expect(given(await history.log(idOf(1))).text).toBeUndefined()
  })

  test('a job that was handed in is there with all that its log says, and the log as it was', async () => {
    const history = await empty()
    const record = recordFor({ id: idOf(1), build: 'Map room' })
    expect(given(await history.put([record])).handed).toEqual({ taken: 1, known: 0 })
    const { jobs } = await foundBy(history, {})
    expect(jobs).toEqual([{ ...record.summary, log: jobs[0]?.log }])
    expect(given(await history.log(idOf(1))).text).toBe(record.text)
  })

  test('handing in the same again changes nothing', async () => {
    const history = await empty()
    const jobs = [recordFor({ id: idOf(1) }), recordFor({ id: idOf(2), day: 1 })]
    await history.put(jobs)
    const before = await learnt(history)
    expect(given(await history.put(jobs)).handed).toEqual({ taken: 0, known: 2 })
    expect((await foundBy(history, {})).jobs).toHaveLength(2)
    expect(await learnt(history)).toEqual(before)
  })

  test('of two copies of a job the later stays, in whichever order they come', async () => {
    const history = await empty()
    const open = recordFor({ id: idOf(1), lines: 15 })
    const further = recordFor({ id: idOf(1), lines: 20 })
    const ended = recordFor({ id: idOf(1) })
    await history.put([further])
    await history.put([open])
    expect(given(await history.log(idOf(1))).text).toBe(further.text)
    expect((await learnt(history)).jobs).toBe(0)
    await history.put([ended])
    await history.put([further])
    expect((await foundBy(history, {})).jobs.map((job) => job.outcome)).toEqual(['fixed'])
    expect((await learnt(history)).jobs).toBe(1)
  })

  test('the same job with and without names is one job, though it never drew an id', async () => {
    const history = await empty()
    await history.put([recordFor()])
    expect(given(await history.put([recordFor({}, '(left out)')])).handed).toEqual({ taken: 0, known: 1 })
  })

  test('jobs are found by build, part, cause, symptom, outcome, time and words; newest first', async () => {
    const history = await empty()
    await history.put([
      recordFor({ id: idOf(1), build: 'Map room', cause: [['F1.motor', 'open-TACH']], day: 0 }),
      recordFor({ id: idOf(2), build: 'Reading room', cause: [['board.SYS1', 'dead']], day: 1 }),
      recordFor({
        id: idOf(3),
        build: 'Map room',
        cause: [
          ['F1', 'seized'],
          ['F1.light', 'loose'],
        ],
        day: 2,
      }),
      recordFor({ id: idOf(4), build: 'Vault', lines: 12, day: 3 }),
      recordFor({ id: idOf(5), build: 'Attic', symptom: 'fan-still', who: 'Équipe du soir', day: 4 }),
    ])
    expect(await buildsOf(history, {})).toEqual(['Attic', 'Vault', 'Map room', 'Reading room', 'Map room'])
    expect(await buildsOf(history, { build: ' map ROOM' })).toEqual(['Map room', 'Map room'])
    expect(await buildsOf(history, { part: 'f1' })).toEqual(['Attic', 'Map room', 'Map room'])
    expect(await buildsOf(history, { part: 'F1.motor' })).toEqual(['Map room'])
    expect(await buildsOf(history, { part: 'SYS1' })).toEqual(['Reading room'])
    expect(await buildsOf(history, { cause: 'loose' })).toEqual(['Attic', 'Map room'])
    expect(await buildsOf(history, { cause: 'open' })).toEqual(['Map room'])
    expect(await buildsOf(history, { cause: 'open-tach' })).toEqual(['Map room'])
    expect(await buildsOf(history, { cause: 'open-CONTROL' })).toEqual([])
    expect(await buildsOf(history, { part: 'F1', cause: 'seized' })).toEqual(['Map room'])
    expect(await buildsOf(history, { part: 'SYS1', cause: 'seized' })).toEqual([])
    expect(await buildsOf(history, { symptom: 'fan-still' })).toEqual(['Attic'])
    expect(await buildsOf(history, { outcome: 'open' })).toEqual(['Vault'])
    expect(await buildsOf(history, { from: '2026-03-04T09:30:00.000Z', to: '2026-03-05T09:30:00Z' })).toEqual(
      ['Reading room'],
    )
    expect(await buildsOf(history, { words: 'ROOM dead' })).toEqual(['Reading room'])
    expect(await buildsOf(history, { words: 'ÉQUIPE' })).toEqual(['Attic'])
    expect(await buildsOf(history, { words: '%' })).toEqual([])
    expect(await buildsOf(history, { words: '_' })).toEqual([])
    const two = await foundBy(history, { limit: 2 })
    expect(two.jobs.map((job) => job.build)).toEqual(['Attic', 'Vault'])
    expect(two.more).toBe(true)
    expect((await foundBy(history, { part: 'F1', limit: 3 })).more).toBe(false)
  })

  test('jobs that were found are summed up', async () => {
    const history = await empty()
    await history.put([
      recordFor({ id: idOf(1), build: 'Map room', minutes: 10 }),
      recordFor({ id: idOf(2), build: 'Map room', minutes: 4.5, day: 1, cause: [['F2.light', 'loose']] }),
      recordFor({ id: idOf(3), build: 'Vault', lines: 5, day: 2 }),
    ])
    const { sums } = given(await history.sums({}))
    expect(sums.jobs).toBe(3)
    expect(sums.outcomes.map((row) => [row.name, row.jobs])).toEqual([
      ['fixed', 2],
      ['open', 1],
    ])
    expect(sums.causes).toEqual([{ name: 'loose', jobs: 2, minutes: 14.5 }])
    expect(sums.places.map((row) => row.name)).toEqual([
      'Map room: F1.light:loose',
      'Map room: F2.light:loose',
    ])
    expect(sums.builds[0]).toEqual({ name: 'Map room', jobs: 2, minutes: 14.5 })
    expect(given(await history.sums({ part: 'F2' })).sums).toMatchObject({ jobs: 1, minutes: 4.5 })
  })

  // The sample's cause is a loose plug on a fan: 8 jobs of 8, as `learn` counts them.
  test('closed jobs teach; forgetting leaves them there and lets later ones teach', async () => {
    const history = await empty()
    await history.put(Array.from({ length: 8 }, (_, i) => recordFor({ id: idOf(i + 1), day: 20 * i })))
    const { jobs, factors } = await learnt(history)
    expect(jobs).toBe(8)
    expect(factors.get('loose|fan')).toBeGreaterThan(1.5)
    expect(await history.forget('2026-05-01T00:00:00.000Z')).toEqual({ ok: true })
    expect(await learnt(history)).toMatchObject({ jobs: 5, since: '2026-05-01T00:00:00.000Z' })
    expect((await foundBy(history, {})).jobs).toHaveLength(8)
    await history.put([recordFor({ id: idOf(98), day: 1 }), recordFor({ id: idOf(99), day: 400 })])
    expect((await learnt(history)).jobs).toBe(6)
  })

  test('names that mean something elsewhere are names', async () => {
    const history = await empty()
    const names = [
      `'; DROP TABLE whichlead.job; --`,
      'a\0b',
      '\ud800 half a pair',
      '%_\\',
      '../../outside',
      '"],"x":1}',
      '🔌'.repeat(3000),
      '\u202Eright to left',
    ]
    await history.put(names.map((build, i) => recordFor({ id: idOf(i + 1), build, who: build, day: i })))
    const { jobs } = await foundBy(history, {})
    expect(jobs).toHaveLength(names.length)
    for (const [i, build] of names.entries()) {
      expect((await foundBy(history, { build })).jobs, build.slice(0, 20)).toHaveLength(1)
      expect(given(await history.log(idOf(i + 1))).text).toBe(
        recordFor({ id: idOf(i + 1), build, who: build, day: i }).text,
      )
    }
  })
}
