/** Where the command line looks for job logs, and how trouble with one is told. */
import { homedir } from 'node:os'
import { isAbsolute, join } from 'node:path'
import { jobFolder, logsIn } from '../io/job-folder.ts'
import type { Decoded } from '../job/log/decode.ts'
import { readLog } from '../job/log/log.ts'
import type { Trouble } from '../job/log/trouble.ts'
import { logWordsOf, reportWordsOf } from '../wording/report-language.ts'
import type { Shell } from './command.ts'

type Where = Pick<Shell, 'cwd' | 'env'>

/** A path from the command line, from the folder the program was called in. */
export const fromHere = (path: string, shell: Where): string =>
  isAbsolute(path) ? path : join(shell.cwd, path)

export const jobFolderOf = (shell: Where): string =>
  jobFolder({ env: shell.env, platform: process.platform, home: shell.env.HOME || homedir() })

export function tellTrouble(trouble: Trouble, shell: Pick<Shell, 'language' | 'err'>): void {
  for (const line of logWordsOf(shell.language).trouble(trouble)) shell.err(line)
}

/** The newest log in the folder of jobs; undefined once it has been told that there is none. */
export async function newestLog(shell: Shell): Promise<string | undefined> {
  const folder = jobFolderOf(shell)
  const found = await logsIn(folder)
  if (!found.ok) {
    tellTrouble(found.trouble, shell)
    return undefined
  }
  const [newest] = found.paths
  if (newest === undefined) shell.err(reportWordsOf(shell.language).jobs.none(folder))
  return newest
}

/** The log at a path with what is in it, or undefined once it has been told what is wrong. */
export async function logFrom(path: string, shell: Shell): Promise<Decoded | undefined> {
  const read = await readLog(path)
  if (read.ok) return read.log
  tellTrouble(read.trouble, shell)
  return undefined
}
