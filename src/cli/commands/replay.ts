/**
 * `whichlead replay LOG`: a job as it went, a step at a time, for teaching. Enter shows the next step; without a
 * terminal all of it comes at once. Reads the log and changes nothing.
 */
import { resolve } from 'node:path'
import { lastPlanCopy, planOf } from '../../job/log/plan-copy.ts'
import { assembleReport } from '../../job/report/assemble.ts'
import { wrap } from '../../plain/wrap.ts'
import { asAscii } from '../../wording/ascii.ts'
import { replayPages } from '../../wording/replay-lines.ts'
import { logWordsOf, reportWordsOf } from '../../wording/report/language.ts'
import { sceneOf } from '../../wording/report/scene.ts'
import type { Run, Shell } from '../command.ts'
import { factsOf, typedLines } from '../front-end.ts'
import { readJob } from '../history.ts'

async function show(pages: readonly (readonly string[])[], ascii: boolean, shell: Shell): Promise<void> {
  const columns = shell.stdout.isTTY ? shell.stdout.columns : undefined
  const steps =
    shell.stdin.isTTY && shell.stdout.isTTY ? typedLines(shell)[Symbol.asyncIterator]() : undefined
  for (const [i, page] of pages.entries()) {
    for (const line of ['', ...page]) shell.out(wrap(ascii ? asAscii(line) : line, columns))
    if (steps === undefined || i === pages.length - 1) continue
    shell.stdout.write(shell.language.program.say.replayNext)
    // The end of the input, or a word such as q, ends it.
    const typed = await steps.next()
    if (typed.done || ('text' in typed.value && typed.value.text.trim() !== '')) return
  }
}

export const run: Run = async (given, shell) => {
  const path = resolve(shell.cwd, given.arguments[0] ?? '')
  const words = logWordsOf(shell.language)
  const read = await readJob(path, given, shell)
  if (typeof read === 'number') return read
  const refuse = (lines: readonly string[]) => {
    for (const line of lines) shell.err(line)
    return 2 as const
  }
  if (!read.ok) return refuse(words.trouble(read.trouble))
  const report = assembleReport(read.log)
  if (report === undefined)
    return refuse(words.trouble({ code: 'no-job', path, problems: read.log.problems, facts: {} }))
  for (const problem of read.log.problems) shell.err(words.problem(problem))
  const copy = lastPlanCopy(read.log.events)
  const plan = copy === undefined ? undefined : planOf(copy)
  const scene = sceneOf(plan?.ok ? plan.value : undefined, report.build)
  const pages = replayPages({ report, language: shell.language, words: reportWordsOf(shell.language), scene })
  await show(pages, given.flags.has('ascii') || !factsOf(shell).unicode, shell)
  shell.stdin.destroy()
  return 0
}
