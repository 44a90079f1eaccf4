/** A page written to a file in one go: either all of it is there afterwards or nothing has changed. */
import { randomBytes } from 'node:crypto'
import { existsSync } from 'node:fs'
import { link, open, rename, rm } from 'node:fs/promises'
import { dirname, join } from 'node:path'
import { type Done, failed, failedBy } from './trouble.ts'

/** Whether something is there already, so that it can be told before much is asked. `writePage` finds out for sure. */
export const isThere = (path: string): boolean => existsSync(path)

/** Writes the text. Fails with `exists` where there is a file and `replace` is not set. */
export async function writePage(path: string, text: string, replace: boolean): Promise<Done<object>> {
  const draft = join(dirname(path), `.whichlead-${randomBytes(6).toString('hex')}`)
  try {
    const handle = await open(draft, 'wx', 0o600)
    try {
      await handle.writeFile(text)
      await handle.sync()
    } finally {
      await handle.close()
    }
    if (replace) await rename(draft, path)
    else await link(draft, path)
    return { ok: true }
  } catch (error) {
    const trouble = failedBy(error, path)
    return trouble.trouble.code === 'missing' ? failed('folder-missing', dirname(path)) : trouble
  } finally {
    await rm(draft, { force: true }).catch(() => {})
  }
}
