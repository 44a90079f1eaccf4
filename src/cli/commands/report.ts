/** `whichlead report [LOG]`: a page of a job that somebody else can read, as Markdown, HTML or JSON. */
import { writeFile } from 'node:fs/promises'
import { resolve } from 'node:path'
import { failedBy } from '../../io/trouble.ts'
import { readLog } from '../../job/log/log.ts'
import { lastPlanCopy, planOf } from '../../job/log/plan-copy.ts'
import { assembleReport, type Report } from '../../job/report/record.ts'
import { withoutNames } from '../../job/report/without-names.ts'
import { htmlReport } from '../../wording/report-html.ts'
import { logWordsOf, reportWordsOf } from '../../wording/report-language.ts'
import { markdownReport } from '../../wording/report-markdown.ts'
import { type PageMatter, reportPage } from '../../wording/report-page.ts'
import { sceneOf } from '../../wording/report-scene.ts'
import type { ExitCode, Given, Run, Shell } from '../command.ts'
import { jobsOf } from '../logs.ts'

async function logPath(given: Given, shell: Shell): Promise<string | undefined> {
  const [path] = given.arguments
  if (path !== undefined) return resolve(shell.cwd, path)
  const logs = await jobsOf(shell)
  return logs.ok ? logs.summaries[0]?.log : undefined
}

function written(report: Report, given: Given, matter: Omit<PageMatter, 'report'>): string {
  if (given.flags.has('json')) return `${JSON.stringify(report, null, 1)}\n`
  const all: PageMatter = { report, ...matter }
  const page = reportPage(all)
  return given.flags.has('html') ? htmlReport(page, all) : markdownReport(page)
}

async function put(text: string, given: Given, shell: Shell): Promise<ExitCode> {
  const out = given.values.get('out')
  if (out === undefined) {
    shell.stdout.write(text)
    return 0
  }
  const { language } = shell
  try {
    await writeFile(resolve(shell.cwd, out), text, { flag: given.flags.has('force') ? 'w' : 'wx' })
  } catch (error) {
    const { trouble } = failedBy(error, out)
    const lines =
      trouble.code === 'exists'
        ? [language.program.say.file(out, 'exists')]
        : logWordsOf(language).trouble(trouble)
    for (const line of lines) shell.err(line)
    return 2
  }
  shell.out(language.program.say.written(out))
  return 0
}

export const run: Run = async (given, shell) => {
  const { language } = shell
  const logWords = logWordsOf(language)
  const path = await logPath(given, shell)
  if (path === undefined) {
    shell.err(language.program.say.noJobYet)
    return 2
  }
  const read = await readLog(path)
  if (!read.ok) {
    for (const line of logWords.trouble(read.trouble)) shell.err(line)
    return 2
  }
  const whole = assembleReport(read.log)
  if (whole === undefined) {
    for (const line of logWords.trouble({ code: 'no-job', path, problems: read.log.problems, facts: {} }))
      shell.err(line)
    return 2
  }
  const words = reportWordsOf(language)
  const report = given.flags.has('no-names') ? withoutNames(whole, words.hidden) : whole
  const copy = lastPlanCopy(read.log.events)
  const plan = copy === undefined ? undefined : planOf(copy)
  const scene = sceneOf(plan?.ok ? plan.value : undefined, report.build)
  const matter = { log: path, language, words, logWords, scene, short: given.flags.has('short') }
  return put(written(report, given, matter), given, shell)
}
