/** `whichlead jobs [TEXT…]`: the jobs of this user, newest first, those that hold every word of the text. */
import { forget, recall } from '../../job/history/memory.ts'
import { sumsOf } from '../../job/history/sums.ts'
import { isFound, type Summary } from '../../job/report/summary.ts'
import { clean } from '../../wording/clean.ts'
import { learnedLines, sumLines } from '../../wording/jobs-history.ts'
import { jobsCsv } from '../../wording/jobs-list.ts'
import type { Language } from '../../wording/language.ts'
import { logWordsOf, reportWordsOf } from '../../wording/report-language.ts'
import { when } from '../../wording/report-page.ts'
import { sceneOf } from '../../wording/report-scene.ts'
import type { ExitCode, Given, Run, Shell } from '../command.ts'
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

async function learned(given: Given, shell: Shell): Promise<ExitCode> {
  const words = reportWordsOf(shell.language)
  const folder = folderOf(shell)
  if (given.flags.has('forget')) {
    if (await forget(folder, new Date().toISOString())) {
      shell.out(words.jobs.forgotten)
      return 0
    }
    shell.err(shell.language.program.say.file(folder, 'unwritable'))
    return 2
  }
  const memory = await recall(folder)
  const { since, lessons } = memory
  if (given.flags.has('json'))
    shell.out(
      JSON.stringify({ jobs: lessons.length, since, factors: Object.fromEntries(memory.learned) }, null, 1),
    )
  else
    for (const line of learnedLines({ lessons: lessons.length, learned: memory.learned, since }, words))
      shell.out(line)
  return 0
}

export const run: Run = async (given, shell) => {
  if (given.flags.has('learned') || given.flags.has('forget')) return learned(given, shell)
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
  if (given.flags.has('sums')) {
    const sums = sumsOf(found)
    const lines = given.flags.has('json')
      ? [JSON.stringify(sums, null, 1)]
      : sumLines(sums, reportWordsOf(language))
    for (const line of lines) shell.out(line)
  } else if (given.flags.has('json')) shell.out(JSON.stringify(found, null, 1))
  else if (given.flags.has('csv')) shell.stdout.write(jobsCsv(found))
  else if (logs.summaries.length === 0) shell.out(language.program.say.noJobs(folderOf(shell)))
  else if (found.length === 0) shell.out(words.notFound(text))
  else {
    for (const job of found) for (const line of jobLines(job, language)) shell.out(line)
    shell.out(words.total(found.length, found.filter((job) => job.outcome !== 'open').length))
  }
  return 0
}
