/**
 * `whichlead report [LOG]`: a page of a job that somebody else can read, as Markdown, as one HTML file, or as JSON.
 * Without a log: of the newest job. The form follows --html and --json, else the ending of --out.
 */
import { resolve } from 'node:path'
import type { Plan } from '../../core/plan/plan.ts'
import { logsIn } from '../../io/job-folder.ts'
import { writePage } from '../../io/page-file.ts'
import type { Decoded } from '../../job/log/decode.ts'
import { readLog } from '../../job/log/log.ts'
import { logWithoutNames } from '../../job/log/log-without-names.ts'
import { lastPlanCopy, planOf } from '../../job/log/plan-copy.ts'
import type { Trouble } from '../../job/log/trouble.ts'
import { assembleReport } from '../../job/report/assemble.ts'
import type { Report } from '../../job/report/record.ts'
import { withoutNames } from '../../job/report/without-names.ts'
import { markedRows } from '../../wording/drawing/cause.ts'
import { drawSvg } from '../../wording/drawing/svg.ts'
import { drawingWords } from '../../wording/en/drawing.ts'
import { findingWords } from '../../wording/en/findings.ts'
import type { PageMatter } from '../../wording/report/block.ts'
import { htmlReport } from '../../wording/report/html.ts'
import { logWordsOf, reportWordsOf } from '../../wording/report/language.ts'
import { markdownReport } from '../../wording/report/markdown.ts'
import { reportPage } from '../../wording/report/page.ts'
import { sceneOf } from '../../wording/report/scene.ts'
import type { ExitCode, Given, Run, Shell } from '../command.ts'
import { readJob } from '../history.ts'
import { folderOf } from '../logs.ts'

type Form = 'markdown' | 'html' | 'json'

function formOf(given: Given): Form {
  if (given.flags.has('html')) return 'html'
  if (given.flags.has('json')) return 'json'
  const ending = /\.(html?|json)$/i.exec(given.values.get('out') ?? '')?.[1]?.toLowerCase()
  return ending === 'json' ? 'json' : ending === undefined ? 'markdown' : 'html'
}

function refuse(trouble: Trouble, shell: Shell): 2 {
  for (const line of logWordsOf(shell.language).trouble(trouble)) shell.err(line)
  return 2
}

async function logPath(given: Given, shell: Shell): Promise<string | undefined> {
  const [path] = given.arguments
  if (path !== undefined) return resolve(shell.cwd, path)
  const found = await logsIn(folderOf(shell))
  // The newest that holds a job; the others need not be read.
  for (const log of found.ok ? found.paths : []) {
    const read = await readLog(log)
    if (read.ok && read.log.events[0]?.e === 'opened') return log
  }
  return undefined
}

function pageOf(
  form: Form,
  report: Report,
  log: Decoded,
  path: string,
  short: boolean,
  shell: Shell,
): string {
  if (form === 'json') return `${JSON.stringify({ ...report, log: path }, null, 2)}\n`
  const copy = lastPlanCopy(log.events)
  const plan = copy === undefined ? undefined : planOf(copy)
  const matter: PageMatter = {
    report,
    log: path,
    language: shell.language,
    words: reportWordsOf(shell.language),
    logWords: logWordsOf(shell.language),
    scene: sceneOf(plan?.ok ? plan.value : undefined, report.build),
    short,
  }
  const page = reportPage(matter)
  if (form === 'markdown') return markdownReport(page)
  return htmlReport(page, matter, plan?.ok && !short ? wiring(plan.value, report) : undefined)
}

/** The wiring with the way to the cause marked, as far as there is one. */
const wiring = (plan: Plan, report: Report): string =>
  drawSvg(plan, [], drawingWords, findingWords, markedRows(plan, report.suspects[0]))

async function put(text: string, given: Given, shell: Shell): Promise<ExitCode> {
  const out = given.values.get('out')
  if (out === undefined) {
    shell.stdout.write(text)
    return 0
  }
  const { say } = shell.language.program
  const written = await writePage(resolve(shell.cwd, out), text, given.flags.has('force'))
  if (written.ok) {
    shell.out(say.written(out))
    return 0
  }
  if (written.trouble.code !== 'exists') return refuse(written.trouble, shell)
  shell.err(say.file(out, 'exists'))
  return 2
}

export const run: Run = async (given, shell) => {
  const path = await logPath(given, shell)
  if (path === undefined) {
    shell.err(shell.language.program.say.noJobYet)
    return 2
  }
  const read = await readJob(path, given, shell)
  if (typeof read === 'number') return read
  if (!read.ok) return refuse(read.trouble, shell)
  const { log } = read
  const whole = assembleReport(log)
  if (whole === undefined) return refuse({ code: 'no-job', path, problems: log.problems, facts: {} }, shell)
  for (const problem of log.problems) shell.err(logWordsOf(shell.language).problem(problem))
  if (given.flags.has('as-log'))
    return put(logWithoutNames(log.events, reportWordsOf(shell.language).hidden), given, shell)
  const nameless = given.flags.has('without-names')
  const report = nameless ? withoutNames(whole, reportWordsOf(shell.language).hidden) : whole
  const name = nameless ? (path.split(/[/\\]/).at(-1) ?? path) : path
  return put(pageOf(formOf(given), report, log, name, given.flags.has('short'), shell), given, shell)
}
