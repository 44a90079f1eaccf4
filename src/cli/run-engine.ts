/** `whichlead engine --policy`: the engine between the two streams. Its lines may be far longer than a person's. */
import { createInterface } from 'node:readline'
import type { ExitCode, Run } from './command.ts'
import { runEngine } from './commands/engine.ts'

export const run: Run = async (given, shell) => {
  if (!given.flags.has('policy')) {
    shell.err(shell.language.program.say.engineNeedsPolicy)
    return 2
  }
  const input = createInterface({ input: shell.stdin, crlfDelay: Number.POSITIVE_INFINITY })
  const code = await runEngine(input, shell.out)
  input.close()
  shell.stdin.destroy()
  return code as ExitCode
}
