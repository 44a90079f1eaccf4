/**
 * Why this step, in numbers: what each reply would do to the suspects, what else was weighed, which answers speak for
 * and against each suspect. Taken from the very reasoning that chose the step.
 */
import type { Suspect } from '../../core/checks/prompt.ts'
import type { Step } from '../../core/checks/step.ts'
import { type Alive, aliveOf } from '../../core/infer/alive.ts'
import { plannedCheck } from '../../core/infer/foresee.ts'
import { suspectsOf } from '../../core/infer/suspects.ts'
import type { Why } from '../view.ts'
import type { Job } from './job.ts'
import { dossierOf, type Thought, think } from './think.ts'

const nameOf = (step: Step): string =>
  step.kind === 'check' ? step.check.id : step.kind === 'repair' ? step.repair.id : 'hand over'

/** Ten times the decimal logarithm of how much likelier the answer is under the suspect than under the rest. */
function decibans({ assessment }: Thought, evidence: number, hypothesis: number): number {
  const { belief, columns } = assessment
  const column = columns[evidence]
  if (!column) return 0
  let others = 0
  let mass = 0
  for (let h = 0; h < belief.length; h++) {
    if (h === hypothesis) continue
    others += (belief[h] ?? 0) * (column[h] ?? 0)
    mass += belief[h] ?? 0
  }
  const rest = mass > 1e-9 ? others / mass : (column[hypothesis] ?? 1)
  return 10 * Math.log10((column[hypothesis] ?? 1e-12) / Math.max(rest, 1e-12))
}

const WORTH_TELLING = 0.5

function evidenceFor(job: Job, thought: Thought, suspect: Suspect) {
  const id = suspect.faults.map((f) => `${f.at}:${f.mode}`).join(' + ')
  const hypothesis = thought.assessment.hypotheses.findIndex(
    (h) => h.faults.map((f) => `${f.at}:${f.mode}`).join(' + ') === id,
  )
  const weights = dossierOf(job)
    .evidence.map((e, i) => ({
      seq: e.seq,
      decibans: Math.round(decibans(thought, i, hypothesis) * 10) / 10,
    }))
    .filter((w) => Math.abs(w.decibans) >= WORTH_TELLING)
  return {
    suspect,
    speaksFor: weights.filter((w) => w.decibans > 0).sort((a, b) => b.decibans - a.decibans),
    speaksAgainst: weights.filter((w) => w.decibans < 0).sort((a, b) => a.decibans - b.decibans),
  }
}

/** Suspects after each answer of the question in hand. */
function repliesOf(job: Job, thought: Thought): Why['replies'] {
  const ask = job.pending?.prompt
  if (ask?.show !== 'ask' || ask.many || !('observe' in ask)) return []
  const alive = aliveOf(thought.assessment)
  const edits = [] as const
  const planned = plannedCheck(job.ground.known, dossierOf(job), alive, {
    id: ask.id,
    edits,
    observe: ask.observe,
    power: ask.power,
    hands: ask.hands,
    minutes: ask.minutes,
    error: ask.error,
    tools: ask.tools,
    fit: false,
  })
  return ask.answers.map(({ id }) => {
    const o = planned.answers.findIndex((a) => a.id === id)
    const after = alive.map((a, i): Alive => ({ h: a.h, p: a.p * (planned.table[i]?.[o] ?? 0) }))
    const p = after.reduce((sum, a) => sum + a.p, 0)
    const scaled = after.map((a) => ({ ...a, p: p > 0 ? a.p / p : 0 })).sort((a, b) => b.p - a.p)
    return { id, p, suspects: p > 0 ? suspectsOf(scaled, [], 3) : [] }
  })
}

/** For who asks; not made for every prompt. */
export function whyOf(job: Job): Why {
  const thought = think(job)
  return {
    expectedMinutes: thought.outlook.expectedMinutes,
    others: thought.outlook.others.map(({ step, expectedMinutes }) => ({
      id: nameOf(step),
      what: step.kind,
      expectedMinutes,
    })),
    replies: repliesOf(job, thought),
    suspects: thought.suspects.slice(0, 4).map((s) => evidenceFor(job, thought, s)),
  }
}
