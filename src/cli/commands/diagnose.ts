/** `whichlead diagnose PLAN`: finds what is wrong with a build, in whichever front end fits. */
import { resolve } from 'node:path'
import { flowOf, flows } from '../../../flows/all.ts'
import { WHICH_SYMPTOM } from '../../../flows/which-symptom.ts'
import { anyId } from '../../io/chance.ts'

import { openJob } from '../../job/open.ts'
import type { HandedIn } from '../../job/readings.ts'
import type { Session } from '../../job/view.ts'
import type { InputLine } from '../../plain/lines-in.ts'
import { askSymptoms } from '../ask-symptom.ts'
import { beforeJob } from '../before-job.ts'
import type { ExitCode, Given, Run, Shell } from '../command.ts'
import { type FrontEnd, frontEndFor, runJob, typedLines } from '../front-end.ts'
import { folderOf } from '../logs.ts'
import { memoryFor } from '../memory.ts'
import { near } from '../near.ts'
import { tellNotOpened } from '../not-opened.ts'
import { planWithTexts } from '../read-plan.ts'
import { fetchReadings, fitPlan, handIn } from '../readings.ts'
import { version } from '../version.ts'

const ids = (): string[] => flows.map((f) => f.id)

interface Asked {
  readonly symptoms: readonly string[]
  readonly lines?: AsyncIterable<InputLine>
}

/** `--symptom a --symptom b`, or `--symptom a,b`. */
const named = (given: Given): readonly string[] =>
  (given.lists.get('symptom') ?? []).flatMap((text) => text.split(',')).map((id) => id.trim())

/** The symptoms that were given or are chosen now; an exit code where there are none. */
async function symptomsFor(given: Given, frontEnd: FrontEnd, shell: Shell): Promise<Asked | ExitCode> {
  const { say } = shell.language.program
  const symptoms = named(given)
  // Asked for by name, the guide stands alone.
  const unknown = symptoms.find((id) => !flowOf(id) && !(id === WHICH_SYMPTOM && symptoms.length === 1))
  if (unknown !== undefined) {
    shell.err(say.unknownSymptom(unknown, near(unknown, ids()), ids()))
    return 2
  }
  if (symptoms.length > 0) return { symptoms }
  // A program that drives the job and names no symptom is asked by the guide.
  if (frontEnd === 'lines') return { symptoms: [WHICH_SYMPTOM] }
  const lines = frontEnd === 'plain' ? typedLines(shell) : undefined
  const chosen = await askSymptoms(ids(), lines, given, shell)
  if (typeof chosen === 'number') return chosen
  return { symptoms: chosen, ...(lines ? { lines } : {}) }
}

/** Who is at the bench, and where, if it was said. */
const said = <K extends 'who' | 'where'>(given: Given, key: K): { readonly [key in K]?: string } => {
  const text = given.values.get(key)?.trim()
  return text ? ({ [key]: text } as { [key in K]: string }) : {}
}

interface Opened {
  readonly session: Session
  readonly lines?: AsyncIterable<InputLine>
}

async function open(
  given: Given,
  readings: readonly HandedIn[],
  frontEnd: FrontEnd,
  shell: Shell,
): Promise<Opened | ExitCode> {
  const plan = planWithTexts(given.arguments[0] ?? '', shell)
  if (plan === undefined || !fitPlan(readings, plan.plan, shell)) return 2
  const asked = await symptomsFor(given, frontEnd, shell)
  if (typeof asked === 'number') return asked
  const [symptom, ...also] = asked.symptoms
  const file = given.values.get('log')
  const memory = await memoryFor(given, shell)
  const opening = await openJob({
    plan: plan.plan,
    copy: plan.texts,
    symptom: symptom ?? WHICH_SYMPTOM,
    also,
    log: file === undefined ? { folder: folderOf(shell) } : { file: resolve(shell.cwd, file) },
    tool: version,
    clock: Date.now,
    id: anyId(),
    learned: memory.learned,
    // So that a report can say on how many jobs the first suspicion rests.
    options: {
      ...(memory.jobs === 0 ? {} : { 'learned-from': memory.jobs }),
      ...(given.flags.has('fold') ? { fold: true } : {}),
    },
    ...said(given, 'who'),
    ...said(given, 'where'),
  })
  if (!opening.ok) return tellNotOpened(opening.trouble, shell)
  await handIn(readings, opening.session, shell)
  return { session: opening.session, ...(asked.lines ? { lines: asked.lines } : {}) }
}

export const run: Run = async (given, outer) => {
  const fetched = await fetchReadings(given, outer)
  if (typeof fetched === 'number') return fetched
  const { readings, shell } = fetched
  const frontEnd = frontEndFor(given, shell)
  const opened = await beforeJob(frontEnd, shell, (telling) => open(given, readings, frontEnd, telling))
  if (typeof opened === 'number') return opened
  const { session, ...lines } = opened
  return runJob(session, { frontEnd, plan: given.arguments[0] ?? '', ...lines }, given, shell)
}
