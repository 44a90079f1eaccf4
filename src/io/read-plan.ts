/**
 * A wiring plan from the disk, with the stock files that it names beside it. Whatever is wrong with a file (not
 * there, a folder, binary, far too long) is a problem like those inside a plan, never an exception.
 */
import { readFileSync, statSync } from 'node:fs'
import { dirname, isAbsolute, join } from 'node:path'
import type { Plan } from '../core/plan/plan.ts'
import type { Read } from '../core/plan/problem.ts'
import { shown, type Trouble } from '../core/plan/problem.ts'
import { readPlan } from '../core/plan/read.ts'

/** Bytes. A plan of a thousand fans written out takes under a twentieth of it. */
const LARGEST_FILE = 5_000_000

type Text = { readonly text: string } | Trouble

const reasons: Readonly<Record<string, Omit<Trouble, 'expected'>>> = {
  ENOENT: { found: 'no such file', todo: 'check the name and the folder' },
  ENOTDIR: { found: 'no such file', todo: 'check the name and the folder' },
  EACCES: { found: 'a file that may not be read', todo: 'check who may read it' },
  EPERM: { found: 'a file that may not be read', todo: 'check who may read it' },
  EISDIR: { found: 'a folder', todo: 'name the plan in it' },
  ENAMETOOLONG: { found: 'a file name that is too long', todo: 'check the name' },
  ELOOP: { found: 'links that lead in a circle', todo: 'name the file itself' },
}

function troubleOf(error: unknown, expected: string): Trouble {
  const code = error instanceof Error && 'code' in error ? String(error.code) : ''
  const known = reasons[code] ?? { found: 'a file that cannot be read', todo: 'check name, folder and disk' }
  return { ...known, expected }
}

const tooLong = (bytes: number, expected: string): Trouble => ({
  found: `a file of ${(bytes / 1e6).toFixed(1)} MB`,
  expected: `${expected}, of at most ${LARGEST_FILE / 1e6} MB`,
  todo: 'check that this is the right file',
})

function textOf(path: string, expected: string): Text {
  try {
    const stat = statSync(path)
    if (stat.isDirectory()) return { found: 'a folder', expected, todo: 'name the plan in it' }
    if (!stat.isFile())
      return { found: 'something that is no file', expected, todo: 'save the plan as a file' }
    if (stat.size > LARGEST_FILE) return tooLong(stat.size, expected)
    const bytes = readFileSync(path)
    if (bytes.length > LARGEST_FILE) return tooLong(bytes.length, expected)
    return decoded(bytes, expected)
  } catch (error) {
    return troubleOf(error, expected)
  }
}

function decoded(bytes: Buffer, expected: string): Text {
  const wide = (bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)
  if (wide) return { found: 'text in UTF-16', expected: `${expected} in UTF-8`, todo: 'save it as UTF-8' }
  if (bytes.includes(0))
    return { found: 'a binary file', expected, todo: 'check that this is the right file' }
  try {
    return { text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) }
  } catch {
    return {
      found: 'bytes that are no UTF-8 text',
      expected: `${expected} in UTF-8`,
      todo: 'save it as UTF-8',
    }
  }
}

/** The files as they were read, whole: the plan, and its stock files under the names that the plan calls them by. */
export interface PlanTexts {
  readonly file: string
  readonly text: string
  readonly includes: readonly { readonly file: string; readonly text: string }[]
}

/**
 * Reads the plan at a path, and keeps the texts so that a log can carry them.
 * @param path as the person gave it; it stands so in every place
 */
export function readPlanTexts(path: string): { readonly read: Read<Plan>; readonly texts: PlanTexts } {
  const nothing: PlanTexts = { file: path, text: '', includes: [] }
  if (path.includes('\0'))
    return { read: failed(path, troubleOf(undefined, 'a wiring plan')), texts: nothing }
  const got = textOf(path, 'a wiring plan')
  if (!('text' in got)) return { read: failed(path, got), texts: nothing }
  const includes = new Map<string, string>()
  const read = readPlan(got.text, path, (name) => {
    if (name.includes('\0')) return undefined
    const file = isAbsolute(name) ? name : join(dirname(path), name)
    const stock = textOf(file, 'a stock file')
    if (!('text' in stock)) return { ...stock, found: `${shown(name)}: ${stock.found}` }
    includes.set(name, stock.text)
    return { text: stock.text, file }
  })
  const kept = [...includes].map(([file, text]) => ({ file, text }))
  return { read, texts: { file: path, text: got.text, includes: kept } }
}

/** The plan alone. */
export const readPlanFile = (path: string): Read<Plan> => readPlanTexts(path).read

const failed = (file: string, trouble: Trouble): Read<Plan> => ({
  ok: false,
  problems: [{ at: { file, line: 1, col: 1 }, ...trouble }],
})
