/**
 * A copy of a log to share: no people, no places, no paths, no notes, no comments of the plan, no texts of readings.
 * It is a whole log with sums of its own: it can be reported, replayed and taken up like the one that it is from.
 */
import { planDigest } from './digest.ts'
import { encodeEvents, START } from './encode.ts'
import type { LogBody, LogEvent, PlanCopy } from './event.ts'
import { planOf } from './plan-copy.ts'

/** A comment begins at a `#` that stands first or behind a blank, outside of quotes; what is before it stays in its place. */
function withoutComment(line: string): string {
  let quote = ''
  for (let i = 0; i < line.length; i++) {
    const sign = line[i] ?? ''
    if (quote !== '') {
      if (quote === '"' && sign === '\\') i++
      else if (sign === quote) quote = ''
    } else if (sign === '"' || (sign === "'" && !/\w/.test(line[i - 1] ?? ''))) quote = sign
    else if (sign === '#' && /^$|\s/.test(line[i - 1] ?? '')) return line.slice(0, i).trimEnd()
  }
  return line
}

const bare = (text: string): string => text.split('\n').map(withoutComment).join('\n')
const nameOf = (path: string): string => path.split(/[/\\]/).at(-1) ?? ''

/** The plan without its comments; empty where it would not say the same any more (a `#` that was none). */
function plainPlan(copy: PlanCopy): PlanCopy {
  const without: PlanCopy = {
    ...copy,
    text: bare(copy.text),
    includes: copy.includes.map((one) => ({ ...one, text: bare(one.text) })),
  }
  const same = JSON.stringify(planOf(without)) === JSON.stringify(planOf(copy))
  // The plan calls its stock files by these names, so they stay as they are written there.
  return {
    ...without,
    file: nameOf(copy.file),
    text: same ? without.text : '',
    includes: same ? without.includes : [],
  }
}

function nameless(event: LogEvent, hidden: string): LogEvent {
  switch (event.e) {
    case 'opened': {
      const { who: _, where: __, ...rest } = event
      const plan = plainPlan(event.plan)
      return { ...rest, plan, digest: planDigest(plan) }
    }
    case 'resumed': {
      if (event.plan === undefined) return event
      const plan = plainPlan(event.plan)
      return { ...event, plan, digest: planDigest(plan) }
    }
    case 'replied': {
      const { by: _, ...rest } = event
      return rest
    }
    case 'noted':
      return { ...event, text: hidden }
    case 'read': {
      const { by: _, ...rest } = event
      return { ...rest, text: hidden }
    }
    default:
      return event
  }
}

/** @param hidden stands where a text was   @returns the whole text of the log, each event with its number and time */
export function logWithoutNames(events: readonly LogEvent[], hidden: string): string {
  let tail = START
  let text = ''
  let digest = ''
  for (const event of events) {
    const plain = nameless(event, hidden)
    if ('plan' in plain && 'digest' in plain) digest = plain.digest
    // Taken up without a change of the plan: the digest is that of the plain plan too.
    const { seq: _, at, ...body } = plain.e === 'resumed' ? { ...plain, digest } : plain
    const encoded = encodeEvents([body as LogBody], Date.parse(at), tail)
    tail = encoded.tail
    text += encoded.text
  }
  return text
}
