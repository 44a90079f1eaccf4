/** Loads a command only when it is called: what it needs is then read and set up, and nothing else. */
import type { OwnWords, Run } from './command.ts'

const loaders: Readonly<Record<string, () => Promise<{ run: Run } | { ownWords: OwnWords }>>> = {
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
export async function loadCommand(name: string): Promise<OwnWords> {
  const load = loaders[name]
  if (load === undefined) throw new Error(`the command ${name} has no loader`)
  const command = await load()
  return 'run' in command ? speaking(command.run) : command.ownWords
}

/** A command that has the language from the start. */
export const speaking =
  (run: Run): OwnWords =>
  async (given, outside, speak) =>
    run(given, { ...outside, language: await speak() })
