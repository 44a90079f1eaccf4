/** The demo build that comes with the program, beside it in its package; undefined where only the program itself was copied. */
import { existsSync } from 'node:fs'
import { dirname, join } from 'node:path'

const FILE = ['docs', 'examples', 'archive-ten-fans.build.yaml']

/** @param program path of the program's file, in a folder of its own inside the package */
export function demoBuild(program: string | undefined): string | undefined {
  if (program === undefined) return undefined
  const path = join(dirname(dirname(program)), ...FILE)
  return existsSync(path) ? path : undefined
}
