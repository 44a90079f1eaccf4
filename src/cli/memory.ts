/** What closed jobs taught, here or on all benches that share a store, unless it was asked for without. */
import { type Learned, NOTHING_LEARNT } from '../core/infer/learned.ts'
import { learnFrom } from '../job/history/learn.ts'
import { recall } from '../job/history/memory.ts'
import type { Given, Shell } from './command.ts'
import { folderOf } from './logs.ts'
import { besideJob } from './store.ts'

export interface JobMemory {
  /** Closed jobs that it is from. */
  readonly jobs: number
  readonly learned: Learned
}

/** Hands in what waits for a store on the way, since it is asked anyway. */
export async function memoryFor(given: Given, shell: Shell): Promise<JobMemory> {
  const without = given.flags.has('no-learning')
  const shared = await besideJob(given, shell, (history) => history.taught())
  if (without) return { jobs: 0, learned: NOTHING_LEARNT }
  if (shared !== undefined) {
    const { counts } = shared.taught
    return { jobs: counts.jobs, learned: learnFrom(counts) }
  }
  const { lessons, learned } = await recall(folderOf(shell))
  return { jobs: lessons.length, learned }
}
