/**
 * The talk of an exercise, whatever it is shown on: what was seen, what can be chosen, what came of it. The front end only
 * has to let somebody choose from a list.
 */
import { type Fault, faultText } from '../core/faults/fault.ts'
import { crossCheck } from '../job/drive/cross-check.ts'
import { type Job, powerOf } from '../job/drive/job.ts'
import { chooseStep, didStep, type Exercise, namesOffered } from '../job/practice/exercise.ts'
import { type Choosable, choosable, GROUPS, type Group, placeOf, stepFor } from '../job/practice/options.ts'
import type { Language, Scene } from '../wording/language.ts'
import { sceneOf, seenLines, stepName, type Talked } from './practice-words.ts'

export interface Offer {
  readonly title: string
  /** What was told since the last offer; and what that is: the exercise at its beginning, then an answer. */
  readonly fresh: readonly string[]
  readonly freshTitle: string
  /** All that was seen so far; and what to beware of in what is to be done now. */
  readonly seen: readonly string[]
  readonly beware: readonly string[]
  readonly choices: readonly { readonly id: string; readonly name: string; readonly hint: string }[]
}

/** What was taken; `back` for a level back, undefined for leaving. */
export type Choose = (offer: Offer) => Promise<string | 'back' | undefined>

const BACK = 'back'
const GIVE_UP = 'give-up'
const DONE = 'done'
/** Longer lists are asked for place by place. */
const LONG = 9

const minutesOf = (step: Choosable): number =>
  step.kind === 'check' ? step.check.minutes : step.repair.minutes

/** Runs an exercise until it is mended and named, or left. */
export async function talk(
  start: Exercise,
  intro: readonly string[],
  likely: readonly Fault[],
  choose: Choose,
  language: Language,
): Promise<Talked> {
  const { practice, labels } = language
  const notes = crossCheck(start.job).flatMap((note) => language.note(note, { ...sceneOf(start.job) }))
  const seen: string[] = []
  let fresh: string[] = []
  let freshTitle = practice.begins
  const tell = (lines: readonly string[]): void => void fresh.push(...lines)
  const ask: Ask = async (title, choices, beware = []) => {
    const offer = { title, fresh, freshTitle, seen: [...seen], beware, choices }
    fresh = []
    return choose(offer)
  }
  let exercise = start
  let told = 0
  tell([...intro, practice.seen])
  for (;;) {
    const { job } = exercise
    const lines = seenLines(job, told, language)
    tell(lines)
    seen.push(...lines)
    if (told === 0) tell(notes)
    else freshTitle = practice.answers(labels.power[powerOf(job)], labels.minutes(job.minutes))
    told = job.trail.length
    if (job.end) break
    const prompt = job.pending?.prompt
    if (prompt?.show === 'do') {
      const said = await toDo(exercise, ask, language)
      if (said !== DONE) return { exercise, named: null }
      exercise = didStep(exercise)
      continue
    }
    const step = await nextStep(job, ask, language)
    if (step === undefined) return { exercise, named: null }
    exercise = chooseStep(exercise, stepFor(job, step), step.id)
  }
  if (exercise.job.end?.outcome !== 'fixed') return { exercise, named: null }
  const names = namesOffered(exercise, likely)
  const scene = sceneOf(exercise.job)
  const said = await ask(
    practice.nameIt,
    names.map((f) => ({ id: faultText(f), name: language.fault(f, scene).name, hint: '' })),
  )
  return { exercise, named: names.find((f) => faultText(f) === said) ?? null }
}

type Ask = (
  title: string,
  choices: Offer['choices'],
  beware?: readonly string[],
) => Promise<string | undefined>

/** Something to be done, with its cautions: what was chosen is not done before it is said to be. */
async function toDo({ job }: Exercise, ask: Ask, language: Language): Promise<string | undefined> {
  const { practice, labels } = language
  const prompt = job.pending?.prompt
  if (prompt?.show !== 'do') return DONE
  const { title, lines, cautions } = language.step(prompt, sceneOf(job))
  const beware = cautions.map((c) => [`${c.title}.`, ...c.lines].join(' '))
  for (;;) {
    const said = await ask(
      practice.do([title, ...lines].join(' '), labels.minutes(prompt.minutes)),
      [
        { id: DONE, name: practice.done, hint: '' },
        { id: GIVE_UP, name: practice.giveUp, hint: '' },
      ],
      beware,
    )
    if (said !== BACK) return said
  }
}

/** Asks for the kind of step, for the place where there are many, and for the step. */
async function nextStep(job: Job, ask: Ask, language: Language): Promise<Choosable | undefined> {
  const { practice, labels } = language
  const steps = choosable(job)
  const power = labels.power[powerOf(job)]
  for (;;) {
    const groups = GROUPS.map((id) => ({ id, steps: steps.filter((s) => s.group === id) })).filter(
      (g) => g.steps.length > 0,
    )
    const said = await ask(practice.next(power, labels.minutes(job.minutes)), [
      ...groups.map((g) => ({
        id: g.id,
        name: practice.count(practice.group[g.id][0], g.steps.length),
        hint: practice.group[g.id][1],
      })),
      { id: GIVE_UP, name: practice.giveUp, hint: '' },
    ])
    if (said === undefined || said === GIVE_UP) return undefined
    const group = groups.find((g) => g.id === said)
    const step = group && (await stepIn(job, group.id, group.steps, ask, language))
    if (step === 'leave') return undefined
    if (step) return step
  }
}

async function stepIn(
  job: Job,
  group: Group,
  steps: readonly Choosable[],
  ask: Ask,
  language: Language,
): Promise<Choosable | 'leave' | undefined> {
  const { practice } = language
  const scene = sceneOf(job)
  const back = { id: BACK, name: practice.back, hint: '' }
  const label = practice.group[group][0]
  const pick = async (
    there: readonly Choosable[],
    where: string,
  ): Promise<Choosable | 'leave' | undefined> => {
    const said = await ask(practice.which(label, where), [
      ...there.map((s) => ({ id: s.id, name: named(s, scene, language), hint: needsOf(s, language) })),
      back,
    ])
    return said === undefined ? 'leave' : there.find((s) => s.id === said)
  }
  if (steps.length <= LONG) return pick(steps, practice.part)
  const { partAt } = job.ground.build
  // The board and the supply, then the parts as the plan has them.
  const rank = (id: string): number => partAt.get(id) ?? (id === 'board' ? -2 : -1)
  const places = [...new Set(steps.map((s) => placeOf(job, s)))].sort((a, b) => rank(a) - rank(b))
  for (;;) {
    const said = await ask(practice.which(label, ''), [
      ...places.map((id) => ({
        id,
        name: practice.count(language.part(id, scene), steps.filter((s) => placeOf(job, s) === id).length),
        hint: '',
      })),
      back,
    ])
    if (said === undefined) return 'leave'
    if (said === BACK) return undefined
    const step = await pick(
      steps.filter((s) => placeOf(job, s) === said),
      language.part(said, scene),
    )
    if (step !== undefined) return step
  }
}

const named = (step: Choosable, scene: Scene, language: Language): string =>
  language.practice.minutes(stepName(step, scene, language), language.labels.minutes(minutesOf(step)))

function needsOf(step: Choosable, language: Language): string {
  const { practice } = language
  if (step.kind === 'repair') return practice.needs(step.repair.power === 'off', [], step.repair.spare)
  const { check } = step
  if (step.group === 'outside') return ''
  return practice.needs(check.power === 'off' || check.fit || check.edits.length > 0, check.tools, null)
}
