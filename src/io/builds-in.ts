/** The wiring plans in a folder, by the ending that plans have; none where the folder cannot be read. */
import { existsSync } from 'node:fs'
import { readdir } from 'node:fs/promises'
import { join } from 'node:path'

/** Names without the folder, sorted. */
export async function buildsIn(folder: string): Promise<string[]> {
  try {
    return (await readdir(folder)).filter((name) => /\.build\.ya?ml$/.test(name)).sort()
  } catch {
    return []
  }
}

/** A name for a new plan that is still free in this folder. */
export function freeBuildName(folder: string): string {
  for (let nth = 1; ; nth++) {
    const name = nth === 1 ? 'my.build.yaml' : `my-${nth}.build.yaml`
    if (!existsSync(join(folder, name))) return name
  }
}
