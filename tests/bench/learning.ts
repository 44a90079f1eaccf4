/**
 * What learning from closed jobs is worth: a bench where a share of all jobs comes from three causes, drawn by chance,
 * two hundred jobs there, one after the other, and then the expected minutes with and without what they taught, and with
 * the true odds known, which no learner can better by much. All three work the same jobs. The rest of the jobs, and what is
 * within a cause, are as the catalogue has them.
 */
import { audit } from '../../src/core/audit/audit.ts'
import { compile } from '../../src/core/bench/build.ts'
import type { End, Suspect } from '../../src/core/checks/prompt.ts'
import { faultText } from '../../src/core/faults/fault.ts'
import { type Knowledge, knowledgeOf } from '../../src/core/infer/assess.ts'
import { classOf, factorOf, type Learned, NOTHING_LEARNT, sharesOf } from '../../src/core/infer/learned.ts'
import type { Plan } from '../../src/core/plan/plan.ts'
import { type Lesson, learn } from '../../src/job/history/learn.ts'
import { causesOf } from '../../src/job/history/lesson.ts'
import { groundFor, runJob } from '../support/run-job.ts'
import { type Case, seeded, singles } from './accuracy.ts'

type Played = Pick<End, 'minutes' | 'outcome' | 'suspects'>

const PAST = { spare: 'yes', tool: 'yes', consent: 'yes' }
/** What a job costs that ends without a fix, on top. */
const NOT_FIXED = 60
/** So many jobs are worked with the same memory; a bench would learn after each. */
const BATCH = 10

/** The place in which a number from 0 to 1 falls. */
function drawnAt(odds: readonly number[], place: number): number {
  let left = place
  for (const [i, p] of odds.entries()) {
    left -= p
    if (left < 0) return i
  }
  return odds.findLastIndex((p) => p > 0)
}

export function benchFor(plan: Plan, stride = 1) {
  const build = compile(plan)
  const all = singles(plan).cases
  const cases = all.filter((_, i) => i % stride === 0)
  const known = (one: Case) => one.faults[0] as Case['faults'][number]
  const faultOf = (one: Case) => known(one).fault
  const keyOf = (one: Case) => classOf(build, faultOf(one))
  const classes = cases.map(keyOf)
  const shares = sharesOf(build)
  const plain = asCatalogue()

  /** Each fault as often as the catalogue has it, under one of its symptoms; those that are played stand for their class. */
  function asCatalogue(): number[] {
    const symptoms = new Map<string, number>()
    for (const one of all)
      symptoms.set(faultText(faultOf(one)), (symptoms.get(faultText(faultOf(one))) ?? 0) + 1)
    const weightOf = (one: Case) => known(one).weight / (symptoms.get(faultText(faultOf(one))) ?? 1)
    const sums = (list: readonly Case[]) => {
      const by = new Map<string, number>()
      for (const one of list) by.set(keyOf(one), (by.get(keyOf(one)) ?? 0) + weightOf(one))
      return by
    }
    const [whole, played] = [sums(all), sums(cases)]
    const weights = cases.map((c) => (weightOf(c) * (whole.get(keyOf(c)) ?? 0)) / (played.get(keyOf(c)) ?? 1))
    const total = weights.reduce((a, b) => a + b, 0)
    return weights.map((w) => w / total)
  }

  const findings = audit(plan)
  const benches = new WeakMap<Learned, { known: Knowledge; played: Map<number, Played> }>()

  /** How a case ends with what was learnt; it ends so each time. */
  async function play(i: number, learned: Learned): Promise<Played> {
    const { known, played } = benches.get(learned) ?? {
      known: knowledgeOf(build, findings, learned),
      played: new Map<number, Played>(),
    }
    benches.set(learned, { known, played })
    const one = cases[i] as Case
    const ground = { ...groundFor(plan, one.symptom), build, known }
    const end = played.get(i) ?? (await runJob(plan, one.symptom, [faultOf(one)], { past: PAST }, ground)).end
    played.set(i, end)
    return end
  }

  /**
   * How often each case turns up at a bench with `share` of all jobs from three causes. Shops differ in how wide a cause is,
   * so one is a mode wherever it is, one a mode on a kind of part, one a mode on one kind of plug or setting of it; or all
   * three are of the last kind.
   */
  function truth(seed: number, share: number, narrow = false): number[] {
    const chance = seeded(seed * 7919)
    chance()
    const often = (narrow ? [3, 3, 3] : [1, 2, 3]).map((wide) => {
      const names = [...new Set(classes.map((key) => key.split('|', wide).join('|')))].sort()
      return { wide, name: names[Math.floor(chance() * names.length)] }
    })
    const isOften = classes.map((key) =>
      often.some(({ wide, name }) => key.split('|', wide).join('|') === name),
    )
    const mass = plain.reduce((sum, p, i) => sum + (isOften[i] ? p : 0), 0)
    // The catalogue may have as much in them already.
    if (mass >= share) return plain
    return plain.map((p, i) => (isOften[i] ? (p / mass) * share : (p / (1 - mass)) * (1 - share)))
  }

  /** The true odds as factors. */
  function exact(odds: readonly number[]): Learned {
    const sums = new Map<string, number>()
    for (const [i, key] of classes.entries()) sums.set(key, (sums.get(key) ?? 0) + (odds[i] ?? 0))
    return new Map([...shares].map(([key, q]) => [key, (sums.get(key) ?? 0) / q]))
  }

  /** The same answers, with another belief before them: suspects that cannot be told apart are weighed anew. */
  function reweighed(first: Suspect, learned: Learned): Suspect {
    const others = first.alike.reduce((sum, a) => sum + (a.p ?? 0), 0)
    const all = [{ faults: first.faults, p: first.p - others }, ...first.alike].map(({ faults, p = 0 }) => ({
      faults,
      p: p * faults.reduce((product, f) => product * factorOf(learned, build, f), 1),
    }))
    const scale = first.p / all.reduce((sum, a) => sum + a.p, 0)
    return { faults: first.faults, p: first.p, alike: all.slice(1).map((a) => ({ ...a, p: a.p * scale })) }
  }

  /** So many jobs of a bench, one after the other, and what they teach. */
  async function taught(odds: readonly number[], jobs: number, seed: number): Promise<Learned> {
    const chance = seeded(seed * 104729)
    chance()
    const lessons: Lesson[] = []
    let learned = NOTHING_LEARNT
    for (let job = 1; job <= jobs; job++) {
      const end = await play(drawnAt(odds, chance()), NOTHING_LEARNT)
      const suspects = end.suspects.slice(0, 1).map((first) => reweighed(first, learned))
      lessons.push({ shares, causes: causesOf(build, { outcome: end.outcome, suspects }) })
      if (job % BATCH === 0) learned = learn(lessons)
    }
    return learned
  }

  /** Mean minutes of `tests` jobs of a bench, evenly drawn from its odds, so the same ones whatever was learnt. */
  async function minutes(
    odds: readonly number[],
    learned: Learned,
    tests: number,
    seed: number,
  ): Promise<number> {
    const chance = seeded(seed * 15485863)
    chance()
    const start = chance()
    let sum = 0
    for (let test = 0; test < tests; test++) {
      const end = await play(drawnAt(odds, (test + start) / tests), learned)
      const lost = end.outcome === 'fixed' || end.outcome === 'nothing-wrong' ? 0 : NOT_FIXED
      sum += end.minutes + lost
    }
    return sum / tests
  }

  return { cases: cases.length, truth, exact, taught, minutes }
}

export { NOTHING_LEARNT }
