/**
 * Events to lines. A line is the event as JSON with its sum as the last field; the sum covers the exact text before
 * it and the sum of the line above.
 */
import { FIRST_SUM, lineSum } from './digest.ts'
import { eventSchema, type LogBody, type LogEvent } from './event.ts'

/** Where a log stands: what the next line builds on. */
export interface Tail {
  readonly seq: number
  readonly sum: string
}

export const START: Tail = { seq: 0, sum: FIRST_SUM }

export interface Encoded {
  readonly events: readonly LogEvent[]
  /** Whole lines, each with its line end. */
  readonly text: string
  readonly tail: Tail
}

/** `2026-03-01T09:30:00.000Z`; a clock that is out of its mind gives the year 1970, since order is by `seq`. */
export function clockText(ms: number): string {
  const date = new Date(ms)
  const text = Number.isNaN(date.getTime()) ? '' : date.toISOString()
  return /^\d{4}-/.test(text) ? text : new Date(0).toISOString()
}

/** The line of one event, without its line end, and its sum. */
export function encodeLine(event: LogEvent, before: string): { line: string; sum: string } {
  const body = JSON.stringify(event).slice(0, -1)
  const sum = lineSum(before, body)
  return { line: `${body},"sum":"${sum}"}`, sum }
}

/**
 * Stamps and encodes what happened at one moment, in order.
 * Throws where a record would not be readable again (a share over 1, NaN): that is a mistake in the program.
 */
export function encodeEvents(bodies: readonly LogBody[], ms: number, after: Tail): Encoded {
  const at = clockText(ms)
  const events: LogEvent[] = []
  let { seq, sum } = after
  let text = ''
  for (const body of bodies) {
    const event = eventSchema.parse({ ...body, seq: seq + 1, at })
    const encoded = encodeLine(event, sum)
    events.push(event)
    text += `${encoded.line}\n`
    seq = event.seq
    sum = encoded.sum
  }
  return { events, text, tail: { seq, sum } }
}
