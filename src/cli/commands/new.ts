/** `whichlead new FILE`: writes a plan to start from. A file that is there is never replaced by accident. */
import { writeFile } from 'node:fs/promises'
import { resolve } from 'node:path'
import { failedBy } from '../../io/trouble.ts'
import { newPlan } from '../../wording/en/new-plan.ts'
import { logWordsOf } from '../../wording/report-language.ts'
import type { Run } from '../command.ts'

export const run: Run = async (given, shell) => {
  const [path = ''] = given.arguments
  const { language } = shell
  try {
    await writeFile(resolve(shell.cwd, path), newPlan, { flag: given.flags.has('force') ? 'w' : 'wx' })
  } catch (error) {
    const { trouble } = failedBy(error, path)
    const lines =
      trouble.code === 'exists'
        ? [language.program.say.file(path, 'exists')]
        : logWordsOf(language).trouble(trouble)
    for (const line of lines) shell.err(line)
    return 2
  }
  shell.out(language.program.say.written(path))
  shell.out(language.program.say.nextCheck(path))
  return 0
}
