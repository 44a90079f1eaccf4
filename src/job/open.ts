/**
 * Opens a job: a new one on a plan, or one that was left, from its log alone. The plan that a log carries is the plan
 * that the job goes on with.
 */
import { flowOf } from '../../flows/all.ts'
import { audit } from '../core/audit/audit.ts'
import { compile } from '../core/bench/build.ts'
import { knowledgeOf } from '../core/infer/assess.ts'
import { type Learned, NOTHING_LEARNT } from '../core/infer/learned.ts'
import type { Plan, Problem } from '../core/plan/plan.ts'
import { apply } from './drive/apply.ts'
import { begin, type Ground, type Job } from './drive/job.ts'
import type { LogProblem } from './log/decode.ts'
import { planDigest } from './log/digest.ts'
import { FORMAT, type LogEvent, type Opened, type Option, type PlanCopy } from './log/event.ts'
import { type Clock, createLog, createLogIn, openLog } from './log/log.ts'
import { lastPlanCopy, planOf } from './log/plan-copy.ts'
import type { Trouble } from './log/trouble.ts'
import { openSession } from './session.ts'
import type { Session } from './view.ts'

export interface NewJob {
  readonly plan: Plan
  readonly copy: PlanCopy
  readonly symptom: string
  /** A path of its own, or the folder in which a log gets a name. */
  readonly log: { readonly file: string } | { readonly folder: string }
  readonly tool: string
  readonly clock: Clock
  readonly who?: string
  readonly where?: string
  readonly options?: Readonly<Record<string, Option>>
  /** What closed jobs taught; nothing where it is left out. */
  readonly learned?: Learned
}

export type OpenTrouble =
  | { readonly kind: 'log'; readonly trouble: Trouble }
  | { readonly kind: 'plan'; readonly problems: readonly Problem[] }
  | { readonly kind: 'symptom'; readonly symptom: string }
  | { readonly kind: 'over'; readonly log: string }

export type Opening =
  | { readonly ok: true; readonly session: Session; readonly problems: readonly LogProblem[] }
  | { readonly ok: false; readonly trouble: OpenTrouble }

const failed = (trouble: OpenTrouble): Opening => ({ ok: false, trouble })

function groundOf(plan: Plan, symptom: string, learned: Learned = NOTHING_LEARNT): Ground | undefined {
  const flow = flowOf(symptom)
  if (!flow) return undefined
  const build = compile(plan)
  return { build, flow, known: knowledgeOf(build, audit(plan), learned) }
}

/** The job as its log leaves it. @throws where the log holds what its own flow could not have taken */
export const replay = (ground: Ground, events: readonly LogEvent[]): Job =>
  events.reduce(apply, begin(ground))

export async function openJob(job: NewJob): Promise<Opening> {
  const ground = groundOf(job.plan, job.symptom, job.learned)
  if (!ground) return failed({ kind: 'symptom', symptom: job.symptom })
  const first: Opened = {
    e: 'opened',
    format: FORMAT,
    tool: job.tool,
    plan: job.copy,
    digest: planDigest(job.copy),
    build: job.plan.build,
    symptom: job.symptom,
    ...(job.who === undefined ? {} : { who: job.who }),
    ...(job.where === undefined ? {} : { where: job.where }),
    options: job.options ?? {},
  }
  const log =
    'file' in job.log
      ? await createLog(job.log.file, first, job.clock)
      : await createLogIn(job.log.folder, first, job.clock)
  if (!log.ok) return failed({ kind: 'log', trouble: log.trouble })
  const session = await openSession(replay(ground, log.events), log.writer, job.plan)
  return { ok: true, session, problems: [] }
}

export interface Resumption {
  readonly path: string
  readonly tool: string
  readonly clock: Clock
  readonly salvage?: boolean
  readonly learned?: Learned
}

/** Takes a left job up again: the same question stands as when it was left. */
export async function resumeJob({ path, tool, clock, salvage, learned }: Resumption): Promise<Opening> {
  const log = await openLog(path, clock, { salvage: salvage ?? false })
  if (!log.ok) return failed({ kind: 'log', trouble: log.trouble })
  const { events, writer, problems } = log
  const give = async (trouble: OpenTrouble): Promise<Opening> => {
    await writer.close()
    return failed(trouble)
  }
  const opened = events.find((e) => e.e === 'opened')
  const copy = lastPlanCopy(events)
  if (!opened || !copy) return give({ kind: 'log', trouble: { code: 'no-job', path, problems, facts: {} } })
  if (events.some((e) => e.e === 'ended')) return give({ kind: 'over', log: path })
  const plan = planOf(copy)
  if (!plan.ok) return give({ kind: 'plan', problems: plan.problems })
  const ground = groundOf(plan.value, opened.symptom, learned)
  if (!ground) return give({ kind: 'symptom', symptom: opened.symptom })
  const before = replay(ground, events)
  const marked = await writer.append([{ e: 'resumed', tool, digest: planDigest(copy) }])
  if (!marked.ok) return give({ kind: 'log', trouble: marked.trouble })
  return { ok: true, session: await openSession(before, writer, plan.value), problems }
}
