/** The fault of an exercise: the one that was named, or one drawn by a number, with what goes with it. */
import { flowOf, flows } from '../../flows/all.ts'
import { audit } from '../core/audit/audit.ts'
import type { Build } from '../core/bench/build.ts'
import { faultByName, faultsOf } from '../core/faults/catalogue.ts'
import { type Fault, faultText, parseFault } from '../core/faults/fault.ts'
import { knowledgeOf } from '../core/infer/assess.ts'
import { anyNumber } from '../io/chance.ts'
import type { Ground, Job } from '../job/drive/job.ts'
import { engineRun } from '../job/practice/exercise.ts'
import {
  drawn,
  LEVELS,
  type Level,
  type Plantable,
  plantables,
  symptomFor,
} from '../job/practice/plantable.ts'
import type { Given, Shell } from './command.ts'
import { near } from './near.ts'

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

/** Undefined where there is none to be had, or the command line is wrong; that has been said by then. */
export function draw(given: Given, build: Build, shell: Shell): Drawn | undefined {
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
