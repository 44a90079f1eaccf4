/** `whichlead resume [LOG]`: takes up a job that was left, at the very question where it stopped. */
import { resolve } from 'node:path'
import { resumeJob } from '../../job/open.ts'
import { logWordsOf } from '../../wording/report-language.ts'
import type { Given, Run, Shell } from '../command.ts'
import { frontEndFor, runJob } from '../front-end.ts'
import { jobsOf } from '../logs.ts'
import { tellNotOpened } from '../not-opened.ts'
import { version } from '../version.ts'

/** The log that was named, or the newest job that has no end. */
async function logFor(given: Given, shell: Shell): Promise<string | undefined> {
  const [path] = given.arguments
  if (path !== undefined) return resolve(shell.cwd, path)
  const logs = await jobsOf(shell)
  const open = logs.ok ? logs.summaries.find((s) => s.outcome === 'open' || s.outcome === 'left') : undefined
  if (open === undefined) shell.err(shell.language.program.say.noOpenJob)
  return open?.log
}

export const run: Run = async (given, shell) => {
  const path = await logFor(given, shell)
  if (path === undefined) return 2
  const salvage = given.flags.has('salvage')
  const opening = await resumeJob({ path, tool: version, clock: Date.now, salvage })
  if (!opening.ok) return tellNotOpened(opening.trouble, shell)
  for (const problem of opening.problems) shell.err(logWordsOf(shell.language).problem(problem))
  const frontEnd = frontEndFor(given, shell)
  return runJob(opening.session, { frontEnd, plan: opening.session.view().plan.build }, given, shell)
}
