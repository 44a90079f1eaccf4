/**
 * Where job logs live and what they are called. The folder follows the XDG base directory specification (state: "data
 * that should persist between restarts but is not important or portable enough for the data folder"), or the
 * system's own place where that is another. Names sort by time and can be read: date, time, build, symptom.
 */
import { mkdir, readdir } from 'node:fs/promises'
import { isAbsolute, join } from 'node:path'
import { type Done, failed, failedBy } from './trouble.ts'

const LOG_END = '.ndjson'

export interface Surroundings {
  readonly env: Readonly<Record<string, string | undefined>>
  readonly platform: string
  readonly home: string
}

/** The folder for job logs. A relative path in `XDG_STATE_HOME` is ignored, as the specification asks. */
export function jobFolder({ env, platform, home }: Surroundings): string {
  const state = env.XDG_STATE_HOME
  if (state !== undefined && isAbsolute(state)) return join(state, 'whichlead', 'jobs')
  if (platform === 'win32') {
    const local = env.LOCALAPPDATA
    return join(
      local !== undefined && isAbsolute(local) ? local : join(home, 'AppData', 'Local'),
      'whichlead',
      'jobs',
    )
  }
  if (platform === 'darwin') return join(home, 'Library', 'Application Support', 'whichlead', 'jobs')
  return join(home, '.local', 'state', 'whichlead', 'jobs')
}

/** Makes the folder, for its user only, where it is not there yet. */
export async function makeJobFolder(path: string): Promise<Done<object>> {
  try {
    await mkdir(path, { recursive: true, mode: 0o700 })
    return { ok: true }
  } catch (error) {
    const trouble = failedBy(error, path)
    return trouble.trouble.code === 'exists' ? failed('folder-missing', path) : trouble
  }
}

/** Bytes that one word of a name may take: names of 255 bytes are the limit of common file systems. */
const LONGEST_WORD = 80

/** Letters and digits of any script, the rest as single hyphens; `job` where nothing is left. */
export function nameWord(text: string): string {
  const word = text
    .normalize('NFC')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}\p{M}]+/gu, '-')
  let short = ''
  let bytes = 0
  for (const char of word) {
    bytes += new TextEncoder().encode(char).length
    if (bytes > LONGEST_WORD) break
    short += char
  }
  return short.replace(/^-+|-+$/g, '') || 'job'
}

/**
 * `2026-03-03-093000-reading-room-lights-dark.ndjson`; the time is UTC, `at` ISO text. A second job in the same
 * second gets `-2`, and so on.
 */
export function logName(at: string, build: string, symptom: string, nth = 1): string {
  const time = `${at.slice(0, 10)}-${at.slice(11, 19).replaceAll(':', '')}`
  return `${time}-${nameWord(build)}-${nameWord(symptom)}${nth > 1 ? `-${nth}` : ''}${LOG_END}`
}

/** Paths of the logs in the folder, latest name first; none where there is no folder yet. */
export async function logsIn(folder: string): Promise<Done<{ paths: readonly string[] }>> {
  try {
    const names = await readdir(folder)
    const logs = names.filter((name) => name.endsWith(LOG_END) && !name.startsWith('.'))
    return { ok: true, paths: logs.sort((a, b) => (a < b ? 1 : -1)).map((name) => join(folder, name)) }
  } catch (error) {
    const trouble = failedBy(error, folder)
    return trouble.trouble.code === 'missing' ? { ok: true, paths: [] } : trouble
  }
}
