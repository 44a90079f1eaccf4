/** The job logs of this user: where they are, and what each says in short. */
import { homedir } from 'node:os'
import { jobFolder } from '../io/job-folder.ts'
import { summariesIn } from '../job/history/summaries.ts'
import type { Trouble } from '../job/log/trouble.ts'
import type { Summary } from '../job/report/summary.ts'
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
export const jobsOf = (shell: Pick<Shell, 'env'>): Promise<Logs> => summariesIn(folderOf(shell))
