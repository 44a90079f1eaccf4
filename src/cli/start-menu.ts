/**
 * The first screen at a terminal: jobs to take up again, builds in this folder, the demo, a new plan, help. What is taken
 * is run as if it had been typed.
 */
import { buildsIn, freeBuildName } from '../io/builds-in.ts'
import { demoBuild } from '../io/demo-build.ts'
import type { Summary } from '../job/report/summary.ts'
import type { Choice, ChooserOptions, Taken } from '../ui/chooser.tsx'
import type { BuildDoing } from '../wording/screen.ts'
import type { ExitCode, Given, Shell } from './command.ts'
import { factsOf, prepareForScreen } from './front-end.ts'
import { loadCommand } from './load.ts'

/** A command with its arguments, as it would be typed. */
interface Call {
  readonly command: string
  readonly arguments: readonly string[]
}

const DOINGS: readonly BuildDoing[] = ['diagnose', 'first-boot', 'check', 'draw', 'practice']

type Choose = (choices: readonly Choice[], options: Pick<ChooserOptions, 'title' | 'above'>) => Promise<Taken>

async function chooser(given: Given, shell: Shell): Promise<Choose> {
  prepareForScreen(shell)
  const { runChooser } = await import('../ui/chooser.tsx')
  const { language, stdin, stdout } = shell
  const ascii = given.flags.has('ascii') || !factsOf(shell).unicode
  return (choices, options) => runChooser(choices, { ...options, language, ascii, stdin, stdout })
}

/** Jobs to take up again; where two read alike, each with when it was begun. */
function jobChoices(jobs: readonly Summary[], shell: Shell): Choice[] {
  const { labels, screen, symptom } = shell.language
  const { start } = screen
  const label = (job: Summary): string => start.resume(job.build, symptom(job.symptom).name, null)
  return jobs.map((job) => {
    const began = labels.moment(job.began)
    const alike = jobs.some((other) => other !== job && label(other) === label(job))
    return {
      id: `job ${job.log}`,
      label: alike ? start.resume(job.build, symptom(job.symptom).name, began) : label(job),
      hint: start.resumeHint(began, labels.minutes(job.minutes), job.log),
    }
  })
}

/** What is to be done with a build; null for a level back, an exit code for leaving. */
async function doingFor(
  path: string,
  shown: string,
  choose: Choose,
  shell: Shell,
): Promise<Call | ExitCode | null> {
  const { start } = shell.language.screen
  const choices = DOINGS.map((id) => ({ id, label: start.doing[id][0], hint: start.doing[id][1] }))
  const taken = await choose(choices, { title: start.whatWith(shown) })
  if (taken.id === null) return taken.back ? null : (taken.code as ExitCode)
  return { command: taken.id, arguments: [path] }
}

/** Asks until something is taken; an exit code where the person leaves. */
async function callFrom(jobs: readonly Summary[], choose: Choose, shell: Shell): Promise<Call | ExitCode> {
  const { start } = shell.language.screen
  const builds = await buildsIn(shell.cwd)
  const demo = demoBuild(shell.program)
  const choices: Choice[] = [
    ...jobChoices(jobs, shell),
    ...builds.map((name) => ({ id: `build ${name}`, label: start.build(name), hint: start.buildHint })),
    ...(demo === undefined ? [] : [{ id: 'demo', label: start.demo, hint: start.demoHint }]),
    { id: 'new', label: start.create, hint: start.createHint },
    { id: 'help', label: start.help, hint: start.helpHint },
  ]
  const above =
    builds.length + jobs.length === 0 ? start.welcome(demo !== undefined) : [shell.language.program.summary]
  for (;;) {
    const taken = await choose(choices, { title: start.title, above })
    if (taken.id === null) return taken.code as ExitCode
    if (taken.id === 'help') return { command: 'help', arguments: [] }
    if (taken.id === 'new') return { command: 'new', arguments: [freeBuildName(shell.cwd)] }
    if (taken.id.startsWith('job ')) return { command: 'resume', arguments: [taken.id.slice(4)] }
    const doing =
      taken.id === 'demo' && demo !== undefined
        ? await doingFor(demo, start.demoBuild, choose, shell)
        : await doingFor(taken.id.slice(6), taken.id.slice(6), choose, shell)
    if (doing !== null) return doing
  }
}

/** @param jobs that can be taken up again, newest first */
export async function runStartMenu(jobs: readonly Summary[], given: Given, shell: Shell): Promise<ExitCode> {
  const call = await callFrom(jobs, await chooser(given, shell), shell)
  if (typeof call === 'number') return call
  const run = await loadCommand(call.command)
  return run({ ...given, arguments: call.arguments }, shell, async () => shell.language)
}
