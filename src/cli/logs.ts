/** The job logs of this user: where they are, and what each says in short. */
import { homedir } from 'node:os'
import { jobFolder, logsIn } from '../io/job-folder.ts'
import { readLog } from '../job/log/log.ts'
import type { Trouble } from '../job/log/trouble.ts'
import { type Summary, summarize } from '../job/report/summary.ts'
import type { Shell } from './command.ts'

export const folderOf = (shell: Pick<Shell, 'env'>): string =>
  jobFolder({ env: shell.env, platform: process.platform, home: shell.env.HOME ?? homedir() })

export type Logs =
  | {
      readonly ok: true
      readonly summaries: readonly Summary[]
      /** Logs by name that hold no job. */
      readonly unreadable: readonly string[]
    }
  | { readonly ok: false; readonly trouble: Trouble }

/** Newest first. */
export async function jobsOf(shell: Pick<Shell, 'env'>): Promise<Logs> {
  const found = await logsIn(folderOf(shell))
  if (!found.ok) return found
  const summaries: Summary[] = []
  const unreadable: string[] = []
  for (const path of found.paths) {
    const read = await readLog(path)
    const summary = read.ok ? summarize(path, read.log) : undefined
    if (summary) summaries.push(summary)
    else unreadable.push(path)
  }
  return { ok: true, summaries, unreadable }
}
