/**
 * Jobs of a simulated workshop with many benches, for loading a store: five years, some thousand builds, causes of which
 * few are common and many rare. Each has a whole log of usual length. What was drawn is tallied, to check the store by.
 */
import type { JobRecord } from '../../src/job/history/history.ts'
import { bytesOf } from '../support/job-records.ts'
import { seeded } from './accuracy.ts'

export { openShared } from '../../src/job/history/postgres/postgres-history.ts'
export { startPostgres } from '../support/postgres.ts'

export const BUILDS = 12_000
export const PARTS = 48
export const MODES = ['unplugged', 'loose', 'seized', 'dead', 'open-TACH', 'open-CONTROL', 'short', 'offset']
const KINDS = ['fan', 'board', 'light-hub', 'fan-hub', 'fan-splitter', 'light-splitter', 'strip']
export const CLASSES = KINDS.flatMap((kind) => MODES.map((mode) => `${mode.replace(/-.*/, '-')}|${kind}`))

export const FIRST_DAY = Date.UTC(2021, 11, 1)
export const DAYS = 1800
const DAY = 24 * 3600_000

const TEXT = new TextDecoder().decode(bytesOf())
/** The beginning of it, where only the finding counts. */
const SHORT = `${TEXT.split('\n').slice(0, 2).join('\n')}\n`

export const logBytes = (short: boolean): number => (short ? SHORT : TEXT).length

/** Small numbers are likelier: 1/k. */
const skewed = (chance: () => number, n: number): number =>
  Math.min(n - 1, Math.floor((n + 1) ** chance()) - 1)

const SHARES = Array.from({ length: 40 }, (_, set) => {
  const chance = seeded(1000 + set)
  const weights = [...new Set(CLASSES)].map((key) => [key, chance() + 0.01] as const)
  const total = weights.reduce((sum, [, w]) => sum + w, 0)
  return new Map(weights.map(([key, w]) => [key, w / total]))
})

export const buildName = (n: number): string => `Workstation ${String(n).padStart(5, '0')}`
export const partName = (n: number): string => `F${n + 1}`

export interface Tally {
  jobs: number
  taught: number
  readonly byPart: Map<string, number>
  readonly byMode: Map<string, number>
  readonly byBuild: Map<string, number>
  readonly byDay: Map<number, number>
}

export const emptyTally = (): Tally => ({
  jobs: 0,
  taught: 0,
  byPart: new Map(),
  byMode: new Map(),
  byBuild: new Map(),
  byDay: new Map(),
})

const count = <K>(map: Map<K, number>, key: K) => map.set(key, (map.get(key) ?? 0) + 1)

/** The nth job of so many, as they came over the years; the same each time. */
export function jobNumber(n: number, of: number, tally: Tally, short = false): JobRecord {
  const chance = seeded(n + 1)
  const day = Math.min(DAYS - 1, Math.floor((n / of) * DAYS))
  const began = new Date(FIRST_DAY + day * DAY + Math.floor(chance() * DAY)).toISOString()
  const build = buildName(skewed(chance, BUILDS))
  const part = partName(skewed(chance, PARTS))
  const mode = MODES[skewed(chance, MODES.length)] ?? ''
  const fixed = chance() < 0.9
  const id = n.toString(16).padStart(32, '0')
  const shares = SHARES[Math.floor(chance() * SHARES.length)] ?? new Map()
  const key = CLASSES[skewed(chance, CLASSES.length)] ?? ''
  tally.jobs++
  count(tally.byBuild, build)
  count(tally.byDay, day)
  if (fixed) {
    tally.taught++
    count(tally.byPart, part)
    count(tally.byMode, mode)
  }
  return {
    id,
    lines: 25,
    summary: {
      log: `${began.slice(0, 10)}-job.ndjson`,
      build,
      symptom: chance() < 0.5 ? 'lights-dark' : 'fan-still',
      who: `Person ${skewed(chance, 40)}`,
      began,
      outcome: fixed ? 'fixed' : chance() < 0.5 ? 'handed-over' : 'open',
      minutes: Math.round(chance() * 400) / 10,
      damaged: false,
      ...(fixed ? { cause: { faults: [{ at: `${part}.motor`, mode }], p: 0.97, alike: [] } } : {}),
    },
    text: (short ? SHORT : TEXT).replace('"build":"Reading room workstation"', `"build":"${build}"`),
    ...(fixed ? { lesson: { shares, causes: new Map([[key, 1]]) } } : {}),
  }
}
