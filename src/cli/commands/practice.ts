/** `whichlead practice [PLAN]`: an exercise on a planted fault, on the screen by menus or line by line. */
import { flowOf, flows } from '../../../flows/all.ts'
import { audit } from '../../core/audit/audit.ts'
import { type Build, compile } from '../../core/bench/build.ts'
import { faultByName, faultsOf } from '../../core/faults/catalogue.ts'
import { type Fault, faultText, parseFault } from '../../core/faults/fault.ts'
import { knowledgeOf } from '../../core/infer/assess.ts'
import { anyNumber } from '../../io/chance.ts'
import { demoBuild } from '../../io/demo-build.ts'
import type { Ground, Job } from '../../job/drive/job.ts'
import { beginExercise, engineRun } from '../../job/practice/exercise.ts'
import {
  drawn,
  LEVELS,
  type Level,
  type Plantable,
  plantables,
  symptomFor,
} from '../../job/practice/plantable.ts'
import { runChoice } from '../../plain/choice.ts'
import { wrap } from '../../plain/wrap.ts'
import type { ExitCode, Given, Run, Shell } from '../command.ts'
import { factsOf, frontEndFor, prepareForScreen, talkOf, typedLines } from '../front-end.ts'
import { near } from '../near.ts'
import { type Choose, talk } from '../practice-talk.ts'
import { verdictLines } from '../practice-words.ts'
import { planFrom } from '../read-plan.ts'

const MOST_SEED = 999_999
const TRIES = 12

interface Drawn {
  readonly plantable: Pick<Plantable, 'known' | 'symptom'>
  readonly ground: Ground
  readonly engine: Job
  /** How to get the same again, and other faults that it could be taken for. */
  readonly again: string | null
  readonly likely: readonly Fault[]
}

function groundFor(build: Build, symptom: string): Ground {
  const flow = flowOf(symptom)
  if (!flow) throw new Error(`no flow ${symptom}`)
  return { build, flow, known: knowledgeOf(build, audit(build.plan)) }
}

/** So many causes to choose the name from, beside the true one. */
const DECOYS = 6

function likelyBeside(
  all: readonly Plantable[],
  one: Pick<Plantable, 'known' | 'symptom'>,
): readonly Fault[] {
  return all
    .filter((p) => p.symptom === one.symptom && p.looks === looksOf(all, one))
    .sort((a, b) => b.known.weight - a.known.weight)
    .slice(0, DECOYS)
    .map((p) => p.known.fault)
}

const looksOf = (all: readonly Plantable[], one: Pick<Plantable, 'known'>): string | undefined =>
  all.find((p) => faultText(p.known.fault) === faultText(one.known.fault))?.looks

function levelAndSeed(given: Given, shell: Shell): { level: Level; seed: number } | undefined {
  const { practice } = shell.language
  const asked = given.values.get('level') ?? 'easy'
  const level = LEVELS.find((l) => l === asked)
  if (level === undefined) {
    shell.err(practice.badLevel(asked, LEVELS))
    return undefined
  }
  const text = given.values.get('seed')
  if (text !== undefined && !/^\d{1,6}$/.test(text)) {
    shell.err(practice.badSeed(text))
    return undefined
  }
  return { level, seed: text === undefined ? anyNumber(MOST_SEED) : Number(text) }
}

function named(text: string, build: Build, all: readonly Plantable[], shell: Shell): Drawn | undefined {
  const fault = parseFault(text)
  const known = fault && faultByName(build, fault)
  if (!known) {
    const names = faultsOf(build).map((f) => faultText(f.fault))
    shell.err(shell.language.program.say.badFault(text, near(text, names)))
    return undefined
  }
  const symptom = symptomFor(build, flows, known)
  if (symptom === undefined) {
    shell.err(shell.language.practice.unseen(text))
    return undefined
  }
  const ground = groundFor(build, symptom)
  const plantable = { known, symptom }
  return {
    plantable,
    ground,
    engine: engineRun(ground, known),
    again: null,
    likely: likelyBeside(all, plantable),
  }
}

/** The first of this number and those after it that can be mended at a bench. */
function byChance(
  how: { level: Level; seed: number },
  build: Build,
  all: readonly Plantable[],
  shell: Shell,
): Drawn | undefined {
  const { practice } = shell.language
  for (let nth = 0; nth < TRIES; nth++) {
    const plantable = drawn(all, how.level, how.seed + nth)
    if (!plantable) break
    const ground = groundFor(build, plantable.symptom)
    const engine = engineRun(ground, plantable.known)
    const again = practice.again(how.seed, how.level)
    if (engine.end?.outcome === 'fixed')
      return { plantable, ground, engine, again, likely: likelyBeside(all, plantable) }
  }
  shell.err(practice.noFault(how.level))
  return undefined
}

function draw(given: Given, build: Build, shell: Shell): Drawn | undefined {
  const fault = given.values.get('fault')
  if (fault !== undefined && (given.values.has('level') || given.values.has('seed'))) {
    shell.err(shell.language.practice.faultOrLevel)
    return undefined
  }
  const how = fault === undefined ? levelAndSeed(given, shell) : undefined
  if (fault === undefined && how === undefined) return undefined
  const all = plantables(build, flows)
  return how ? byChance(how, build, all, shell) : named(fault ?? '', build, all, shell)
}

interface Front {
  readonly choose: Choose
  /** Prints what stands below the prompt at the end. */
  readonly tell: (lines: readonly string[]) => void
  /** Exit code once it was left. */
  readonly code: () => ExitCode
  readonly close: () => Promise<void>
}

const GO_ON = 'go-on'
/** So much of what was seen stands above a menu; the pages before had it all. */
const SEEN_ABOVE = 2

function byLines(given: Given, shell: Shell): Front {
  const ends = talkOf(shell, typedLines(shell), given.flags.has('ascii'))
  const tell = (lines: readonly string[]): void => {
    for (const line of lines) ends.write(`${wrap(line, ends.columns)}\n`)
  }
  return {
    tell,
    code: () => 0,
    close: async () => {},
    choose: async ({ title, fresh, beware, choices }) => {
      tell([...fresh, ...beware, ''])
      return (await runChoice(title, choices, ends, shell.language)) ?? undefined
    },
  }
}

async function onScreen(given: Given, shell: Shell): Promise<Front> {
  prepareForScreen(shell)
  const { openMenus } = await import('../../ui/chooser.tsx')
  const { language, stdin, stdout } = shell
  const ascii = given.flags.has('ascii') || !factsOf(shell).unicode
  const menus = openMenus({ language, ascii, stdin, stdout })
  let code: ExitCode = 0
  const take = async (
    title: string,
    above: Parameters<typeof menus.choose>[2],
    choices: Parameters<typeof menus.choose>[0],
  ): Promise<string | undefined> => {
    const taken = await menus.choose(choices, title, above)
    if (taken.id !== null) return taken.id
    code = taken.code as ExitCode
    return taken.back ? 'back' : undefined
  }
  return {
    tell: byLines(given, shell).tell,
    code: () => code,
    close: menus.close,
    choose: async ({ title, fresh, freshTitle, seen, beware, choices }) => {
      // What the bench answers is read before the next thing is asked, however long that takes.
      if (fresh.length > 0) {
        const read = await take(freshTitle, { texts: fresh }, [{ id: GO_ON, label: language.practice.goOn }])
        if (read === undefined) return undefined
      }
      const rows = choices.map(({ id, name, hint }) => ({ id, label: name, hint }))
      const above = beware.length > 0 ? { texts: beware } : { texts: seen.slice(-SEEN_ABOVE), wasRead: true }
      return take(title, above, rows)
    },
  }
}

export const run: Run = async (given, shell) => {
  const { language } = shell
  const path = given.arguments[0] ?? demoBuild(shell.program)
  if (path === undefined) {
    shell.err(language.practice.noDemo)
    return 2
  }
  const plan = planFrom(path, shell)
  if (plan === undefined) return 2
  if (shell.stdout.isTTY) shell.out(language.practice.planting)
  const chosen = draw(given, compile(plan), shell)
  if (chosen === undefined) return 2
  const { plantable, ground, engine, again, likely } = chosen
  const frontEnd = frontEndFor(given, shell)
  const front = frontEnd === 'screen' ? await onScreen(given, shell) : byLines(given, shell)
  const intro = [
    ...language.practice.intro(plan.build, language.symptom(plantable.symptom).name),
    ...(again === null ? [] : [again]),
  ]
  const talked = await talk(beginExercise(ground, plantable.known), intro, likely, front.choose, language)
  await front.close()
  const code = front.code()
  if (code === 0) front.tell(['', ...verdictLines(talked, engine, language)])
  shell.stdin.destroy()
  return code
}
