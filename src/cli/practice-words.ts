/** Lines about an exercise: what a step is called, what was seen, and how it went, put together from the wording. */
import type { Step } from '../core/checks/step.ts'
import { type Fault, faultText } from '../core/faults/fault.ts'
import type { Job } from '../job/drive/job.ts'
import { checkStep } from '../job/drive/steps.ts'
import type { Exercise } from '../job/practice/exercise.ts'
import { judge, namedRight } from '../job/practice/judge.ts'
import type { Choosable } from '../job/practice/options.ts'
import type { Language, Scene } from '../wording/language.ts'

/** What nobody could tell is left out, and so is not counted. */
const isSeen = (e: Job['trail'][number]): boolean => !e.undone && e.reply !== 'unsure'

/** Steps are numbered as the trainee sees them. */
export const sceneOf = (job: Job): Scene & { trail: Job['trail'] } => ({
  plan: job.ground.build.plan,
  done: job.history,
  trail: job.trail.filter(isSeen),
})

/** What a step is called in a list. */
export function stepName(
  step: Choosable | Exclude<Step, { kind: 'hand-over' }>,
  scene: Scene,
  language: Language,
): string {
  const { practice } = language
  if (step.kind === 'repair') {
    const { edits } = step.repair
    if (edits[0]?.do === 'power') return practice.powerCycle
    return edits.map((e) => language.edit(e, scene)).join(' ')
  }
  const { check } = step
  if (check.edits.length > 0) return practice.trial(check.edits.map((e) => language.edit(e, scene)).join(' '))
  const { ask } = checkStep(check, [])
  return ask ? language.question(ask, scene).title : check.id
}

/** What was said and seen, a line a step. */
export function seenLines(job: Job, from: number, language: Language): string[] {
  const scene = sceneOf(job)
  return job.trail
    .slice(from)
    .filter(isSeen)
    .map((e) => language.trail(e, scene))
}

export interface Talked {
  readonly exercise: Exercise
  readonly named: Fault | null
}

const LONGEST_BAR = 30

/** Two times as bars of signs that every terminal has. */
function bars(...all: readonly (readonly [name: string, minutes: number, said: string])[]): string[] {
  const most = Math.max(...all.map(([, minutes]) => minutes))
  if (most <= 0) return []
  const wide = Math.max(...all.map(([name]) => name.length))
  return all.map(([name, minutes, said]) => {
    const bar = '='.repeat(Math.max(1, Math.round((minutes / most) * LONGEST_BAR)))
    return `  ${name.padEnd(wide)}  ${bar} ${said}`
  })
}

/** How it went, for reading: the cause, both times, where minutes went, and how the engine goes about it. */
export function verdictLines({ exercise, named }: Talked, engine: Job, language: Language): string[] {
  const { practice, labels } = language
  const { job, fault } = exercise
  const scene = sceneOf(job)
  const is = language.fault(fault.fault, scene).name
  const said = named === null ? '' : language.fault(named, scene).name
  const { minutes, engineMinutes, choices, astray } = judge(exercise, engine)
  const cause =
    named === null
      ? practice.notNamed(is)
      : faultText(named) === faultText(fault.fault)
        ? practice.right(is)
        : namedRight(exercise, named)
          ? practice.alike(said, is)
          : practice.wrong(said, is)
  const where =
    astray === null
      ? choices > 0
        ? [practice.straight]
        : []
      : [
          practice.astray(astray.nth, stepName(astray.chosen, scene, language), labels.minutes(astray.loss)),
          ...(astray.idle ? [practice.idle] : []),
          astray.better ? practice.better(stepName(astray.better, scene, language)) : practice.betterHandOver,
        ]
  return [
    ...(job.end?.outcome === 'fixed' ? [] : [practice.notMended]),
    cause,
    practice.compare(labels.minutes(minutes), choices, labels.minutes(engineMinutes)),
    ...bars(
      [practice.you, minutes, labels.minutes(minutes)],
      [practice.engine, engineMinutes, labels.minutes(engineMinutes)],
    ),
    ...(engine.end?.outcome === 'fixed' ? [] : [practice.engineGaveUp]),
    '',
    ...where,
    '',
    practice.engineWay,
    ...seenLines(engine, 0, language).map((l) => `  ${l}`),
  ]
}
