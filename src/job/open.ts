/**
 * Opens a job: a new one on a plan, or one that was left, from its log alone. The plan that a log carries is the plan
 * that the job goes on with.
 */
import { flowOf } from '../../flows/all.ts'
import { survey } from '../../flows/survey.ts'
import { WHICH_SYMPTOM } from '../../flows/which-symptom.ts'
import { audit } from '../core/audit/audit.ts'
import { compile } from '../core/bench/build.ts'
import { knowledgeOf } from '../core/infer/assess.ts'
import { type Learned, NOTHING_LEARNT } from '../core/infer/learned.ts'
import type { Plan } from '../core/plan/plan.ts'
import type { Problem } from '../core/plan/problem.ts'
import { apply } from './drive/apply.ts'
import { begin, type Ground } from './drive/job.ts'
import type { LogProblem } from './log/decode.ts'
import { planDigest } from './log/digest.ts'
import { FORMAT, type Opened, type Option, type PlanCopy } from './log/event.ts'
import { type Clock, createLog, createLogIn, type OpenedLog, openLog } from './log/log.ts'
import { lastPlanCopy, planOf } from './log/plan-copy.ts'
import type { Trouble } from './log/trouble.ts'
import { changedPlan, type PlanGiven } from './plan-changed.ts'
import { type Misfit, playBack } from './play-back.ts'
import { openSession } from './session.ts'
import type { Session } from './view.ts'

export interface NewJob {
  readonly plan: Plan
  readonly copy: PlanCopy
  /** `which-symptom` where it is to be found by the guide. */
  readonly symptom: string
  /** Told at once with it. */
  readonly also?: readonly string[]
  /** A path of its own, or the folder in which a log gets a name. */
  readonly log: { readonly file: string } | { readonly folder: string }
  readonly tool: string
  readonly clock: Clock
  /** Drawn by chance; makes the job known wherever its log is copied to. */
  readonly id?: string
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
  /** Sound, but this line can't have come after the ones before it, as this version's flow goes. */
  | {
      readonly kind: 'misfit'
      readonly log: string
      readonly line: number
      readonly why: Misfit
      readonly tool: string
    }

export type Opening =
  | { readonly ok: true; readonly session: Session; readonly problems: readonly LogProblem[] }
  | { readonly ok: false; readonly trouble: OpenTrouble }

const failed = (trouble: OpenTrouble): Opening => ({ ok: false, trouble })

/** The ground; or the symptom that there is no flow for. */
function groundOf(
  plan: Plan,
  symptom: string,
  also: readonly string[] = [],
  learned: Learned = NOTHING_LEARNT,
): Ground | string {
  // Until the guide has found the symptom, that everything is looked over stands in for it.
  const named = symptom === WHICH_SYMPTOM ? [] : [...new Set([symptom, ...also])]
  const unknown = named.find((id) => !flowOf(id))
  if (unknown !== undefined) return unknown
  const build = compile(plan)
  const flow = flowOf(named[0] ?? '') ?? survey
  return {
    build,
    flow,
    known: knowledgeOf(build, audit(plan), learned),
    ...(named.length === 1 ? {} : { told: named }),
  }
}

/** A new job with its log on the disk, as far as its first prompt. */
export async function openJob(job: NewJob): Promise<Opening> {
  const ground = groundOf(job.plan, job.symptom, job.also, job.learned)
  if (typeof ground === 'string') return failed({ kind: 'symptom', symptom: ground })
  const first: Opened = {
    e: 'opened',
    format: FORMAT,
    ...(job.id === undefined ? {} : { id: job.id }),
    tool: job.tool,
    plan: job.copy,
    digest: planDigest(job.copy),
    build: job.plan.build,
    symptom: job.symptom,
    ...(job.also === undefined || job.also.length === 0 ? {} : { also: job.also }),
    ...(job.who === undefined ? {} : { who: job.who }),
    ...(job.where === undefined ? {} : { where: job.where }),
    options: job.options ?? {},
  }
  const log =
    'file' in job.log
      ? await createLog(job.log.file, first, job.clock)
      : await createLogIn(job.log.folder, first, job.clock)
  if (!log.ok) return failed({ kind: 'log', trouble: log.trouble })
  const session = await openSession(log.events.reduce(apply, begin(ground)), log.writer, job.plan)
  return { ok: true, session, problems: [] }
}

export interface Resumption {
  readonly path: string
  readonly tool: string
  readonly clock: Clock
  /** Cuts a damaged log before the damage, and one that this version's flow can't follow before that line. */
  readonly salvage?: boolean
  readonly learned?: Learned
  /** The plan as its file is now; undefined where there is none to be had. */
  readonly planNow?: (file: string) => PlanGiven | undefined
}

/** Takes a left job up again: the same question stands as when it was left, unless the plan has changed since. */
export async function resumeJob(how: Resumption): Promise<Opening> {
  const first = await openLog(how.path, how.clock, { salvage: how.salvage ?? false })
  if (!first.ok) return failed({ kind: 'log', trouble: first.trouble })
  const opening = await goneOnWith(first, how)
  if (opening.ok) return opening
  await first.writer.close()
  const { trouble } = opening
  if (trouble.kind !== 'misfit' || how.salvage !== true) return opening
  const cut = await openLog(how.path, how.clock, { salvage: true, before: trouble.line })
  if (!cut.ok) return failed({ kind: 'log', trouble: cut.trouble })
  const again = await goneOnWith(cut, how)
  if (!again.ok) await cut.writer.close()
  return again
}

async function goneOnWith(log: OpenedLog, { path, tool, learned, planNow }: Resumption): Promise<Opening> {
  const { events, writer, problems, cut } = log
  const opened = events.find((e) => e.e === 'opened')
  const copy = lastPlanCopy(events)
  if (!opened || !copy) return failed({ kind: 'log', trouble: { code: 'no-job', path, problems, facts: {} } })
  if (events.some((e) => e.e === 'ended')) return failed({ kind: 'over', log: path })
  const [began, last] = [planOf(opened.plan), planOf(copy)]
  if (!began.ok) return failed({ kind: 'plan', problems: began.problems })
  if (!last.ok) return failed({ kind: 'plan', problems: last.problems })
  const ground = groundOf(began.value, opened.symptom, opened.also, learned)
  if (typeof ground === 'string') return failed({ kind: 'symptom', symptom: ground })
  const played = playBack(begin(ground), events)
  if (!played.ok) {
    const { line, why } = played
    const by = events.findLast((e) => (e.e === 'opened' || e.e === 'resumed') && e.seq <= line)
    const wrote = by?.e === 'opened' || by?.e === 'resumed' ? by.tool : opened.tool
    return failed({ kind: 'misfit', log: path, line, why, tool: wrote })
  }
  const changed = changedPlan(played.job, last.value, planNow?.(copy.file), copy)
  const marked = await writer.append([
    {
      e: 'resumed',
      tool,
      digest: planDigest(changed?.plan ?? copy),
      ...(changed?.plan === undefined ? {} : { plan: changed.plan }),
      ...(cut === undefined ? {} : { cut }),
    },
    ...(changed === undefined ? [] : [changed.note]),
  ])
  if (!marked.ok) return failed({ kind: 'log', trouble: marked.trouble })
  const job = marked.events.reduce(apply, played.job)
  const plan = job.ground.build.plan
  return { ok: true, session: await openSession(job, writer, plan), problems }
}
