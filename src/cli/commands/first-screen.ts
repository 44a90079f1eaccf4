/** `whichlead` alone: what can be done here. Jobs to take up again, builds in this folder, or how to begin; a menu at a terminal. */
import { buildsIn } from '../../io/builds-in.ts'
import { SMALLEST } from '../../io/terminal.ts'
import { clean } from '../../wording/clean.ts'
import { shellWord } from '../../wording/shell-word.ts'
import type { Run } from '../command.ts'
import { factsOf } from '../front-end.ts'
import { jobsOf } from '../logs.ts'
import { runStartMenu } from '../start-menu.ts'
import { jobLines } from './jobs.ts'

const MOST = 5

export const run: Run = async (given, shell) => {
  const { language } = shell
  const { start } = language.program.say
  const logs = await jobsOf(shell)
  const open = logs.ok
    ? logs.summaries.filter((s) => s.outcome === 'open' || s.outcome === 'left').slice(0, MOST)
    : []
  const { screen, spoken, columns, rows } = factsOf(shell)
  if (screen && !spoken && columns >= SMALLEST.columns && rows >= SMALLEST.rows)
    return runStartMenu(open, given, shell)
  const builds = await buildsIn(shell.cwd)
  shell.out(language.program.summary)
  if (open.length > 0) {
    shell.out('')
    shell.out(start.jobs)
    for (const job of open) {
      for (const line of jobLines(job, language).slice(0, 1)) shell.out(`  ${line}`)
      shell.out(`    whichlead resume ${clean(shellWord(job.log))}`)
    }
  }
  shell.out('')
  if (builds.length === 0) for (const line of start.nothing) shell.out(line)
  else {
    shell.out(start.builds)
    for (const name of builds) shell.out(`  whichlead diagnose ${clean(shellWord(name))}`)
  }
  shell.out('')
  shell.out(start.more)
  return 0
}
