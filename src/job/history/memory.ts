/**
 * What the closed jobs in a folder taught. Reading all logs before each job would take too long, so what each of them
 * teaches is kept beside them, with a mark of the log that it is from; the logs stay the truth, and the file can be
 * removed at any time.
 */
import { join } from 'node:path'
import * as z from 'zod/mini'
import type { Learned } from '../../core/infer/learned.ts'
import { logsIn } from '../../io/job-folder.ts'
import { keptText, markOf } from '../../io/kept-file.ts'
import { writePage } from '../../io/page-file.ts'
import { readLog } from '../log/log.ts'
import { type Lesson, learn } from './learn.ts'
import { lessonOf } from './lesson.ts'

const FILE = 'learned.json'
/** Counts up when the same log teaches something else. */
const FORMAT = 3

const amounts = z.record(z.string(), z.number().check(z.gte(0)))
const keptSchema = z.object({
  format: z.literal(FORMAT),
  /** Jobs that began before this are forgotten. */
  since: z.nullable(z.string()),
  /** Shares by the digest of the plan, since many jobs are on one plan. */
  shares: z.record(z.string(), amounts),
  jobs: z.record(
    z.string(),
    z.object({ mark: z.string(), began: z.string(), digest: z.string(), causes: z.nullable(amounts) }),
  ),
})
type Kept = z.infer<typeof keptSchema>

const EMPTY: Kept = { format: FORMAT, since: null, shares: {}, jobs: {} }

async function keptIn(folder: string): Promise<Kept> {
  const text = await keptText(join(folder, FILE))
  if (text === undefined) return EMPTY
  try {
    const read = keptSchema.safeParse(JSON.parse(text))
    return read.success ? read.data : EMPTY
  } catch {
    return EMPTY
  }
}

const nameOf = (path: string): string => path.split(/[/\\]/).at(-1) ?? path

export interface Memory {
  readonly lessons: readonly Lesson[]
  readonly learned: Learned
  readonly since: string | null
}

/** So many of the newest jobs count: a bench changes, and old habits should fade. */
const MOST_JOBS = 1000

/** What the closed jobs of the folder teach. Never fails: where nothing can be read, nothing was learnt. */
export async function recall(folder: string): Promise<Memory> {
  const before = await keptIn(folder)
  const found = await logsIn(folder)
  const jobs: Kept['jobs'] = {}
  const shares: Kept['shares'] = {}
  let changed = false
  for (const path of found.ok ? found.paths.slice(0, MOST_JOBS) : []) {
    const name = nameOf(path)
    const mark = await markOf(path)
    if (mark === undefined) continue
    const known = before.jobs[name]
    if (known?.mark === mark) {
      jobs[name] = known
      const of = before.shares[known.digest]
      if (of) shares[known.digest] = of
      continue
    }
    const taught = await taughtBy(path, mark)
    if (!taught) continue
    changed = true
    jobs[name] = taught.job
    if (taught.shares) shares[taught.job.digest] = taught.shares
  }
  const now: Kept = { format: FORMAT, since: before.since, shares, jobs }
  if (changed || Object.keys(jobs).length !== Object.keys(before.jobs).length) await keep(folder, now)
  const lessons = lessonsIn(now)
  return { lessons, learned: learn(lessons), since: now.since }
}

async function taughtBy(
  path: string,
  mark: string,
): Promise<{ job: Kept['jobs'][string]; shares?: Kept['shares'][string] } | undefined> {
  const read = await readLog(path)
  if (!read.ok) return undefined
  const { events, problems } = read.log
  const [opened] = events
  if (opened?.e !== 'opened') return undefined
  // A damaged log is reported, and teaches nothing.
  const lesson = problems.length > 0 ? undefined : lessonOf(events)
  const job = {
    mark,
    began: opened.at,
    digest: opened.digest,
    causes: lesson ? Object.fromEntries(lesson.causes) : null,
  }
  return lesson ? { job, shares: Object.fromEntries(lesson.shares) } : { job }
}

const lessonsIn = ({ jobs, shares, since }: Kept): Lesson[] =>
  Object.values(jobs).flatMap((job): Lesson[] => {
    const of = shares[job.digest]
    if (job.causes === null || of === undefined || (since !== null && job.began < since)) return []
    return [{ causes: new Map(Object.entries(job.causes)), shares: new Map(Object.entries(of)) }]
  })

/** Best effort: the next job works it out again. */
const keep = (folder: string, kept: Kept): Promise<unknown> =>
  writePage(join(folder, FILE), `${JSON.stringify(kept)}\n`, true)

/** From now on only jobs that begin later teach; the logs stay. @param now ISO 8601, UTC */
export async function forget(folder: string, now: string): Promise<boolean> {
  const kept = await keptIn(folder)
  const written = await writePage(join(folder, FILE), `${JSON.stringify({ ...kept, since: now })}\n`, true)
  return written.ok
}
