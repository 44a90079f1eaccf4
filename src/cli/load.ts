/** Loads a command only when it is called: what it needs is then read and set up, and nothing else. */
import type { Run } from './command.ts'

const loaders: Readonly<Record<string, () => Promise<{ run: Run }>>> = {
  diagnose: () => import('./commands/diagnose.ts'),
  'first-boot': () => import('./commands/first-boot.ts'),
  resume: () => import('./commands/resume.ts'),
  practice: () => import('./commands/practice.ts'),
  check: () => import('./commands/check.ts'),
  draw: () => import('./commands/draw.ts'),
  bench: () => import('./commands/bench.ts'),
  report: () => import('./commands/report.ts'),
  replay: () => import('./commands/replay.ts'),
  jobs: () => import('./commands/jobs.ts'),
  new: () => import('./commands/new.ts'),
  edit: () => import('./commands/edit.ts'),
  schema: () => import('./commands/schema.ts'),
  engine: () => import('./run-engine.ts'),
  completion: () => import('./commands/completion.ts'),
  help: () => import('./commands/help.ts'),
}

/** Every command of the table has a loader: a test sees to it. */
export async function loadCommand(name: string): Promise<Run> {
  const load = loaders[name]
  if (load === undefined) throw new Error(`the command ${name} has no loader`)
  return (await load()).run
}
