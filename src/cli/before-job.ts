/**
 * What happens before a job is open. Mistakes go to standard error for a person; where a program is at the other end,
 * it gets them as a problem line too, since it does not read the other stream.
 */
import type { ToolLine } from '../plain/protocol.ts'
import type { ExitCode, Shell } from './command.ts'
import type { FrontEnd } from './front-end.ts'

/** Runs what leads up to a job; an exit code from it means that there is none. */
export async function beforeJob<T extends object>(
  frontEnd: FrontEnd,
  shell: Shell,
  open: (shell: Shell) => Promise<T | ExitCode>,
): Promise<T | ExitCode> {
  if (frontEnd !== 'lines') return open(shell)
  const told: string[] = []
  const opened = await open({
    ...shell,
    err: (line) => {
      told.push(line.trim())
      shell.err(line)
    },
  })
  if (typeof opened === 'number' && opened !== 0) {
    const problem: ToolLine = { type: 'problem', text: told.join(' '), expected: [] }
    shell.out(JSON.stringify(problem))
  }
  return opened
}
