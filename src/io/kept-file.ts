/** A small file that the program keeps for itself; one that is missing or unreadable is as good as none. */
import { readFile, rm, stat } from 'node:fs/promises'

/** The text, or undefined where there is none to be had. */
export const keptText = (path: string): Promise<string | undefined> =>
  readFile(path, 'utf8').catch(() => undefined)

/** So that it is made anew. */
export const dropKept = (path: string): Promise<void> => rm(path, { force: true })

/** Bytes and time of the last change, as one text that differs when the file does. */
export const markOf = (path: string): Promise<string | undefined> =>
  stat(path).then(
    (s) => `${s.size} ${Math.round(s.mtimeMs)}`,
    () => undefined,
  )
