/**
 * What still has to be handed in to a store: the logs of the folder that the store has not had as they are now. What it
 * has had is noted beside them; the note may be lost at any time, since handing in twice changes nothing.
 */
import { dirname, isAbsolute, join } from 'node:path'
import * as z from 'zod/mini'
import { logsIn, makeJobFolder } from '../../io/job-folder.ts'
import { keptText, markOf } from '../../io/kept-file.ts'
import { readLogFile } from '../../io/log-file.ts'
import { writePage } from '../../io/page-file.ts'
import type { Handed, History, JobRecord, Kept, StoreTrouble } from './history.ts'
import { fileName, recordOf } from './job-record.ts'

const FILE = 'handed-in.json'
const FORMAT = 1

const noteSchema = z.object({
  format: z.literal(FORMAT),
  /** By the store's id, the logs by path: how they were when they were handed in. */
  stores: z.record(z.string(), z.record(z.string(), z.object({ mark: z.string(), id: z.string() }))),
  /** Logs that lie elsewhere and wait. */
  elsewhere: z.array(z.string()),
})
type Noted = z.infer<typeof noteSchema>

const EMPTY: Noted = { format: FORMAT, stores: {}, elsewhere: [] }

async function noted(folder: string): Promise<Noted> {
  try {
    return noteSchema.parse(JSON.parse((await keptText(join(folder, FILE))) ?? ''))
  } catch {
    return EMPTY
  }
}

const note = (folder: string, now: Noted): Promise<unknown> =>
  writePage(join(folder, FILE), `${JSON.stringify(now)}\n`, true)

/** Notes that a log outside of the folder waits. */
export async function remember(folder: string, log: string): Promise<void> {
  if (dirname(log) === folder) return
  await makeJobFolder(folder)
  const before = await noted(folder)
  if (before.elsewhere.includes(log)) return
  await note(folder, { ...before, elsewhere: [...before.elsewhere, log] })
}

/** Where the logs of a store's jobs lie on this machine, by the id of the job. */
export async function ownLogs(folder: string, store: string): Promise<ReadonlyMap<string, string>> {
  const logs = Object.entries((await noted(folder)).stores[store] ?? {})
  return new Map(logs.map(([log, { id }]) => [id, isAbsolute(log) ? log : join(folder, log)]))
}

export interface How {
  /** Stands where a text was, if names are to be left out. */
  readonly hidden?: string
  /** Also those that the note says are there. */
  readonly all?: boolean
  /** Whether there is still time; what is left is handed in later. */
  readonly goOn: () => boolean
}

export interface Done extends Handed {
  /** Logs that wait for another time. */
  readonly waiting: number
  /** Logs that the store does not take, with its reasons. */
  readonly refused: readonly { readonly log: string; readonly trouble: StoreTrouble }[]
}

interface Waiting {
  readonly path: string
  /** As it stands in the note. */
  readonly name: string
  readonly mark: string
}

const MOST_JOBS = 50
const MOST_BYTES = 4 * 1024 * 1024

/** Newest first. Stops at the first trouble with the store; what was handed in by then is noted. */
export async function handIn(
  folder: string,
  store: History & { readonly id: string },
  how: How,
): Promise<Kept<{ done: Done }>> {
  const before = await noted(folder)
  const had = { ...before.stores[store.id] }
  const queue = await waitingIn(folder, before.elsewhere, how.all === true ? {} : had)
  const refused: { log: string; trouble: StoreTrouble }[] = []
  let [taken, known] = [0, 0]
  let trouble: StoreTrouble | undefined

  async function send(batch: readonly (readonly [Waiting, JobRecord])[]): Promise<void> {
    const put = await store.put(batch.map(([, record]) => record))
    if (put.ok) {
      taken += put.handed.taken
      known += put.handed.known
      for (const [{ name, mark }, { id }] of batch) had[name] = { mark, id }
    } else if (put.trouble.code !== 'failed') trouble = put.trouble
    else if (batch.length === 1)
      refused.push(...batch.map(([{ path }]) => ({ log: path, trouble: put.trouble })))
    // One that the store does not take must not keep the others back.
    else for (const one of batch) if (trouble === undefined) await send([one])
  }

  let at = 0
  while (at < queue.length && trouble === undefined && how.goOn()) {
    const batch: (readonly [Waiting, JobRecord])[] = []
    for (let bytes = 0; at < queue.length && batch.length < MOST_JOBS && bytes < MOST_BYTES; at++) {
      if (batch.length > 0 && !how.goOn()) break
      const waiting = queue[at]
      const read = waiting && (await readLogFile(waiting.path))
      const record = read?.ok ? recordOf(waiting?.path ?? '', read.bytes, how.hidden) : undefined
      if (waiting === undefined || record === undefined) continue
      batch.push([waiting, record])
      bytes += record.text.length
    }
    if (batch.length > 0) await send(batch)
  }
  const elsewhere = before.elsewhere.filter((path) => had[path] === undefined)
  if (taken + known > 0)
    await note(folder, { ...before, stores: { ...before.stores, [store.id]: had }, elsewhere })
  if (trouble !== undefined) return { ok: false, trouble }
  return { ok: true, done: { taken, known, waiting: queue.length - at, refused } }
}

async function waitingIn(
  folder: string,
  elsewhere: readonly string[],
  had: Noted['stores'][string],
): Promise<Waiting[]> {
  const logs = await logsIn(folder)
  const all = [
    ...elsewhere.map((path) => ({ path, name: path })),
    ...(logs.ok ? logs.paths : []).map((path) => ({ path, name: fileName(path) })),
  ]
  const waiting: Waiting[] = []
  for (const { path, name } of all) {
    const mark = await markOf(path)
    if (mark !== undefined && had[name]?.mark !== mark) waiting.push({ path, name, mark })
  }
  return waiting
}
