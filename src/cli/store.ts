/**
 * The store that several benches share, as the command line and the environment name it. What it costs a job is held
 * short, and trouble with it is a line on standard error: a diagnosis never waits for it nor ends by it.
 */
import type { History, Kept, StoreTrouble } from '../job/history/history.ts'
import { type Done, handIn, remember } from '../job/history/outbox.ts'
import type { SharedHistory } from '../job/history/postgres/postgres-history.ts'
import { reportWordsOf } from '../wording/report/language.ts'
import { storeWordsOf } from '../wording/store-words.ts'
import type { Given, Shell } from './command.ts'
import { folderOf } from './logs.ts'
import { version } from './version.ts'

export interface StoreSettings {
  readonly address: string
  readonly withoutNames: boolean
}

const isSet = (value: string | undefined): boolean => value !== undefined && value !== '' && value !== '0'

/** Undefined where there is none. `--store ''` goes without for once. */
export function storeSettings(given: Given, { env }: Pick<Shell, 'env'>): StoreSettings | undefined {
  const address = given.values.get('store') ?? env.WHICHLEAD_STORE ?? ''
  return address === '' ? undefined : { address, withoutNames: isSet(env.WHICHLEAD_STORE_WITHOUT_NAMES) }
}

/** So long may handing in hold up a job, at its beginning and at its end. */
const BUDGET_MS = 3000

/** And so long the whole visit, where a server that let us in answers no more. */
const DEADLINE_MS = 8000

/** Connects, or says why it cannot. @param patient waits as long as a person would, not as briefly as a job may */
export async function openStore(
  { address }: StoreSettings,
  shell: Shell,
  patient: boolean,
): Promise<Kept<{ history: SharedHistory }>> {
  // Unpacked only for who has a store.
  const { openShared } = await import('../job/history/postgres/postgres-history.ts')
  return openShared(address, { program: `whichlead ${version}`, patient, env: shell.env })
}

/** Hands in what waits. @param patient takes as long as it takes, and offers all again */
export async function handInTo(
  store: SharedHistory,
  settings: StoreSettings,
  shell: Shell,
  patient: boolean,
): Promise<Kept<{ done: Done }>> {
  const until = Date.now() + BUDGET_MS
  return handIn(folderOf(shell), store, {
    ...(settings.withoutNames ? { hidden: reportWordsOf(shell.language).hidden } : {}),
    all: patient,
    goOn: () => patient || Date.now() < until,
  })
}

/** Hands in the job that ends, and what else waits. A log that lies elsewhere is remembered first. */
export async function afterJob(log: string, given: Given, shell: Shell): Promise<void> {
  if (storeSettings(given, shell) === undefined) return
  await remember(folderOf(shell), log)
  await besideJob(given, shell, async () => ({ ok: true }))
}

/** What the store has to do with a job that begins or ends. Undefined where there is no store, or none to be had. */
export async function besideJob<T extends object>(
  given: Given,
  shell: Shell,
  work: (history: History & { readonly where: string }) => Promise<Kept<T>>,
): Promise<T | undefined> {
  const settings = storeSettings(given, shell)
  if (settings === undefined || shell.job.storeAway === true) return undefined
  const words = storeWordsOf(shell.language)
  const away = (trouble: StoreTrouble): undefined => {
    shell.job.storeAway = true
    shell.err(words.goingOn(trouble))
  }
  try {
    const opened = await openStore(settings, shell, false)
    if (!opened.ok) return away(opened.trouble)
    const { history } = opened
    const visit = async (): Promise<Kept<{ handed: Done; done: T }>> => {
      const handed = await handInTo(history, settings, shell, false)
      if (!handed.ok) return handed
      const done = await work(history)
      return done.ok ? { ok: true, handed: handed.done, done } : done
    }
    try {
      const visited = await inTime(visit(), history.where)
      if (!visited.ok) return away(visited.trouble)
      const { refused, waiting } = visited.handed
      for (const { log, trouble } of refused) shell.err(words.refused(log, trouble))
      if (waiting > 0) shell.err(words.waiting(waiting))
      return visited.done
    } finally {
      await history.close()
    }
  } catch (error) {
    // A mistake of ours in what a job can do without.
    if (shell.env.WHICHLEAD_DEBUG && error instanceof Error && error.stack) shell.err(error.stack)
    return away({ code: 'failed', where: '', facts: { said: String(error) } })
  }
}

/** A server that stopped answering is left to itself; closing the connection then ends what still waits. */
async function inTime<T extends object>(visit: Promise<Kept<T>>, where: string): Promise<Kept<T>> {
  let timer: NodeJS.Timeout | undefined
  const late = new Promise<Kept<T>>((resolve) => {
    timer = setTimeout(
      () => resolve({ ok: false, trouble: { code: 'unreachable', where, facts: {} } }),
      DEADLINE_MS,
    )
  })
  try {
    return await Promise.race([visit, late])
  } finally {
    clearTimeout(timer)
  }
}
