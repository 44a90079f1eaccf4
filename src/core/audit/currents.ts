/**
 * Currents: what hangs on each header, hub, plug and supply lead against what it bears. Figures are the labels' sums.
 */
import { fanCurrents } from './fan-currents.ts'
import type { Family } from './finding.ts'
import { lightCurrents } from './light-currents.ts'
import { supplyCurrents } from './supply-currents.ts'

export const currents: Family = {
  family: 'currents',
  rules: [...fanCurrents, ...lightCurrents, ...supplyCurrents],
}
