/**
 * What the logs of a folder say in short. Reading a thousand logs takes seconds, so what each of them said is kept beside
 * them with a mark of the log that it is from; the logs stay the truth, and the file can be removed at any time.
 */
import { join } from 'node:path'
import * as z from 'zod/mini'
import { logsIn } from '../../io/job-folder.ts'
import { keptText, markOf } from '../../io/kept-file.ts'
import { writePage } from '../../io/page-file.ts'
import type { Done } from '../../io/trouble.ts'
import { readLog } from '../log/log.ts'
import { endSchema, suspectSchema } from '../log/records.ts'
import { type Summary, summarize } from '../report/summary.ts'

const FILE = 'listed.json'
/** Counts up when a summary says something else of the same log. */
const FORMAT = 1

const summarySchema = z.object({
  log: z.string(),
  build: z.string(),
  symptom: z.string(),
  who: z.exactOptional(z.string()),
  where: z.exactOptional(z.string()),
  began: z.string(),
  outcome: z.union([endSchema.shape.outcome, z.literal('open')]),
  minutes: z.number(),
  cause: z.exactOptional(suspectSchema),
  damaged: z.boolean(),
}) satisfies z.core.$ZodType<Summary>

const keptSchema = z.object({
  format: z.literal(FORMAT),
  /** By name of the log; null where it holds no job. */
  logs: z.record(z.string(), z.object({ mark: z.string(), says: z.nullable(summarySchema) })),
})
type Logs = Record<string, { readonly mark: string; readonly says: Summary | null }>

function read(text: string | undefined): Logs {
  try {
    const kept = keptSchema.safeParse(JSON.parse(text ?? ''))
    return kept.success ? kept.data.logs : {}
  } catch {
    return {}
  }
}

export interface Listed {
  /** Newest name first. */
  readonly summaries: readonly Summary[]
  /** Logs by path that hold no job. */
  readonly unreadable: readonly string[]
}

/** Every log of the folder in short; a log that has grown since is read anew. */
export async function summariesIn(folder: string): Promise<Done<Listed>> {
  const found = await logsIn(folder)
  if (!found.ok) return found
  const before = read(await keptText(join(folder, FILE)))
  const logs: Logs = {}
  const summaries: Summary[] = []
  const unreadable: string[] = []
  let changed = false
  for (const path of found.paths) {
    const name = path.split(/[/\\]/).at(-1) ?? path
    // The mark first: what is written while the log is read makes the next list read it again.
    const mark = await markOf(path)
    const known = before[name]
    const kept = mark !== undefined && known?.mark === mark ? known : undefined
    const says = kept ? kept.says : await inShort(path, name)
    if (mark !== undefined) logs[name] = kept ?? { mark, says }
    changed ||= kept === undefined
    if (says) summaries.push({ ...says, log: path })
    else unreadable.push(path)
  }
  // Best effort: the next list works it out again.
  if (changed || Object.keys(logs).length !== Object.keys(before).length)
    await writePage(join(folder, FILE), `${JSON.stringify({ format: FORMAT, logs })}\n`, true)
  return { ok: true, summaries, unreadable }
}

async function inShort(path: string, name: string): Promise<Summary | null> {
  const log = await readLog(path)
  return (log.ok ? summarize(name, log.log) : undefined) ?? null
}
