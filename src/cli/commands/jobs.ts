/** `whichlead jobs [TEXT…]`: the jobs of this user, newest first, those that hold every word of the text. */
import type { Query, StoreTrouble } from '../../job/history/history.ts'
import { learnFrom } from '../../job/history/learn.ts'
import { forget } from '../../job/history/memory.ts'
import { dropShared } from '../../job/history/shared-counts.ts'
import type { Summary } from '../../job/report/summary.ts'
import { wrap } from '../../plain/wrap.ts'
import { clean } from '../../wording/clean.ts'
import { learnedLines, sumLines } from '../../wording/jobs-history.ts'
import { jobsCsv } from '../../wording/jobs-list.ts'
import type { Language } from '../../wording/language.ts'
import { reportWordsOf } from '../../wording/report/language.ts'
import { sceneOf } from '../../wording/report/scene.ts'
import { storeWordsOf } from '../../wording/store-words.ts'
import type { ExitCode, Given, Run, Shell } from '../command.ts'
import { handInAll, type Opened, openHistory } from '../history.ts'
import { filtersOf } from '../jobs-query.ts'
import { folderOf } from '../logs.ts'

/** Two lines a job: what, and where its log is. */
export function jobLines(job: Summary, language: Language): string[] {
  const words = reportWordsOf(language)
  const scene = sceneOf(undefined, job.build)
  const names = job.cause?.faults.map((fault) => language.fault(fault, scene).name)
  const cause = names === undefined ? '' : `: ${language.list(names)}`
  const damaged = job.damaged ? ` (${words.jobs.damaged})` : ''
  return [
    `${clean(language.labels.moment(job.began))}  ${clean(job.build)}: ${language.symptom(job.symptom).name} – ${words.outcome[job.outcome]}${cause}, ${language.labels.minutes(job.minutes)}${damaged}`,
    `  ${clean(job.log)}`,
  ]
}

/** A line for a person, broken between words at a terminal. */
const tell = (line: string, { out, stdout }: Shell): void =>
  out(wrap(line, stdout.isTTY ? stdout.columns : undefined))

async function learned({ history, shared }: Opened, given: Given, shell: Shell): Promise<ExitCode> {
  const words = reportWordsOf(shell.language)
  if (given.flags.has('forget')) {
    const now = new Date().toISOString()
    const done = await history.forget(now)
    if (!done.ok) return refuse(done.trouble, shell)
    // When the store is away, what this bench learnt from it or by itself counts.
    if (shared !== undefined) {
      await dropShared(folderOf(shell))
      await forget(folderOf(shell), now)
    }
    tell(shared === undefined ? words.jobs.forgotten : storeWordsOf(shell.language).forgotten(shared), shell)
    return 0
  }
  const read = await history.taught()
  if (!read.ok) return refuse(read.trouble, shell)
  const { counts, since } = read.taught
  const factors = learnFrom(counts)
  if (given.flags.has('json'))
    shell.out(JSON.stringify({ jobs: counts.jobs, since, factors: Object.fromEntries(factors) }, null, 1))
  else
    for (const line of learnedLines({ lessons: counts.jobs, learned: factors, since }, words))
      tell(line, shell)
  return 0
}

function refuse(trouble: StoreTrouble, shell: Shell): 2 {
  shell.err(storeWordsOf(shell.language).trouble(trouble))
  return 2
}

/** Where many benches fill a list it ends somewhere: for people, and for the memory of this machine. */
const LISTED = 200
const MOST = 100_000

/** What is looked for; undefined where a value was none that fits, which was said. */
function queryOf(given: Given, shell: Shell, shared: boolean): Query | undefined {
  const whole = given.flags.has('json') || given.flags.has('csv')
  const limit = given.values.get('limit') ?? (shared ? String(whole ? MOST : LISTED) : undefined)
  if (limit !== undefined && !/^[1-9]\d{0,8}$/.test(limit)) {
    shell.err(storeWordsOf(shell.language).badLimit(limit))
    return undefined
  }
  const filters = filtersOf(given, shell)
  return filters && { ...filters, ...(limit === undefined ? {} : { limit: Number(limit) }) }
}

function noneFound({ words = '', limit: _, ...filters }: Query, where: string, language: Language): string {
  if (Object.keys(filters).length > 0) return reportWordsOf(language).jobs.noneFits
  return words === '' ? language.program.say.noJobs(where) : reportWordsOf(language).jobs.notFound(words)
}

async function listed(opened: Opened, given: Given, shell: Shell): Promise<ExitCode> {
  const { history, shared } = opened
  const { language } = shell
  const words = reportWordsOf(language)
  const query = queryOf(given, shell, shared !== undefined)
  if (query === undefined) return 2
  if (given.flags.has('sums')) {
    const read = await history.sums(query)
    if (!read.ok) return refuse(read.trouble, shell)
    if (given.flags.has('json')) shell.out(JSON.stringify(read.sums, null, 1))
    else for (const line of sumLines(read.sums, words)) tell(line, shell)
    return 0
  }
  const read = await history.find(query)
  if (!read.ok) return refuse(read.trouble, shell)
  const { jobs, more, unreadable } = read.found
  for (const path of unreadable) shell.err(words.jobs.unreadable(path))
  if (given.flags.has('json')) shell.out(JSON.stringify(jobs, null, 1))
  else if (given.flags.has('csv')) shell.stdout.write(jobsCsv(jobs))
  else if (jobs.length === 0) tell(noneFound(query, shared ?? folderOf(shell), language), shell)
  else {
    for (const job of jobs) for (const line of jobLines(job, language)) tell(line, shell)
    tell(words.jobs.total(jobs.length, jobs.filter((job) => job.outcome !== 'open').length), shell)
  }
  if (more) shell.err(storeWordsOf(language).more(jobs.length))
  return 0
}

export const run: Run = async (given, shell) => {
  if (given.flags.has('hand-in')) return handInAll(given, shell)
  // What is forgotten is forgotten by all who share a store, or not at all.
  const opened = await openHistory(given, shell, given.flags.has('forget'))
  if (typeof opened === 'number') return opened
  try {
    const teaching = given.flags.has('learned') || given.flags.has('forget')
    return await (teaching ? learned : listed)(opened, given, shell)
  } finally {
    await opened.history.close()
  }
}
