/**
 * The built program as a process: which Node runs it (`WHICHLEAD_NODE`, else the one that runs the tests), in an
 * environment of its own, with a folder of its own for what it keeps.
 */
import { spawnSync } from 'node:child_process'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'

const here = (path: string): string => fileURLToPath(new URL(path, import.meta.url))

export const NODE: string = process.env.WHICHLEAD_NODE ?? process.execPath
/** `WHICHLEAD_PROGRAM` names another build to be tried. */
export const PROGRAM: string = process.env.WHICHLEAD_PROGRAM ?? here('../../dist/whichlead.mjs')

export const TEN: string = here('../../docs/examples/archive-ten-fans.build.yaml')
export const SMALL: string = here('../../docs/examples/small-three-fans.build.yaml')

/** Compiled code is kept for all tests together, as it is for a person: half of a short run is compiling. `code-cache.test.ts` has its own. */
const CODE: string = here('../../node_modules/.cache')

/** Nothing of the person's own settings reaches the program; all else that it keeps stays in the folder. */
export const envIn = (folder: string): Record<string, string> => ({
  PATH: process.env.PATH ?? '',
  HOME: folder,
  XDG_CACHE_HOME: CODE,
  XDG_STATE_HOME: join(folder, 'state'),
})

export interface Called {
  readonly code: number | null
  readonly out: string
  readonly err: string
}

/** Runs it to its end, with `input` as all that is typed. */
export function call(
  folder: string,
  args: readonly string[],
  how: { input?: string; env?: Readonly<Record<string, string>> } = {},
): Called {
  const { status, stdout, stderr } = spawnSync(NODE, [PROGRAM, ...args], {
    cwd: folder,
    env: { ...envIn(folder), ...how.env },
    encoding: 'utf8',
    input: how.input ?? '',
    timeout: 60_000,
    maxBuffer: 64 * 1024 * 1024,
  })
  return { code: status, out: stdout, err: stderr }
}
