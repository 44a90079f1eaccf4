/** Which cautions belong to what; the long ones once a job, then the short ones. */
import type { Flow } from '../../../flows/shared/flow.ts'
import type { Note } from '../../core/checks/prompt.ts'
import type { Plan } from '../../core/plan/plan.ts'
import { allPorts } from '../../core/plan/ports.ts'

/** What holds for all work on a build; of 5 V lights only where it has a plug for them. */
export function cautionsInFull(plan: Plan): readonly string[] {
  const forLights = allPorts(plan).some((p) => p.gender === 'plug' && p.connector === 'light5')
  return [
    'shut-down-full',
    'live-plugging',
    'never-open-supply',
    ...(forLights ? ['five-volt-on-twelve'] : []),
    'manuals-first',
  ]
}

export const gateCautions = (to: 'on' | 'off', cautioned: boolean, plan: Plan): readonly string[] =>
  to === 'on' ? ['blades', 'burnt-smell'] : cautioned ? ['power-off-short'] : cautionsInFull(plan)

export const flowsCautions = (flow: Flow): readonly Note[] =>
  flow.cautions.map((id) => ({ show: 'note', kind: 'caution', facts: { caution: id } }))
