/** Reads the plan that a command was given, and tells every problem in it. */
import { isAbsolute, join } from 'node:path'
import type { Plan } from '../core/plan/plan.ts'
import { type PlanTexts, readPlanTexts } from '../io/read-plan.ts'
import type { Shell } from './command.ts'

export interface PlanGiven {
  readonly plan: Plan
  readonly texts: PlanTexts
}

/** The plan with its texts, or undefined once its problems have been told. */
export function planWithTexts(path: string, shell: Shell): PlanGiven | undefined {
  const { read, texts } = readPlanTexts(
    isAbsolute(path) || shell.cwd === process.cwd() ? path : join(shell.cwd, path),
  )
  if (read.ok) return { plan: read.value, texts }
  for (const problem of read.problems) for (const line of shell.language.problem(problem)) shell.err(line)
  return undefined
}

export const planFrom = (path: string, shell: Shell): Plan | undefined => planWithTexts(path, shell)?.plan
