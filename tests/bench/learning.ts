/**
 * What learning from closed jobs is worth: a bench where some classes of faults turn up far more often than the
 * catalogue has it, two hundred jobs there, and then the expected minutes with and without what they taught. Each fault
 * is played once with and once without, so the expectation is exact for the bench; only the two hundred are drawn.
 */
import { audit } from '../../src/core/audit/audit.ts'
import { compile } from '../../src/core/bench/build.ts'
import type { Suspect } from '../../src/core/checks/prompt.ts'
import { knowledgeOf } from '../../src/core/infer/assess.ts'
import { classOf, type Learned, NOTHING_LEARNT, sharesOf } from '../../src/core/infer/learned.ts'
import type { Plan } from '../../src/core/plan/plan.ts'
import { learn } from '../../src/job/history/learn.ts'
import { causesOf } from '../../src/job/history/lesson.ts'
import { groundFor, runJob } from '../support/run-job.ts'
import { type Case, seeded, singles } from './accuracy.ts'

interface Played {
  readonly minutes: number
  readonly outcome: string
  readonly suspects: readonly Suspect[]
}

const PAST = { spare: 'yes', tool: 'yes', consent: 'yes' }

/** The place in which a number from 0 to 1 falls. */
function drawnAt(odds: readonly number[], place: number): number {
  let left = place
  for (const [i, p] of odds.entries()) {
    left -= p
    if (left < 0) return i
  }
  return 0
}

export function benchFor(plan: Plan, stride = 1) {
  const build = compile(plan)
  const cases = singles(plan).cases.filter((_, i) => i % stride === 0)
  const classes = cases.map((c) => classOf(build, (c.faults[0] as Case['faults'][number]).fault))
  const weights = cases.map((c) => c.faults[0]?.weight ?? 0)

  /** Plays every case with what was learnt. */
  async function playAll(learned: Learned): Promise<Played[]> {
    const known = knowledgeOf(build, audit(plan), learned)
    const played: Played[] = []
    for (const one of cases) {
      const ground = { ...groundFor(plan, one.symptom), build, known }
      try {
        const { end } = await runJob(
          plan,
          one.symptom,
          one.faults.map((f) => f.fault),
          { past: PAST },
          ground,
        )
        played.push({
          minutes: end.minutes + (end.outcome === 'handed-over' || end.outcome === 'declined' ? 60 : 0),
          outcome: end.outcome,
          suspects: end.suspects,
        })
      } catch {
        played.push({ minutes: 60, outcome: 'broke off', suspects: [] })
      }
    }
    return played
  }

  /** How often each case turns up at a bench: by the catalogue, or with `share` of all jobs in `few` classes. */
  function truth(seed: number, few: number, share: number): number[] {
    const total = weights.reduce((a, b) => a + b, 0)
    const plain = weights.map((w) => w / total)
    if (few === 0) return plain
    const chance = seeded(seed)
    const all = [...new Set(classes)].sort()
    const often = new Set<string>()
    while (often.size < few) often.add(all[Math.floor(chance() * all.length)] ?? '')
    const mass = plain.reduce((sum, p, i) => sum + (often.has(classes[i] ?? '') ? p : 0), 0)
    return plain.map((p, i) =>
      often.has(classes[i] ?? '') ? (p / mass) * share : (p / (1 - mass)) * (1 - share),
    )
  }

  /** Two hundred jobs drawn from a bench, as they ended without learning, and what they teach. */
  function taught(
    odds: readonly number[],
    ends: readonly Played[],
    jobs: number,
    seed: number,
    prior?: number,
  ): Learned {
    const chance = seeded(seed + 1000)
    const shares = sharesOf(build)
    const lessons = Array.from({ length: jobs }, () => {
      const at = drawnAt(odds, chance())
      const end = ends[at]
      const causes = end?.outcome === 'fixed' ? causesOf(build, end.suspects) : new Map<string, number>()
      return { shares, causes }
    })
    return prior === undefined ? learn(lessons) : learn(lessons, prior)
  }

  const expected = (odds: readonly number[], played: readonly Played[]): number =>
    odds.reduce((sum, p, i) => sum + p * (played[i]?.minutes ?? 0), 0)

  /** How much more the class of a job to come is believed, in decibans: 10 log10 of the factor, expected over the bench. */
  const toldOf = (odds: readonly number[], learned: Learned): number =>
    odds.reduce((sum, p, i) => sum + p * 10 * Math.log10(learned.get(classes[i] ?? '') ?? 1), 0)

  return { cases, classes, playAll, truth, taught, expected, toldOf }
}

export { NOTHING_LEARNT }
