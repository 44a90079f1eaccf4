/** `whichlead new FILE`: writes a plan to start from. A file that is there is never replaced by accident. */
import { resolve } from 'node:path'
import { writePage } from '../../io/page-file.ts'
import { newPlan } from '../../wording/en/new-plan.ts'
import { logWordsOf } from '../../wording/report-language.ts'
import type { Run } from '../command.ts'

export const run: Run = async (given, shell) => {
  const [path = ''] = given.arguments
  const { say } = shell.language.program
  const written = await writePage(resolve(shell.cwd, path), newPlan, given.flags.has('force'))
  if (!written.ok) {
    const { trouble } = written
    const told =
      trouble.code === 'exists' ? [say.file(path, 'exists')] : logWordsOf(shell.language).trouble(trouble)
    for (const line of told) shell.err(line)
    return 2
  }
  shell.out(say.written(path))
  shell.out(say.nextCheck(path))
  return 0
}
