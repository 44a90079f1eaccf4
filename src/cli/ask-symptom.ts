/** Asks what is wrong, before there is a job: from a menu on a screen, from a numbered list line by line. */
import { WHICH_SYMPTOM } from '../../flows/which-symptom.ts'
import { runChoices } from '../plain/choice.ts'
import type { InputLine } from '../plain/lines-in.ts'
import type { ExitCode, Given, Shell } from './command.ts'
import { factsOf, prepareForScreen, talkOf } from './front-end.ts'

/** Who is helped to the symptom has named no other. */
const alone = (chosen: readonly string[]): readonly string[] =>
  chosen.includes(WHICH_SYMPTOM) ? [WHICH_SYMPTOM] : chosen

/**
 * Help with finding it comes first in the list, and is taken where nothing else is said.
 * @param lines given where the talk goes line by line. Resolves to the symptoms, or to the exit code of leaving.
 */
export async function askSymptoms(
  ids: readonly string[],
  lines: AsyncIterable<InputLine> | undefined,
  given: Given,
  shell: Shell,
): Promise<readonly string[] | ExitCode> {
  const { language } = shell
  const all = [
    { id: WHICH_SYMPTOM, ...language.helpMe },
    ...ids.map((id) => ({ id, ...language.symptom(id) })),
  ]
  if (lines !== undefined) {
    const choices = all.map(({ id, name, means }) => ({ id, name, hint: means }))
    const talk = talkOf(shell, lines, given.flags.has('ascii'))
    const chosen = await runChoices(language.program.say.chooseSymptom, choices, talk, language, {
      usual: WHICH_SYMPTOM,
      many: language.program.say.chooseSeveral,
    })
    if (chosen === null) shell.stdin.destroy()
    return chosen === null ? 0 : alone(chosen)
  }
  prepareForScreen(shell)
  const { chooseSeveral } = await import('../ui/choose-several.tsx')
  const ascii = given.flags.has('ascii') || !factsOf(shell).unicode
  const { stdin, stdout } = shell
  const rows = all.map(({ id, name, means }) => ({
    id,
    label: name,
    hint: means,
    ...(id === WHICH_SYMPTOM ? { alone: true as const } : {}),
  }))
  const title = language.screen.choose.symptom
  const chosen = await chooseSeveral(rows, { title, language, ascii, stdin, stdout })
  return chosen.ids === null ? (chosen.code as ExitCode) : alone(chosen.ids)
}
