/** `whichlead help [COMMAND]`, and the manual page. */
import type { Run } from '../command.ts'
import { COMMANDS, commandNamed } from '../commands.ts'
import { commandHelp, overview } from '../help-text.ts'
import { manPage } from '../man-page.ts'
import { near } from '../near.ts'

export const run: Run = async (given, shell) => {
  const [name] = given.arguments
  const { program } = shell.language
  if (given.flags.has('man')) {
    for (const line of manPage(program)) shell.out(line)
    return 0
  }
  const command = name === undefined ? undefined : commandNamed(name)
  if (name !== undefined && command === undefined) {
    shell.err(
      program.say.unknownCommand(
        name,
        near(
          name,
          COMMANDS.map((c) => c.name),
        ),
      ),
    )
    return 2
  }
  for (const line of command ? commandHelp(command, program) : overview(program)) shell.out(line)
  return 0
}
