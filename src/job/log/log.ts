/**
 * A job's log on the disk: made with its opening, gone on with after a stop, read for a report. What `append` was
 * given is on the disk once it resolves, so the next question may be shown.
 */
import { join } from 'node:path'
import { logName, makeJobFolder } from '../../io/job-folder.ts'
import { createLogFile, type LogFile, openLogFile, readLogFile } from '../../io/log-file.ts'
import { type Decoded, decodeLog, type LogProblem } from './decode.ts'
import { clockText, encodeEvents, START, type Tail } from './encode.ts'
import type { Cut, LogBody, LogEvent, Opened } from './event.ts'
import type { Attempt, LogTrouble } from './trouble.ts'

/** Milliseconds since 1970, as `Date.now` counts them. */
export type Clock = () => number

export interface LogWriter {
  readonly path: string
  /** The number that the next event gets. */
  nextSeq(): number
  /**
   * Stamps the events and writes them in one go, in order. They are on the disk when it resolves; after trouble none
   * of them is in the log, and the same may be tried again. Calls wait for one another.
   */
  append(events: readonly LogBody[]): Promise<Attempt<{ events: readonly LogEvent[] }>>
  /** Safe to call twice. */
  close(): Promise<void>
}

export interface OpenedLog {
  readonly writer: LogWriter
  readonly events: readonly LogEvent[]
  /** What was cut off or left out, to be told; empty for a log in order. */
  readonly problems: readonly LogProblem[]
  /** From which line on it was cut off, and how many bytes that was. */
  readonly cut?: Cut
  /** Where the cut-off bytes are kept, if any. */
  readonly rest?: string
}

/** Makes a new log with its first event in it. Fails where the path is taken. */
export async function createLog(
  path: string,
  first: Opened,
  clock: Clock,
): Promise<Attempt<{ writer: LogWriter; events: readonly LogEvent[] }>> {
  const made = await createLogFile(path, clockText(clock()))
  if (!made.ok) return made
  const writer = writing(made.file, START, false, clock)
  const opened = await writer.append([first])
  if (opened.ok) return { ok: true, writer, events: opened.events }
  await made.file.discard()
  return opened
}

/** Tries this many names before it gives up: as many jobs of one build may begin in one second. */
const NAMES = 50

/** Makes a new log in the folder of jobs, under a name of its own. */
export async function createLogIn(
  folder: string,
  first: Opened,
  clock: Clock,
): Promise<Attempt<{ writer: LogWriter; events: readonly LogEvent[] }>> {
  const made = await makeJobFolder(folder)
  if (!made.ok) return made
  const at = clockText(clock())
  for (let nth = 1; ; nth++) {
    const log = await createLog(join(folder, logName(at, first.build, first.symptom, nth)), first, clock)
    const taken = !log.ok && (log.trouble.code === 'exists' || log.trouble.code === 'in-use')
    if (!taken || nth === NAMES) return log
  }
}

export interface Opening {
  /** Cuts a log that is damaged further up before the damage; else such a log is refused. */
  readonly salvage?: boolean
  /** Cuts it before this line, whatever is there. */
  readonly before?: number
}

/** Opens a log to go on with its job. What is cut off, half a last line at least, is kept in `<log>.rest`. */
export async function openLog(
  path: string,
  clock: Clock,
  options: Opening = {},
): Promise<Attempt<OpenedLog>> {
  const found = await openLogFile(path, clockText(clock()))
  if (!found.ok) return found
  const { file, bytes } = found
  const log = decodeLog(
    options.before === undefined ? bytes : bytes.subarray(0, lineStart(bytes, options.before)),
  )
  const trouble = troubleOf(path, log, options.salvage === true)
  if (trouble !== undefined) {
    await file.close()
    return { ok: false, trouble }
  }
  const writer = writing(file, log.tail, log.open, clock)
  const sound = { ok: true, writer, events: log.events, problems: log.problems } as const
  const cut: Cut = { line: log.tail.seq + 1, bytes: bytes.length - log.soundBytes }
  if (cut.bytes === 0) return sound
  const done = await file.cut(log.soundBytes)
  if (done.ok) return { ...sound, cut, rest: done.rest }
  await file.close()
  return done
}

/** Where a line begins, counted from 1; the end of the log where it has fewer. */
function lineStart(bytes: Uint8Array, line: number): number {
  let at = 0
  for (let n = 1; n < line; n++) {
    const end = bytes.indexOf(10, at)
    if (end < 0) return bytes.length
    at = end + 1
  }
  return at
}

/** What a log says, without touching it; also of one that is damaged or still being written. */
export async function readLog(path: string): Promise<Attempt<{ log: Decoded }>> {
  const found = await readLogFile(path)
  return found.ok ? { ok: true, log: decodeLog(found.bytes) } : found
}

function troubleOf(path: string, log: Decoded, salvage: boolean): LogTrouble | undefined {
  const { problems } = log
  const has = (...codes: LogProblem['code'][]): boolean => problems.some((p) => codes.includes(p.code))
  if (has('newer-format', 'unknown-kind')) return { code: 'newer', path, problems, facts: {} }
  if (log.events[0]?.e !== 'opened') return { code: 'no-job', path, problems, facts: {} }
  if (has('changed', 'unreadable', 'out-of-order', 'unfit') && !salvage) {
    const facts = { sound: log.events.length, beyond: log.beyond.length }
    return { code: 'damaged', path, problems, facts }
  }
  return undefined
}

function writing(file: LogFile, start: Tail, open: boolean, clock: Clock): LogWriter {
  let tail = start
  let lineEndDue = open
  let before: Promise<unknown> = Promise.resolve()

  async function write(bodies: readonly LogBody[]): Promise<Attempt<{ events: readonly LogEvent[] }>> {
    const { events, text, tail: next } = encodeEvents(bodies, clock(), tail)
    if (events.length === 0) return { ok: true, events }
    const done = await file.append(lineEndDue ? `\n${text}` : text)
    if (!done.ok) return done
    tail = next
    lineEndDue = false
    return { ok: true, events }
  }

  return {
    path: file.path,
    nextSeq: () => tail.seq + 1,
    append(bodies) {
      const turn = before.then(() => write(bodies))
      before = turn.catch(() => {})
      return turn
    },
    async close() {
      await before
      await file.close()
    },
  }
}
