/** What closed jobs taught, here or on all benches that share a store, unless it was asked for without. */
import { type Learned, NOTHING_LEARNT } from '../core/infer/learned.ts'
import { type Counts, learnFrom } from '../job/history/learn.ts'
import { recall } from '../job/history/memory.ts'
import { keepShared, keptShared } from '../job/history/shared-counts.ts'
import type { Given, Shell } from './command.ts'
import { folderOf } from './logs.ts'
import { besideJob, storeSettings } from './store.ts'

export interface JobMemory {
  /** Closed jobs that it is from. */
  readonly jobs: number
  readonly learned: Learned
}

/** Hands in what waits for a store on the way, since it is asked anyway. */
export async function memoryFor(given: Given, shell: Shell): Promise<JobMemory> {
  const shared = await besideJob(given, shell, (history) => history.taught())
  if (given.flags.has('no-learning')) return { jobs: 0, learned: NOTHING_LEARNT }
  const counts = await sharedCounts(shared?.taught.counts, given, shell)
  if (counts !== undefined) return { jobs: counts.jobs, learned: learnFrom(counts) }
  const { lessons, learned } = await recall(folderOf(shell))
  return { jobs: lessons.length, learned }
}

/** The counts of the store as they are, or else as they were when it could last be had. */
async function sharedCounts(
  now: Counts | undefined,
  given: Given,
  shell: Shell,
): Promise<Counts | undefined> {
  const settings = storeSettings(given, shell)
  if (settings === undefined) return undefined
  // Unpacked only for who has a store.
  const { readStoreAddress } = await import('../io/store-address.ts')
  const read = readStoreAddress(settings.address, shell.env)
  if (!read.ok) return undefined
  const { where } = read.address
  if (now === undefined) return keptShared(folderOf(shell), where)
  await keepShared(folderOf(shell), where, now)
  return now
}
