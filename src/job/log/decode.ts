/**
 * A log's bytes to events. Takes any bytes whatever and never throws: what is sound is given, what is not is named
 * by line. Sound is a line whose sum fits it and the line above; so no changed answer is ever taken for a told one.
 */
import { FIRST_SUM, lineSum } from './digest.ts'
import type { Tail } from './encode.ts'
import { eventSchema, FORMAT, isKnownKind, type LogEvent } from './event.ts'
import { fitted } from './fitted.ts'

export type LogProblemCode =
  | 'empty'
  /** No line of it looks like a job's opening. */
  | 'not-a-log'
  /** The last line was cut off while it was written. Nothing before it is touched. */
  | 'half-last-line'
  /** The line does not match its sum: changed after it was written. */
  | 'changed'
  /** Not a line of a log at all. */
  | 'unreadable'
  /** Whole, but lines are missing, doubled or moved before it: facts `expected`, `found`. */
  | 'out-of-order'
  /** Whole, but its fields are not as this program knows them. */
  | 'unfit'
  /** Whole, and of a kind that this program does not know: facts `kind`. */
  | 'unknown-kind'
  /** Written by a newer program: facts `format`, `known`. */
  | 'newer-format'

export interface LogProblem {
  /** Counts from 1; 0 is the file as a whole. */
  readonly line: number
  readonly code: LogProblemCode
  readonly facts: Readonly<Record<string, string | number>>
}

export interface UnknownEvent {
  readonly line: number
  readonly kind: string
  readonly raw: string
}

export interface Decoded {
  /** Every event up to the first damage, in order; exactly what was written. */
  readonly events: readonly LogEvent[]
  readonly problems: readonly LogProblem[]
  /** Lines of a kind unknown here, kept as they are. */
  readonly unknown: readonly UnknownEvent[]
  /** Whole lines found after the damage. True each by itself; what the damage took from between them is not known. */
  readonly beyond: readonly LogEvent[]
  /** Bytes of the sound beginning; what is after it is damaged or half a line. */
  readonly soundBytes: number
  readonly restBytes: number
  /** The sound beginning has no line end at its end. */
  readonly open: boolean
  readonly tail: Tail
}

/** A line in the file, as bytes and as text; `ended` with a line end. */
interface Line {
  readonly number: number
  readonly start: number
  readonly end: number
  readonly ended: boolean
  readonly text: string
}

const LF = 10
const utf8 = new TextDecoder('utf-8')

function* linesOf(bytes: Uint8Array): Generator<Line> {
  let start = 0
  for (let number = 1; start < bytes.length; number++) {
    const at = bytes.indexOf(LF, start)
    const ended = at >= 0
    const end = ended ? at + 1 : bytes.length
    const raw = utf8.decode(bytes.subarray(start, ended ? at : end))
    // Tools that carry files between systems add carriage returns; they change nothing that was said.
    yield { number, start, end, ended, text: raw.endsWith('\r') ? raw.slice(0, -1) : raw }
    start = end
  }
}

const form = /^(\{.*),"sum":"([0-9a-f]{16})"\}$/s

type Verified =
  | { readonly ok: true; readonly fields: Record<string, unknown>; readonly sum: string }
  | {
      readonly ok: false
      readonly code: 'changed' | 'unreadable' | 'out-of-order'
      readonly sum: string | undefined
      readonly facts?: LogProblem['facts']
    }

/** `before` is the sum of the line above, unknown where that one is unreadable; `expected` the number due here. */
function verify(text: string, before: string | undefined, expected: number): Verified {
  const [, body, sum] = form.exec(text) ?? []
  if (body === undefined || sum === undefined) return { ok: false, code: 'unreadable', sum: undefined }
  const fields = parseFields(body)
  if (fields === undefined) return { ok: false, code: 'unreadable', sum }
  if (before === undefined || lineSum(before, body) !== sum) {
    // Where a line was taken out, the next one is as it was written but no longer fits the one above it.
    const found = fields.seq
    const moved = typeof found === 'number' && found !== expected
    return moved
      ? { ok: false, code: 'out-of-order', sum, facts: { expected, found } }
      : { ok: false, code: 'changed', sum }
  }
  return { ok: true, fields, sum }
}

function parseFields(body: string): Record<string, unknown> | undefined {
  try {
    const fields: unknown = JSON.parse(`${body}}`)
    return typeof fields === 'object' && fields !== null ? (fields as Record<string, unknown>) : undefined
  } catch {
    return undefined
  }
}

type Read =
  | { readonly is: 'event'; readonly event: LogEvent }
  | { readonly is: 'unknown'; readonly kind: string }
  | { readonly is: 'unfit'; readonly facts: Readonly<Record<string, string>> }

function readFields(fields: Record<string, unknown>): Read {
  const kind = fields.e
  if (typeof kind === 'string' && !isKnownKind(kind)) return { is: 'unknown', kind }
  const read = fitted(eventSchema, fields)
  if (read.fits) return { is: 'event', event: read.value }
  return { is: 'unfit', facts: { field: read.at, why: read.why } }
}

/** Reads a whole log, as bytes or text. */
export function decodeLog(log: Uint8Array | string): Decoded {
  const bytes = typeof log === 'string' ? new TextEncoder().encode(log) : log
  const events: LogEvent[] = []
  const beyond: LogEvent[] = []
  const unknown: UnknownEvent[] = []
  const problems: LogProblem[] = []
  let tail: Tail = { seq: 0, sum: FIRST_SUM }
  let soundBytes = 0
  let open = false
  /** The sum that the line above claims; a damaged line may still show it. */
  let above: string | undefined = FIRST_SUM
  let damaged = false
  let lastProblem = 0

  const report = (line: Line, code: LogProblemCode, facts: LogProblem['facts'] = {}): void => {
    // A stretch of damage is one problem: its first line says enough, and how many lines it took is a fact of it.
    if (damaged && lastProblem === line.number - 1 && problems.length > 0) {
      const first = problems[problems.length - 1] as LogProblem
      problems[problems.length - 1] = { ...first, facts: { ...first.facts, to: line.number } }
    } else problems.push({ line: line.number, code, facts })
    lastProblem = line.number
    damaged = true
  }

  for (const line of linesOf(bytes)) {
    const verified = verify(line.text, above, damaged ? line.number : tail.seq + 1)
    above = verified.sum
    if (!verified.ok) {
      if (!line.ended) {
        problems.push({ line: line.number, code: 'half-last-line', facts: { bytes: line.end - line.start } })
        break
      }
      report(line, verified.code, verified.facts)
      continue
    }
    const seq = verified.fields.seq
    if (!damaged && seq !== tail.seq + 1) {
      report(line, 'out-of-order', { expected: tail.seq + 1, found: String(seq) })
      continue
    }
    const read = readFields(verified.fields)
    if (damaged) {
      if (read.is === 'event') beyond.push(read.event)
      continue
    }
    if (read.is === 'unfit') {
      report(line, 'unfit', read.facts)
      continue
    }
    if (read.is === 'unknown') {
      unknown.push({ line: line.number, kind: read.kind, raw: line.text })
      problems.push({ line: line.number, code: 'unknown-kind', facts: { kind: read.kind } })
    } else events.push(read.event)
    tail = { seq: tail.seq + 1, sum: verified.sum }
    soundBytes = line.end
    open = !line.ended
  }
  return {
    events,
    problems: [...ofTheWhole(bytes, events, unknown, beyond), ...problems],
    unknown,
    beyond,
    soundBytes,
    restBytes: bytes.length - soundBytes,
    open,
    tail,
  }
}

/** What is wrong with the file as a whole. */
function ofTheWhole(
  bytes: Uint8Array,
  events: readonly LogEvent[],
  unknown: readonly UnknownEvent[],
  beyond: readonly LogEvent[],
): LogProblem[] {
  if (bytes.length === 0) return [{ line: 0, code: 'empty', facts: {} }]
  const first = events[0]
  if (first?.e === 'opened') {
    return first.format > FORMAT
      ? [{ line: 1, code: 'newer-format', facts: { format: first.format, known: FORMAT, tool: first.tool } }]
      : []
  }
  const isLog = beyond.length > 0 || unknown.length > 0 || events.length > 0 || looksLikeOpening(bytes)
  return isLog ? [] : [{ line: 0, code: 'not-a-log', facts: {} }]
}

const looksLikeOpening = (bytes: Uint8Array): boolean =>
  /^\uFEFF?\{.{0,40}"e":"opened"/.test(utf8.decode(bytes.subarray(0, 200)))
