/** Reads the plan that a command was given, and tells every problem in it. */
import { isAbsolute, join } from 'node:path'
import type { Plan } from '../core/plan/plan.ts'
import { readPlanFile } from '../io/read-plan.ts'
import type { Shell } from './command.ts'

/** The plan, or undefined once its problems have been told; notes are told too. */
export function planFrom(path: string, shell: Shell): Plan | undefined {
  const read = readPlanFile(isAbsolute(path) || shell.cwd === process.cwd() ? path : join(shell.cwd, path))
  for (const problem of read.ok ? read.notes : read.problems)
    for (const line of shell.language.problem(problem)) shell.err(line)
  return read.ok ? read.value : undefined
}
