/** Why a job could not be opened, told; with the exit code for it. */
import type { OpenTrouble } from '../job/open.ts'
import { logWordsOf } from '../wording/report/language.ts'
import type { ExitCode, Shell } from './command.ts'

/** Says on standard error what stands in the way; 2, since all of it is for the person to mend. */
export function tellNotOpened(trouble: OpenTrouble, shell: Shell): ExitCode {
  const { language } = shell
  const { say } = language.program
  const lines = (): readonly string[] => {
    switch (trouble.kind) {
      case 'log':
        return logWordsOf(language).trouble(trouble.trouble)
      case 'plan':
        return trouble.problems.flatMap((p) => language.problem(p))
      case 'symptom':
        return [say.unknownSymptom(trouble.symptom, [], [])]
      case 'misfit':
        return logWordsOf(language).misfit(trouble)
      case 'over':
        return [say.jobIsOver(trouble.log)]
    }
  }
  for (const line of lines()) shell.err(line)
  return 2
}
