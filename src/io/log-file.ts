/**
 * A file that only grows, line by line, and keeps what it was told: locked while open, readable by its user only,
 * every append on the disk before it counts as done, and cut back to the last whole append when one fails half-way.
 * Knows nothing of what the lines mean.
 */
import { constants } from 'node:fs'
import { type FileHandle, open, realpath, rm, stat } from 'node:fs/promises'
import { dirname } from 'node:path'
import { type Lock, lockFile } from './file-lock.ts'
import { type Done, failed, failedBy } from './trouble.ts'

/** Far above any job (a long one is under 5 MB); keeps a wrong file name from filling the memory. */
const MAX_LOG_BYTES = 256 * 1024 * 1024

export interface LogFile {
  readonly path: string
  /** Bytes on the disk, as far as this program wrote or found them. */
  size(): number
  /** Adds text; on the disk when it resolves. After a failure the file is as it was, and the same may be tried again. */
  append(text: string): Promise<Done<object>>
  /** Keeps the bytes from `size` on in `<path>.rest`, after what is there already, then cuts them off. */
  cut(size: number): Promise<Done<{ readonly rest: string }>>
  /** Safe to call twice. */
  close(): Promise<void>
  /** Closes it, and takes it away if nothing ever got into it. */
  discard(): Promise<void>
}

/** Makes the file and locks it; fails with `exists` where there is one already. `since` is the time as ISO text. */
export async function createLogFile(path: string, since: string): Promise<Done<{ file: LogFile }>> {
  const folder = await stat(dirname(path)).catch(() => undefined)
  if (folder === undefined || !folder.isDirectory()) return failed('folder-missing', dirname(path))
  const locked = await lockFile(path, since)
  if (!locked.ok) return locked
  try {
    const handle = await open(path, constants.O_RDWR | constants.O_CREAT | constants.O_EXCL, 0o600)
    await syncFolder(dirname(path))
    return { ok: true, file: growing(path, handle, 0, locked.lock) }
  } catch (error) {
    await locked.lock.release()
    return failedBy(error, path)
  }
}

/** Opens the file for growing and gives what is in it. A link is followed first, so that one file has one lock. */
export async function openLogFile(
  name: string,
  since: string,
): Promise<Done<{ file: LogFile; bytes: Uint8Array }>> {
  const fit = await fitToRead(name)
  if (!fit.ok) return fit
  const path = await realpath(name).catch(() => name)
  const locked = await lockFile(path, since)
  if (!locked.ok) return locked
  try {
    const handle = await open(path, constants.O_RDWR)
    const bytes = await handle.readFile()
    return { ok: true, file: growing(path, handle, bytes.length, locked.lock), bytes }
  } catch (error) {
    await locked.lock.release()
    return failedBy(error, path)
  }
}

/** What is in the file, without a lock: for reports and lists, also of a job that goes on meanwhile. */
export async function readLogFile(path: string): Promise<Done<{ bytes: Uint8Array }>> {
  const fit = await fitToRead(path)
  if (!fit.ok) return fit
  try {
    const handle = await open(path, constants.O_RDONLY)
    try {
      return { ok: true, bytes: await handle.readFile() }
    } finally {
      await handle.close()
    }
  } catch (error) {
    return failedBy(error, path)
  }
}

async function fitToRead(path: string): Promise<Done<object>> {
  try {
    const found = await stat(path)
    if (found.isDirectory()) return failed('is-a-folder', path)
    if (!found.isFile()) return failed('not-a-file', path)
    if (found.size > MAX_LOG_BYTES)
      return failed('too-large', path, { bytes: found.size, limit: MAX_LOG_BYTES })
    return { ok: true }
  } catch (error) {
    return failedBy(error, path)
  }
}

function growing(path: string, handle: FileHandle, start: number, lock: Lock): LogFile {
  let size = start
  let closed = false

  /** The same file as under its path, and nobody else's bytes in it. */
  async function ours(): Promise<Done<object>> {
    const here = await handle.stat()
    const there = await stat(path).catch(() => undefined)
    if (there === undefined || there.ino !== here.ino || there.dev !== here.dev || here.nlink === 0)
      return failed('vanished', path)
    if (here.size !== size) return failed('changed-by-another', path, { expected: size, found: here.size })
    return { ok: true }
  }

  async function append(text: string): Promise<Done<object>> {
    const bytes = new TextEncoder().encode(text)
    try {
      const still = await ours()
      if (!still.ok) return still
      let written = 0
      try {
        while (written < bytes.length) {
          const step = await handle.write(bytes, written, bytes.length - written, size + written)
          written += step.bytesWritten
        }
        await handle.datasync()
      } catch (error) {
        const trouble = failedBy(error, path)
        // Half an append must not stay in the middle of the log; where even this fails, the reader cuts it off.
        await handle.truncate(size).catch(() => {})
        return trouble
      }
      size += bytes.length
      return { ok: true }
    } catch (error) {
      return failedBy(error, path)
    }
  }

  async function cut(to: number): Promise<Done<{ rest: string }>> {
    const rest = `${path}.rest`
    try {
      const still = await ours()
      if (!still.ok) return still
      const bytes = new Uint8Array(size - to)
      let got = 0
      while (got < bytes.length) {
        const step = await handle.read(bytes, got, bytes.length - got, to + got)
        if (step.bytesRead === 0)
          return failed('changed-by-another', path, { expected: size, found: to + got })
        got += step.bytesRead
      }
      const aside = await openHandle(rest)
      try {
        await aside.appendFile(bytes)
        await aside.appendFile('\n')
        await aside.datasync()
      } finally {
        await aside.close()
      }
      await syncFolder(dirname(path))
      await handle.truncate(to)
      await handle.datasync()
      size = to
      return { ok: true, rest }
    } catch (error) {
      return failedBy(error, rest)
    }
  }

  async function close(): Promise<void> {
    if (closed) return
    closed = true
    await handle.close().catch(() => {})
    await lock.release()
  }

  async function discard(): Promise<void> {
    if (!closed && size === 0) await rm(path, { force: true }).catch(() => {})
    await close()
  }

  return { path, size: () => size, append, cut, close, discard }
}

const openHandle = (path: string): Promise<FileHandle> => open(path, 'a', 0o600)

/** So that a new name survives a power cut too; not every system allows it, and then there is nothing to do. */
async function syncFolder(path: string): Promise<void> {
  try {
    const folder = await open(path, constants.O_RDONLY)
    try {
      await folder.sync()
    } finally {
      await folder.close()
    }
  } catch {
    // Not possible here.
  }
}
