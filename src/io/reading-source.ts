/**
 * Where a reading comes from: a file (a named pipe too), the hwmon files of this machine, or the clipboard. Only ever
 * read; writing to hwmon files can stop the cooling of a machine.
 */
import { execFile } from 'node:child_process'
import { readdir, readFile, stat } from 'node:fs/promises'
import { join } from 'node:path'
import { type Done, failed, failedBy } from './trouble.ts'

const LIVE = 'live'
const CLIPBOARD = 'clipboard'

/** Bytes; far more than any such tool prints. */
export const LARGEST_READING = 4_000_000

export interface Where {
  /** Folder that a relative path starts from. */
  readonly cwd: string
  readonly platform: NodeJS.Platform
  /** The folder of the chips, for tests another one. */
  readonly hwmon?: string
}

/**
 * The text of a reading, or the trouble with it. @param from a path, or one of the two words for this machine and the
 * clipboard
 */
export async function fetchReading(from: string, where: Where): Promise<Done<{ text: string }>> {
  if (from === LIVE) return liveReading(where.hwmon ?? '/sys/class/hwmon')
  if (from === CLIPBOARD) return clipboardReading(where.platform)
  const path = from.startsWith('/') ? from : join(where.cwd, from)
  try {
    const { size, isFolder } = await stat(path).then((s) => ({ size: s.size, isFolder: s.isDirectory() }))
    if (isFolder) return failed('is-a-folder', from)
    if (size > LARGEST_READING) return failed('too-large', from, { bytes: size, limit: LARGEST_READING })
    return textIn(await readFile(path), from)
  } catch (error) {
    return failedBy(error, from)
  }
}

/** Windows tools like UTF-16; a byte that is no text becomes a sign that no reading has. */
function textIn(bytes: Buffer, from: string): Done<{ text: string }> {
  if (bytes.length > LARGEST_READING)
    return failed('too-large', from, { bytes: bytes.length, limit: LARGEST_READING })
  const wide = bytes[0] === 0xff && bytes[1] === 0xfe
  return { ok: true, text: new TextDecoder(wide ? 'utf-16le' : 'utf-8').decode(bytes) }
}

const WANTED =
  /^(?:name|fan\d+_(?:input|min|max|alarm|min_alarm|fault|div|pulses|label|enable)|pwm\d+(?:_(?:enable|mode|auto_point\d+_(?:temp|pwm)))?|temp\d+_(?:input|label))$/

/** The hwmon files of this machine that are about fans, as lines of path, tab and value. */
async function liveReading(folder: string): Promise<Done<{ text: string }>> {
  try {
    const lines: string[] = []
    for (const chip of (await readdir(folder)).sort()) {
      const files = (await readdir(join(folder, chip))).filter((f) => WANTED.test(f)).sort()
      for (const file of files) {
        // A chip that does not answer just now leaves a file that cannot be read: not known.
        const value = await readFile(join(folder, chip, file), 'utf8').catch(() => undefined)
        if (value !== undefined) lines.push(`${folder}/${chip}/${file}\t${value.trim()}`)
      }
    }
    return { ok: true, text: lines.length === 0 ? '' : `${lines.join('\n')}\n` }
  } catch (error) {
    return failedBy(error, folder)
  }
}

/** Tried one after the other: which one is there depends on the desktop. */
const PASTE: Readonly<Partial<Record<NodeJS.Platform, readonly (readonly [string, ...string[]])[]>>> = {
  darwin: [['pbpaste']],
  win32: [['powershell.exe', '-NoProfile', '-Command', 'Get-Clipboard -Raw']],
  linux: [
    ['wl-paste', '--no-newline'],
    ['xclip', '-selection', 'clipboard', '-out'],
    ['xsel', '--clipboard', '--output'],
  ],
}

const PASTE_MS = 5000

const pasted = ([command, ...args]: readonly [string, ...string[]]): Promise<string | undefined> =>
  new Promise((resolve) => {
    const options = { timeout: PASTE_MS, maxBuffer: LARGEST_READING, windowsHide: true }
    execFile(command, args, options, (error, out) => resolve(error ? undefined : out))
  })

async function clipboardReading(platform: NodeJS.Platform): Promise<Done<{ text: string }>> {
  for (const command of PASTE[platform] ?? PASTE.linux ?? []) {
    const text = await pasted(command)
    if (text !== undefined) return { ok: true, text }
  }
  return failed('missing', CLIPBOARD)
}
