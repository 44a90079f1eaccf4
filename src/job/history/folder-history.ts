/** The history of one bench: the logs in its folder. Nothing is kept beside them but what can be made from them again. */
import { join } from 'node:path'
import { lockFile } from '../../io/file-lock.ts'
import { logName, logsIn, makeJobFolder } from '../../io/job-folder.ts'
import { readLogFile } from '../../io/log-file.ts'
import { writePage } from '../../io/page-file.ts'
import type { FileTrouble } from '../../io/trouble.ts'
import { decodeLog } from '../log/decode.ts'
import type { Found, History, JobRecord, Kept, Query, StoreTrouble } from './history.ts'
import { isLater, jobId, recordOf } from './job-record.ts'
import { countsOf } from './learn.ts'
import { forget, recall } from './memory.ts'
import { fits } from './query.ts'
import { summariesIn } from './summaries.ts'
import { sumsOf } from './sums.ts'

const failed = ({ code, path, facts }: FileTrouble): { ok: false; trouble: StoreTrouble } => ({
  ok: false,
  trouble: { code, where: path, facts },
})

/** @param now the time as ISO text, for locks */
export function folderHistory(folder: string, now: () => string): History {
  async function find(query: Query): Promise<Kept<{ found: Found }>> {
    const listed = await summariesIn(folder)
    if (!listed.ok) return failed(listed.trouble)
    const { unreadable } = listed
    const jobs = listed.summaries.filter((summary) => fits(summary, query))
    const { limit = jobs.length } = query
    // Names sort by the second only, and may have been given by hand.
    jobs.sort((a, b) => (a.began === b.began ? 0 : a.began < b.began ? 1 : -1))
    return {
      ok: true,
      found: { jobs: jobs.slice(0, limit), more: jobs.length > limit, unreadable },
    }
  }

  /** Logs by the id of their job. */
  async function byId(): Promise<Kept<{ paths: Map<string, string> }>> {
    const logs = await logsIn(folder)
    if (!logs.ok) return failed(logs.trouble)
    const paths = new Map<string, string>()
    for (const path of logs.paths) {
      const read = await readLogFile(path)
      const id = read.ok ? jobId(decodeLog(read.bytes).events) : undefined
      if (id !== undefined) paths.set(id, path)
    }
    return { ok: true, paths }
  }

  /** Whether it was written: not over a log that is as far, nor over one that somebody works on. */
  async function write(job: JobRecord, path: string | undefined): Promise<Kept<{ written: boolean }>> {
    if (path === undefined) {
      for (let nth = 1; ; nth++) {
        const { began, build, symptom } = job.summary
        const done = await writePage(join(folder, logName(began, build, symptom, nth)), job.text, false)
        if (done.ok) return { ok: true, written: true }
        if (done.trouble.code !== 'exists') return failed(done.trouble)
      }
    }
    const locked = await lockFile(path, now())
    if (!locked.ok) return { ok: true, written: false }
    try {
      const read = await readLogFile(path)
      const there = read.ok ? recordOf(path, read.bytes) : undefined
      if (there !== undefined && !isLater(job, there)) return { ok: true, written: false }
      const done = await writePage(path, job.text, true)
      return done.ok ? { ok: true, written: true } : failed(done.trouble)
    } finally {
      await locked.lock.release()
    }
  }

  return {
    find,
    async sums(query) {
      const all = await find(query)
      return all.ok ? { ok: true, sums: sumsOf(all.found.jobs) } : all
    },
    async put(jobs) {
      const made = await makeJobFolder(folder)
      if (!made.ok) return failed(made.trouble)
      const there = await byId()
      if (!there.ok) return there
      let taken = 0
      for (const job of jobs) {
        const done = await write(job, there.paths.get(job.id))
        if (!done.ok) return done
        if (done.written) taken++
      }
      return { ok: true, handed: { taken, known: jobs.length - taken } }
    },
    async log(id) {
      const there = await byId()
      if (!there.ok) return there
      const path = there.paths.get(id)
      const read = path === undefined ? undefined : await readLogFile(path)
      if (read !== undefined && !read.ok) return failed(read.trouble)
      return { ok: true, text: read === undefined ? undefined : new TextDecoder().decode(read.bytes) }
    },
    async taught() {
      const { lessons, since } = await recall(folder)
      return { ok: true, taught: { counts: countsOf(lessons), since } }
    },
    async forget(at) {
      const done = await forget(folder, at)
      return done ? { ok: true } : { ok: false, trouble: { code: 'no-permission', where: folder, facts: {} } }
    },
    async close() {},
  }
}
