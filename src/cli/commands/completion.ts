/** `whichlead completion SHELL`: a script that the shell reads to complete commands and options. */
import { flows } from '../../../flows/all.ts'
import type { Run } from '../command.ts'
import { completionFor, SHELLS } from '../completion.ts'

export const run: Run = async (given, shell) => {
  const [name = ''] = given.arguments
  const known = SHELLS.find((s) => s === name)
  if (known === undefined) {
    shell.err(shell.language.program.say.unknownShell(name, SHELLS))
    return 2
  }
  const ids = flows.map((f) => f.id)
  for (const line of completionFor(known, ids, shell.language.program)) shell.out(line)
  return 0
}
