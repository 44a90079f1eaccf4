/**
 * `whichlead new [FILE]`: begins a plan by questions, asked line by line at a terminal or from a pipe. Without a file the
 * plan goes to standard output, and the questions to standard error. A file that is there is never replaced by accident.
 */
import { resolve } from 'node:path'
import { startPlan } from '../../core/plan/start-plan.ts'
import type { StartAnswersGiven } from '../../core/plan/start-questions.ts'
import { isThere, writePage } from '../../io/page-file.ts'
import { askPlan } from '../../plain/ask-plan.ts'
import { startWords } from '../../wording/en/new-plan.ts'
import { logWordsOf } from '../../wording/report/language.ts'
import type { Given, Run, Shell } from '../command.ts'
import { talkOf, typedLines } from '../front-end.ts'

async function answersFor(
  given: Given,
  file: string | undefined,
  shell: Shell,
): Promise<StartAnswersGiven | null> {
  if (given.flags.has('usual')) return {}
  const talk = talkOf(shell, typedLines(shell), given.flags.has('ascii'))
  const write = file === undefined ? (text: string) => void shell.stderr.write(text) : talk.write
  try {
    return await askPlan({ ...talk, write }, startWords, shell.language)
  } finally {
    // A pipe that is still open would keep the program running.
    shell.stdin.destroy()
  }
}

export const run: Run = async (given, shell) => {
  const file = given.values.get('out') ?? given.arguments[0]
  const { say } = shell.language.program
  const path = file === undefined ? undefined : resolve(shell.cwd, file)
  const replace = given.flags.has('force')
  // Told before twenty questions are asked, not after.
  if (file !== undefined && path !== undefined && !replace && isThere(path)) {
    shell.err(say.file(file, 'exists'))
    return 2
  }
  const answers = await answersFor(given, file, shell)
  if (answers === null) {
    shell.err(startWords.nothingWritten)
    return 0
  }
  const text = startPlan(answers, startWords.remarks)
  if (file === undefined || path === undefined) {
    shell.out(text.trimEnd())
    return 0
  }
  const written = await writePage(path, text, replace)
  if (!written.ok) {
    const { trouble } = written
    const told =
      trouble.code === 'exists' ? [say.file(file, 'exists')] : logWordsOf(shell.language).trouble(trouble)
    for (const line of told) shell.err(line)
    return 2
  }
  shell.out(say.written(file))
  shell.out(say.nextCheck(file))
  return 0
}
