/** `whichlead resume [LOG]`: takes up a job that was left, at the very question where it stopped. */
import { resolve } from 'node:path'
import { readPlanTexts } from '../../io/read-plan.ts'
import { resumeJob } from '../../job/open.ts'
import type { PlanGiven } from '../../job/plan-changed.ts'
import type { Session } from '../../job/view.ts'
import { logWordsOf } from '../../wording/report/language.ts'
import { beforeJob } from '../before-job.ts'
import type { ExitCode, Given, Run, Shell } from '../command.ts'
import { frontEndFor, runJob } from '../front-end.ts'
import { jobsOf } from '../logs.ts'
import { memoryFor } from '../memory.ts'
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

/** The plan as its file is now. A file that is gone is no trouble: the log has the plan; one with mistakes is told. */
function planNow(file: string, shell: Shell): PlanGiven | undefined {
  const { read, texts } = readPlanTexts(resolve(shell.cwd, file))
  if (read.ok) return { plan: read.value, copy: { ...texts, file } }
  if (texts.text !== '') shell.err(shell.language.program.say.planUnreadableNow(file))
  return undefined
}

async function open(given: Given, shell: Shell): Promise<Session | ExitCode> {
  const path = await logFor(given, shell)
  if (path === undefined) return 2
  const { learned } = await memoryFor(given, shell)
  const opening = await resumeJob({
    path,
    tool: version,
    clock: Date.now,
    salvage: given.flags.has('salvage'),
    learned,
    ...(given.flags.has('keep-plan') ? {} : { planNow: (file: string) => planNow(file, shell) }),
  })
  if (!opening.ok) return tellNotOpened(opening.trouble, shell)
  for (const problem of opening.problems) shell.err(logWordsOf(shell.language).problem(problem))
  return opening.session
}

export const run: Run = async (given, shell) => {
  const frontEnd = frontEndFor(given, shell)
  const session = await beforeJob(frontEnd, shell, (telling) => open(given, telling))
  if (typeof session === 'number') return session
  return runJob(session, { frontEnd, plan: session.view().plan.build }, given, shell)
}
