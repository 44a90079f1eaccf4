/**
 * One program at a time on one file: a lock file beside it, made whole in one step, that names its owner. A lock
 * whose owner is gone (killed, or before a restart of the machine) is taken over. Numbers of processes are used
 * again, so the owner is known by its start time and the machine's start as well, where the system tells them.
 */
import { randomBytes } from 'node:crypto'
import { link, readFile, rm, stat, writeFile } from 'node:fs/promises'
import { hostname } from 'node:os'
import { setTimeout } from 'node:timers/promises'
import { type Done, failed, failedBy } from './trouble.ts'

interface Owner {
  readonly pid: number
  readonly host: string
  /** The machine's start and the process's start; empty where the system does not tell. */
  readonly boot: string
  readonly started: string
  readonly since: string
  /** Tells two locks of one process apart. */
  readonly nonce: string
}

export interface Lock {
  release(): Promise<void>
}

/** Pauses only while another program takes a dead lock away; a second in all. */
const ATTEMPTS = 100
const PAUSE_MS = 10
const GUARD_MS = 10_000

const readText = (path: string): Promise<string> => readFile(path, 'utf8').catch(() => '')

/** Ticks from the machine's start to the process's; the 22nd field, counted after the name in brackets. */
async function startOf(pid: number | 'self'): Promise<string> {
  const stat = await readText(`/proc/${pid}/stat`)
  return stat.slice(stat.lastIndexOf(')') + 2).split(' ')[19] ?? ''
}

const bootOf = async (): Promise<string> => (await readText('/proc/sys/kernel/random/boot_id')).trim()

function parseOwner(text: string): Owner | undefined {
  try {
    const owner: unknown = JSON.parse(text)
    if (typeof owner !== 'object' || owner === null) return undefined
    const { pid, host, boot, started, since, nonce } = owner as Record<string, unknown>
    if (typeof pid !== 'number' || !Number.isSafeInteger(pid) || pid < 1) return undefined
    const texts = [host, boot, started, since, nonce]
    if (!texts.every((t) => typeof t === 'string')) return undefined
    return { pid, host, boot, started, since, nonce } as Owner
  } catch {
    return undefined
  }
}

function runs(pid: number): boolean {
  try {
    process.kill(pid, 0)
    return true
  } catch (error) {
    return codeOf(error) === 'EPERM'
  }
}

/** Gone for sure; an owner on another machine, or one that cannot be asked, is taken to be there. */
async function isGone(owner: Owner): Promise<boolean> {
  if (owner.host !== hostname()) return false
  const boot = await bootOf()
  if (owner.boot !== '' && boot !== '' && owner.boot !== boot) return true
  if (!runs(owner.pid)) return true
  const started = await startOf(owner.pid)
  return owner.started !== '' && started !== '' && owner.started !== started
}

/**
 * Locks `path` for this process, at the time given as ISO text.
 * Fails with `in-use` while another program, or another part of this one, holds it.
 */
export async function lockFile(path: string, since: string): Promise<Done<{ lock: Lock }>> {
  const place = `${path}.lock`
  const nonce = randomBytes(8).toString('hex')
  const mine: Owner = {
    pid: process.pid,
    host: hostname(),
    boot: await bootOf(),
    started: await startOf('self'),
    since,
    nonce,
  }
  const draft = `${place}.${nonce}`
  try {
    await writeFile(draft, `${JSON.stringify(mine)}\n`, { mode: 0o600, flag: 'wx' })
    for (let attempt = 0; attempt < ATTEMPTS; attempt++) {
      try {
        await putWhole(draft, place)
        return { ok: true, lock: { release: () => release(place, nonce) } }
      } catch (error) {
        if (codeOf(error) !== 'EEXIST') throw error
      }
      // What is no lock at all was left by a power cut: a live one is always whole.
      const text = await readFile(place, 'utf8').catch(() => undefined)
      if (text === undefined) continue
      const owner = parseOwner(text)
      if (owner !== undefined && !(await isGone(owner)))
        return failed('in-use', path, { lock: place, pid: owner.pid, host: owner.host, since: owner.since })
      if (!(await takeAway(place, text, draft))) await setTimeout(PAUSE_MS)
    }
    return failed('in-use', path, { lock: place, pid: 0, host: '', since: '' })
  } catch (error) {
    return failedBy(error, path)
  } finally {
    await rm(draft, { force: true }).catch(() => {})
  }
}

const codeOf = (error: unknown): unknown =>
  error instanceof Error && 'code' in error ? error.code : undefined

/** A link is made whole or not at all, so nobody reads half a lock; where there are no links, one small write. */
async function putWhole(draft: string, place: string): Promise<void> {
  try {
    await link(draft, place)
  } catch (error) {
    if (!['EPERM', 'ENOTSUP', 'EOPNOTSUPP', 'ENOSYS', 'EMLINK'].includes(String(codeOf(error)))) throw error
    await writeFile(place, await readFile(draft), { mode: 0o600, flag: 'wx' })
  }
}

/**
 * Takes a dead owner's lock away, if it is still the one that was read. Only who holds the guard may do that: two that
 * both saw it dead would otherwise take away each other's new one. False where somebody else has the guard.
 */
async function takeAway(place: string, text: string, draft: string): Promise<boolean> {
  const guard = `${place}.guard`
  try {
    await putWhole(draft, guard)
  } catch (error) {
    if (codeOf(error) !== 'EEXIST') throw error
    // Held for a moment only, unless its holder was killed just then. The draft's time is that of the same disk.
    const [held, now] = await Promise.all([stat(guard).catch(() => undefined), stat(draft)])
    if (held !== undefined && now.ctimeMs - held.ctimeMs > GUARD_MS) await rm(guard, { force: true })
    return false
  }
  try {
    if ((await readFile(place, 'utf8').catch(() => undefined)) === text) await rm(place, { force: true })
    return true
  } finally {
    await rm(guard, { force: true })
  }
}

/** A lock that is no longer ours is left alone. */
async function release(place: string, nonce: string): Promise<void> {
  if (parseOwner(await readText(place))?.nonce === nonce) await rm(place, { force: true }).catch(() => {})
}
