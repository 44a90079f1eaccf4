/** The history that a command reads: the store where there is one and it can be had, else the folder of this bench. */
import { markOf } from '../io/kept-file.ts'
import { folderHistory } from '../job/history/folder-history.ts'
import type { Found, History, Kept, Query } from '../job/history/history.ts'
import { ownLogs } from '../job/history/outbox.ts'
import { STORE_LOG } from '../job/history/store-log.ts'
import { decodeLog } from '../job/log/decode.ts'
import { readLog } from '../job/log/log.ts'
import { storeWordsOf } from '../wording/store-words.ts'
import type { ExitCode, Given, Shell } from './command.ts'
import { folderOf } from './logs.ts'
import { handInTo, openStore, storeSettings } from './store.ts'

export interface Opened {
  readonly history: History
  /** Host, port and database, where it is shared. */
  readonly shared?: string
}

const ownHistory = (shell: Shell): History => folderHistory(folderOf(shell), () => new Date().toISOString())

/** A job of this bench is named by the log that lies here, so that it can be taken up. */
const nearBy = (history: History, own: ReadonlyMap<string, string>): History => ({
  ...history,
  async find(query: Query): Promise<Kept<{ found: Found }>> {
    const all = await history.find(query)
    if (!all.ok) return all
    const jobs = await Promise.all(
      all.found.jobs.map(async (job) => {
        const path = own.get(job.log.slice(STORE_LOG.length))
        // It may have been taken away since.
        return path !== undefined && (await markOf(path)) !== undefined ? { ...job, log: path } : job
      }),
    )
    return { ok: true, found: { ...all.found, jobs } }
  },
})

/**
 * What was done at this bench is handed in first. To be closed by who asked.
 * @param must an exit code where there is a store that cannot be had, instead of this bench alone
 */
export async function openHistory(given: Given, shell: Shell, must = false): Promise<Opened | ExitCode> {
  const settings = storeSettings(given, shell)
  if (settings === undefined) return { history: ownHistory(shell) }
  const words = storeWordsOf(shell.language)
  const opened = await openStore(settings, shell, false)
  if (opened.ok) {
    const { history } = opened
    const handed = await handInTo(history, settings, shell, false)
    // A store that can be read only is read all the same.
    if (!handed.ok) shell.err(words.trouble(handed.trouble))
    else if (handed.done.waiting > 0) shell.err(words.waiting(handed.done.waiting))
    return { history: nearBy(history, await ownLogs(folderOf(shell), history.id)), shared: history.where }
  }
  shell.err(must ? words.trouble(opened.trouble) : words.goingOn(opened.trouble))
  if (must) return 2
  return { history: ownHistory(shell) }
}

/** `jobs --hand-in`: everything, however long it takes, and whatever is in the way is said. */
export async function handInAll(given: Given, shell: Shell): Promise<ExitCode> {
  const words = storeWordsOf(shell.language)
  const settings = storeSettings(given, shell)
  if (settings === undefined) {
    shell.err(words.noStore)
    return 2
  }
  const opened = await openStore(settings, shell, true)
  if (!opened.ok) {
    shell.err(words.trouble(opened.trouble))
    return 2
  }
  const { history } = opened
  try {
    const handed = await handInTo(history, settings, shell, true)
    if (!handed.ok) {
      shell.err(words.trouble(handed.trouble))
      return 2
    }
    shell.out(words.handedIn(handed.done, history.where))
    for (const { log, trouble } of handed.done.refused) shell.err(words.refused(log, trouble))
    return handed.done.refused.length > 0 ? 1 : 0
  } finally {
    await history.close()
  }
}

/** The log of a job by its path, or of one in the store by `store:` and its id; an exit code where it was said why not. */
export async function readJob(
  path: string,
  given: Given,
  shell: Shell,
): Promise<Awaited<ReturnType<typeof readLog>> | ExitCode> {
  const id = idIn(path)
  if (id === undefined) return readLog(path)
  const words = storeWordsOf(shell.language)
  const settings = storeSettings(given, shell)
  const opened = settings && (await openStore(settings, shell, false))
  if (opened === undefined || !opened.ok) {
    shell.err(opened === undefined ? words.noStore : words.trouble(opened.trouble))
    return 2
  }
  const { history } = opened
  const found = await history.log(id)
  await history.close()
  if (found.ok && found.text !== undefined) return { ok: true, log: decodeLog(found.text) }
  shell.err(found.ok ? words.noSuchJob(id, history.where) : words.trouble(found.trouble))
  return 2
}

/** Paths are made whole before they come here. */
const idIn = (path: string): string | undefined =>
  new RegExp(`(?:^|[/\\\\])${STORE_LOG}([0-9a-f]{32})$`).exec(path)?.[1]
