/** Runs a whole job through the real session, with a log in memory and the bench as the person. */
import { flowOf } from '../../flows/all.ts'
import { audit } from '../../src/core/audit/audit.ts'
import { compile } from '../../src/core/bench/build.ts'
import type { End, Prompt } from '../../src/core/checks/prompt.ts'
import { type Fault, faultText } from '../../src/core/faults/fault.ts'
import { knowledgeOf } from '../../src/core/infer/assess.ts'
import type { Plan } from '../../src/core/plan/plan.ts'
import { begin, type Ground } from '../../src/job/drive/job.ts'
import type { LogBody, LogEvent } from '../../src/job/log/event.ts'
import type { LogWriter } from '../../src/job/log/log.ts'
import { openSession } from '../../src/job/session.ts'
import type { Session } from '../../src/job/view.ts'
import { type Manner, personAt } from './bench-person.ts'

/** A log that only lives in memory; `events` is what it holds. @param before what it held already */
export function memoryLog(before: readonly LogEvent[] = []): LogWriter & { readonly events: LogEvent[] } {
  const events: LogEvent[] = [...before]
  return {
    path: 'memory.ndjson',
    events,
    nextSeq: () => events.length + 1,
    append: async (bodies: readonly LogBody[]) => {
      const stamped = bodies.map(
        (body, i): LogEvent => ({ ...body, seq: events.length + 1 + i, at: '2026-01-05T09:00:00.000Z' }),
      )
      events.push(...stamped)
      return { ok: true, events: stamped }
    },
    close: async () => {},
  }
}

export function groundFor(plan: Plan, symptom: string): Ground {
  const flow = flowOf(symptom)
  if (!flow) throw new Error(`no flow ${symptom}`)
  const build = compile(plan)
  return { build, flow, known: knowledgeOf(build, audit(plan)) }
}

export async function memorySession(
  plan: Plan,
  symptom: string,
  ground = groundFor(plan, symptom),
  now?: () => number,
): Promise<{ session: Session; log: ReturnType<typeof memoryLog> }> {
  const log = memoryLog()
  return { session: await openSession(begin(ground), log, plan, now), log }
}

export interface Ran {
  readonly end: End
  readonly prompts: readonly Prompt[]
  readonly events: readonly LogEvent[]
  /** Whether the planted faults are in the first suspect, itself or one alike. */
  readonly named: boolean
  /** Milliseconds from each reply to the next prompt. */
  readonly waits: readonly number[]
}

const MOST_PROMPTS = 200

export const sameFaults = (a: readonly Fault[], b: readonly Fault[]): boolean =>
  a.length === b.length && a.map(faultText).sort().join() === b.map(faultText).sort().join()

export async function runJob(
  plan: Plan,
  symptom: string,
  faults: readonly Fault[],
  manner: Manner = {},
  ground?: Ground,
): Promise<Ran> {
  const { session, log } = await memorySession(plan, symptom, ground)
  const person = personAt(plan, faults, manner)
  const prompts: Prompt[] = []
  const waits: number[] = []
  for (let view = session.view(); view.prompt && prompts.length < MOST_PROMPTS; view = session.view()) {
    const { prompt } = view
    prompts.push(prompt)
    if (prompt.show === 'do') person.did(prompt.edits)
    const reply = prompt.show === 'do' ? ({ say: 'done' } as const) : person.answer(prompt)
    const start = performance.now()
    const taken = await session.reply(reply)
    waits.push(performance.now() - start)
    if (!taken.ok) throw new Error(`refused: ${taken.refusal.problem}`)
  }
  const { end } = session.view()
  if (!end) throw new Error('the job did not end')
  const first = end.suspects[0]
  const named = first ? [first, ...first.alike].some((s) => sameFaults(s.faults, faults)) : false
  return { end, prompts, events: log.events, named, waits }
}
