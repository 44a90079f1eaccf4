/** `whichlead jobs [TEXT…]`: the jobs of this user, newest first, those that hold every word of the text. */
import { isFound, type Summary } from '../../job/report/summary.ts'
import { clean } from '../../wording/clean.ts'
import { jobsCsv } from '../../wording/jobs-list.ts'
import type { Language } from '../../wording/language.ts'
import { logWordsOf, reportWordsOf } from '../../wording/report-language.ts'
import { when } from '../../wording/report-page.ts'
import { sceneOf } from '../../wording/report-scene.ts'
import type { Run } from '../command.ts'
import { folderOf, jobsOf } from '../logs.ts'

/** Two lines a job: what, and where its log is. */
export function jobLines(job: Summary, language: Language): string[] {
  const words = reportWordsOf(language)
  const scene = sceneOf(undefined, job.build)
  const names = job.cause?.faults.map((fault) => language.fault(fault, scene).name)
  const cause = names === undefined ? '' : `: ${language.list(names)}`
  const damaged = job.damaged ? ` (${words.jobs.damaged})` : ''
  return [
    `${when(job.began)}  ${clean(job.build)}: ${language.symptom(job.symptom).name}. ${words.outcome[job.outcome]}${cause}, ${language.labels.minutes(job.minutes)}${damaged}`,
    `  ${clean(job.log)}`,
  ]
}

export const run: Run = async (given, shell) => {
  const { language } = shell
  const words = reportWordsOf(language).jobs
  const logs = await jobsOf(shell)
  if (!logs.ok) {
    for (const line of logWordsOf(language).trouble(logs.trouble)) shell.err(line)
    return 2
  }
  for (const path of logs.unreadable) shell.err(words.unreadable(path))
  const text = given.arguments.join(' ')
  const found = logs.summaries.filter((s) => isFound(s, text))
  if (given.flags.has('json')) shell.out(JSON.stringify(found, null, 1))
  else if (given.flags.has('csv')) shell.stdout.write(jobsCsv(found))
  else if (logs.summaries.length === 0) shell.out(language.program.say.noJobs(folderOf(shell)))
  else if (found.length === 0) shell.out(words.notFound(text))
  else {
    for (const job of found) for (const line of jobLines(job, language)) shell.out(line)
    shell.out(words.total(found.length, found.filter((job) => job.outcome !== 'open').length))
  }
  return 0
}
