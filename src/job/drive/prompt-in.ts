/**
 * The prompt of a state of the flow: the gate, what hands do inside, what is done with the machine running, the look, the
 * proof. Power and hands are the flow's; the engine only says what it would like.
 */
import { isInside, isOutside, type WorkStep } from '../../../flows/shared/step.ts'
import type { What } from '../../core/bench/observable.ts'
import { SWITCH_MINUTES } from '../../core/checks/looks.ts'
import { type MapKind, mapAsk } from '../../core/checks/maps.ts'
import { undoing } from '../../core/checks/offer.ts'
import type { Ask, Do, Prompt, Purpose, Task } from '../../core/checks/prompt.ts'
import { hasHostWork } from '../../core/faults/governed.ts'
import { scopeAfter } from '../../core/infer/foresee.ts'
import { hostAfter } from '../../core/infer/planned.ts'
import { gateCautions } from './cautions.ts'
import { type Job, powerOf } from './job.ts'
import { scopeKinds, scopeOf } from './think.ts'

/** @param state as the flow has it, one that shows something */
export function promptIn(job: Job, state: string): Prompt {
  const { step } = job
  if (!step) throw new Error(`no step in ${state}`)
  switch (state) {
    case 'isolating.gate.closing':
      return gate(job, 'off')
    case 'isolating.gate.opening':
      return gate(job, 'on')
    case 'isolating.handsIn.doing':
      return doingInside(job, step)
    case 'isolating.outside.doing':
      return doingOutside(step)
    case 'isolating.proving.asking':
      return proof(job)
    default:
      if (!step.ask) throw new Error(`nothing to ask in ${state}`)
      return { ...step.ask, power: powerOf(job), hands: state.startsWith('isolating.handsIn') ? 'in' : 'out' }
  }
}

const gate = (job: Job, to: 'on' | 'off'): Do => ({
  show: 'do',
  id: `power ${to}`,
  purpose: 'gate',
  edits: [{ do: 'power', to }],
  power: to,
  hands: 'out',
  minutes: SWITCH_MINUTES,
  cautions: gateCautions(to, job.cautioned, job.ground.build.plan),
  ...gateTask(job, to),
})

/** On a first boot the machine was never on before, and the first seconds after power on are to be watched. */
function gateTask(job: Job, to: 'on' | 'off'): { readonly task?: Task } {
  if (!job.ground.flow.walk) return {}
  if (to === 'off') return job.history.length === 0 ? { task: 'never-on' } : {}
  const watched = job.step?.task === 'firmware' || job.step?.task === 'cold-start'
  if (watched) return { task: 'first-on' }
  // After a repair in between, the setup is where the walk stands.
  return hasHostWork(job.ground.build) && hostAfter(job.ground.build, job.history) === 'absent'
    ? { task: 'on-again' }
    : {}
}

const PURPOSE: Readonly<Record<WorkStep['kind'], Purpose>> = {
  check: 'check',
  repair: 'repair',
  restore: 'restore',
  again: 'check',
}

/** Putting back what a trial changed. */
const PUT_BACK_MINUTES = 2
const SET_MINUTES = 2
const LEAST_MINUTES = 0.5

/** What hands do, behind the gate; what a trial changed is put back first, in the same go. */
function doingInside(job: Job, step: WorkStep): Do {
  const edits = step.edits.filter(isInside)
  const doing = Math.max(LEAST_MINUTES, step.minutes - (step.ask?.minutes ?? 0))
  return {
    show: 'do',
    id: `do ${step.id}`,
    purpose: edits.length > 0 || step.kind !== 'repair' ? PURPOSE[step.kind] : 'restore',
    edits: [...undoing(job.ground.build, job.inForce), ...edits],
    power: 'off',
    hands: 'in',
    minutes: edits.length > 0 || step.ask ? doing : PUT_BACK_MINUTES,
    cautions: handsInCautions(step.ask),
  }
}

/** Settings and tasks, for which the machine must run. */
const doingOutside = (step: WorkStep): Do => ({
  show: 'do',
  id: `set ${step.id}`,
  purpose: PURPOSE[step.kind],
  edits: step.edits.filter(isOutside),
  power: 'on',
  hands: 'out',
  minutes: step.edits.some(isInside)
    ? SET_MINUTES
    : step.task
      ? Math.round((step.minutes - (step.ask?.minutes ?? 0)) * 100) / 100
      : step.minutes,
  cautions: [],
  ...(step.task === undefined ? {} : { task: step.task }),
})

const handsInCautions = (ask: Ask | null): readonly string[] =>
  ask?.tools.includes('meter')
    ? ['meter-live', 'no-probe-across-pins']
    : looksAt(ask, 'when-moved')
      ? ['cord-on-the-lead', 'blades']
      : ['pull-by-the-plug']

const looksAt = (ask: Ask | null, what: What): boolean =>
  ask !== null && 'observe' in ask && ask.observe.some((o) => o.what === what)

function proof(job: Job): Ask {
  const kinds: readonly MapKind[] = scopeKinds(job)
  const things = scopeAfter(job.ground.build, scopeOf(job), job.history)
  return mapAsk(job.ground.build, kinds, 'proof', things)
}
