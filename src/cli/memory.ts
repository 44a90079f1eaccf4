/** What closed jobs taught this bench, unless it was asked for without. */
import { NOTHING_LEARNT } from '../core/infer/learned.ts'
import { type Memory, recall } from '../job/history/memory.ts'
import type { Given, Shell } from './command.ts'
import { folderOf } from './logs.ts'

export const memoryFor = async (given: Given, shell: Shell): Promise<Memory> =>
  given.flags.has('no-learning')
    ? { lessons: [], learned: NOTHING_LEARNT, since: null }
    : recall(folderOf(shell))
