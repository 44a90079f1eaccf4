/**
 * A command line without a process of its own, for mistakes that are found by the same lines however the program was built.
 * What a process, its streams or the packed program add is for `call` in `program.ts`.
 */
import { PassThrough } from 'node:stream'
import { start } from '../../src/cli/start.ts'
import { type Called, envIn } from './program.ts'

/** Runs it in that folder to its end, with `input` as all that is typed. */
export async function startHere(
  folder: string,
  args: readonly string[],
  how: { input?: string; env?: Readonly<Record<string, string>> } = {},
): Promise<Called> {
  const said = { out: '', err: '' }
  const stream = (name: 'out' | 'err') =>
    ({
      write: (text: string) => {
        said[name] += text
        return true
      },
    }) as unknown as NodeJS.WriteStream
  const stdin = new PassThrough() as unknown as NodeJS.ReadStream & PassThrough
  stdin.end(how.input ?? '')
  const code = await start(args, {
    cwd: folder,
    env: { ...envIn(folder), ...how.env },
    stdin,
    stdout: stream('out'),
    stderr: stream('err'),
  })
  return { code, ...said }
}
