/** Asks what is wrong, before there is a job: from a menu on a screen, from a numbered list line by line. */
import { runChoice } from '../plain/choice.ts'
import type { InputLine } from '../plain/lines-in.ts'
import type { ExitCode, Given, Shell } from './command.ts'
import { factsOf, prepareForScreen, talkOf } from './front-end.ts'

/** @param lines given where the talk goes line by line. Resolves to the symptom, or to the exit code of leaving. */
export async function askSymptom(
  ids: readonly string[],
  lines: AsyncIterable<InputLine> | undefined,
  given: Given,
  shell: Shell,
): Promise<string | ExitCode> {
  const { language } = shell
  if (lines !== undefined) {
    const choices = ids.map((id) => {
      const { name, means } = language.symptom(id)
      return { id, name, hint: means }
    })
    const talk = talkOf(shell, lines, given.flags.has('ascii'))
    const chosen = await runChoice(language.program.say.chooseSymptom, choices, talk, language)
    if (chosen === null) shell.stdin.destroy()
    return chosen ?? 0
  }
  const colour = prepareForScreen(shell)
  const { chooseSymptom } = await import('../ui/chooser.tsx')
  const ascii = given.flags.has('ascii') || !factsOf(shell).unicode
  const { stdin, stdout } = shell
  const chosen = await chooseSymptom(ids, { language, ascii, colour, stdin, stdout })
  return chosen.id ?? (chosen.code as ExitCode)
}
