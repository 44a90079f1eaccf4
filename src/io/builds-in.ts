/** The wiring plans in a folder, by the ending that plans have; none where the folder cannot be read. */
import { readdir } from 'node:fs/promises'

export async function buildsIn(folder: string): Promise<string[]> {
  try {
    return (await readdir(folder)).filter((name) => /\.build\.ya?ml$/.test(name)).sort()
  } catch {
    return []
  }
}
