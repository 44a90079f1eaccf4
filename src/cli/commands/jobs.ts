/** `whichlead jobs [TEXT…]`: the jobs of this user, newest first, those that hold every word of the text. */
import { isFound, type Summary } from '../../job/report/summary.ts'
import { clean } from '../../wording/clean.ts'
import type { Language } from '../../wording/language.ts'
import { logWordsOf, reportWordsOf } from '../../wording/report-language.ts'
import { when } from '../../wording/report-page.ts'
import type { Run } from '../command.ts'
import { folderOf, jobsOf } from '../logs.ts'

/** Two lines a job: what, and where its log is. */
export function jobLines(job: Summary, language: Language): string[] {
  const words = reportWordsOf(language)
  const cause = job.cause ? `: ${job.cause.faults.map((f) => `${f.at}:${f.mode}`).join(', ')}` : ''
  return [
    `${when(job.began)}  ${clean(job.build)}: ${language.symptom(job.symptom).name}. ${words.outcome[job.outcome]}${clean(cause)}, ${language.labels.minutes(job.minutes)}`,
    `  ${clean(job.log)}`,
  ]
}

export const run: Run = async (given, shell) => {
  const { language } = shell
  const logs = await jobsOf(shell)
  if (!logs.ok) {
    for (const line of logWordsOf(language).trouble(logs.trouble)) shell.err(line)
    return 2
  }
  const text = given.arguments.join(' ')
  const found = logs.summaries.filter((s) => isFound(s, text))
  if (given.flags.has('json')) shell.out(JSON.stringify(found, null, 1))
  else if (found.length === 0) shell.out(language.program.say.noJobs(folderOf(shell)))
  for (const job of given.flags.has('json') ? [] : found)
    for (const line of jobLines(job, language)) shell.out(line)
  return 0
}
