/** Which cautions belong to what; the long ones once a job, then the short ones. */
import type { Flow } from '../../../flows/shared/flow.ts'
import type { Note } from '../../core/checks/prompt.ts'

const IN_FULL = [
  'shut-down-full',
  'live-plugging',
  'never-open-supply',
  'five-volt-on-twelve',
  'manuals-first',
]

export const gateCautions = (to: 'on' | 'off', cautioned: boolean): readonly string[] =>
  to === 'on' ? ['blades', 'burnt-smell'] : cautioned ? ['power-off-short'] : IN_FULL

export const flowsCautions = (flow: Flow): readonly Note[] =>
  flow.cautions.map((id) => ({ show: 'note', kind: 'caution', facts: { caution: id } }))
