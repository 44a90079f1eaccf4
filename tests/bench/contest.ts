/**
 * Ways of choosing the next step against each other, on whole jobs of one plan: the same faults, drawn by their priors,
 * the same bench, flows, gate and proof; only who chooses differs. Beside them, what the same jobs take when the
 * fault is told for nothing. A job that is not fixed costs what handing over stands for.
 */
import { audit } from '../../src/core/audit/audit.ts'
import { compile } from '../../src/core/bench/build.ts'
import { HAND_OVER_MINUTES } from '../../src/core/checks/looks.ts'
import { faultText } from '../../src/core/faults/fault.ts'
import { type Knowledge, knowledgeOf } from '../../src/core/infer/assess.ts'
import { type Hypothesis, hypotheses } from '../../src/core/infer/hypothesis.ts'
import type { Decision, Problem, Standing } from '../../src/core/infer/problem.ts'
import type { Plan } from '../../src/core/plan/plan.ts'
import { groundFor, runJob } from '../support/run-job.ts'
import { type Case, seeded, singles } from './accuracy.ts'

/** A step without the minutes that are expected of it. */
type Step =
  | { readonly do: 'check' | 'repair'; readonly index: number; readonly minutes?: number }
  | { readonly do: 'escalate'; readonly minutes?: number }

/** Who chooses; nobody: the engine itself. Made anew for each job, for what it keeps in mind. */
export type Way = ((symptom: string) => (problem: Problem, standing: Standing) => Step) | 'engine' | 'told'

export interface Played {
  readonly case: Case
  readonly minutes: number
  readonly fixed: boolean
  readonly steps: number
}

/**
 * Jobs drawn by the priors of their faults, one symptom of each fault as likely as another; systematic sampling, so that
 * the draw is as even as it can be.
 */
export function drawnJobs(plan: Plan, jobs: number, seed: number): readonly Case[] {
  const { cases } = singles(plan)
  const nameOf = (one: Case): string => one.faults.map((f) => faultText(f.fault)).join()
  const symptoms = new Map<string, number>()
  for (const one of cases) symptoms.set(nameOf(one), (symptoms.get(nameOf(one)) ?? 0) + 1)
  const weights = cases.map((one) => (one.faults[0]?.weight ?? 0) / (symptoms.get(nameOf(one)) ?? 1))
  const step = weights.reduce((a, b) => a + b, 0) / jobs
  const drawn: Case[] = []
  let next = seeded(seed)() * step
  let sum = 0
  for (const [i, one] of cases.entries()) {
    sum += weights[i] ?? 0
    while (sum > next && drawn.length < jobs) {
      drawn.push(one)
      next += step
    }
  }
  return drawn
}

/** The only suspect is what was planted. */
class OnlyThis extends Map<string, readonly Hypothesis[]> {
  private readonly hypotheses: readonly Hypothesis[]
  constructor(hypotheses: readonly Hypothesis[]) {
    super()
    this.hypotheses = hypotheses
  }
  override get(): readonly Hypothesis[] {
    return this.hypotheses
  }
}

function told(known: Knowledge, { faults: [fault] }: Case): Knowledge {
  const all = hypotheses(known.build, () => true, known.findings)
  const only = all.flatMap((h) =>
    h.kind === 'none'
      ? [{ ...h, prior: 1e-4 }]
      : fault && h.id === faultText(fault.fault)
        ? [{ ...h, prior: 1 }]
        : [],
  )
  return { ...known, singles: new OnlyThis(only) }
}

/** @param wrong chance that a look is told wrong */
export async function playWay(
  plan: Plan,
  way: Way,
  cases: readonly Case[],
  wrong: number,
): Promise<readonly Played[]> {
  const build = compile(plan)
  const known = knowledgeOf(build, audit(plan))
  const played: Played[] = []
  for (const [i, one] of cases.entries()) {
    const chance = seeded(i + 1)
    const knowledge = way === 'told' ? told(known, one) : { ...known, ...chooserOf(way, one.symptom) }
    const ground = { ...groundFor(plan, one.symptom), build, known: knowledge }
    const manner = {
      past: { spare: 'yes', tool: 'yes', consent: 'yes' },
      ...(wrong > 0 ? { errs: () => chance() < wrong } : {}),
    }
    const faults = one.faults.map((f) => f.fault)
    const { end, prompts } = await runJob(plan, one.symptom, faults, manner, ground)
    const fixed = end.outcome === 'fixed'
    played.push({
      case: one,
      minutes: end.minutes + (fixed ? 0 : HAND_OVER_MINUTES),
      fixed,
      steps: prompts.length,
    })
  }
  return played
}

function chooserOf(way: Way, symptom: string): Pick<Knowledge, 'choose'> {
  if (typeof way === 'string') return {}
  const choose = way(symptom)
  return {
    choose: (problem, standing): Decision => {
      const step = choose(problem, standing)
      return { best: { ...step, minutes: step.minutes ?? 0 }, others: [] }
    },
  }
}
