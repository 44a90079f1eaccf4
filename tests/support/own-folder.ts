/** A folder of its own for each test that asks, gone afterwards. */
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach } from 'vitest'

const made: string[] = []

export function ownFolder(): string {
  const folder = mkdtempSync(join(tmpdir(), 'whichlead-'))
  made.push(folder)
  return folder
}

afterEach(() => {
  for (const folder of made.splice(0)) rmSync(folder, { recursive: true, force: true })
})
