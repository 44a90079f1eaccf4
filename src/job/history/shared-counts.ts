/**
 * What all benches of a store had taught when it could last be had, kept beside the logs for when it is away. Of one store,
 * the last; the store stays the truth, and the file can be removed at any time.
 */
import { join } from 'node:path'
import * as z from 'zod/mini'
import { dropKept, keptText } from '../../io/kept-file.ts'
import { writePage } from '../../io/page-file.ts'
import type { Counts } from './learn.ts'

const FILE = 'learned-shared.json'

const amount = z.number().check(z.gte(0))
const keptSchema = z.object({
  format: z.literal(1),
  /** Host, port and database. */
  store: z.string(),
  jobs: amount,
  classes: z.record(z.string(), z.object({ counted: amount, expected: amount })),
})

/** Best effort: without it the bench goes on with its own jobs. */
export async function keepShared(folder: string, store: string, counts: Counts): Promise<void> {
  const kept: z.infer<typeof keptSchema> = {
    format: 1,
    store,
    ...counts,
    classes: Object.fromEntries(counts.classes),
  }
  await writePage(join(folder, FILE), `${JSON.stringify(kept)}\n`, true)
}

/** The last counts of this store, undefined where there are none to be had. */
export async function keptShared(folder: string, store: string): Promise<Counts | undefined> {
  try {
    const kept = keptSchema.parse(JSON.parse((await keptText(join(folder, FILE))) ?? ''))
    return kept.store === store ? { ...kept, classes: new Map(Object.entries(kept.classes)) } : undefined
  } catch {
    return undefined
  }
}

export const dropShared = (folder: string): Promise<void> => dropKept(join(folder, FILE))
