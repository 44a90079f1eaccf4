/** Everything dead after wiring: what does turn or light after all, what the dead ones share, what was done last. */
import { flow } from './shared/flow.ts'

export const allDead = flow({
  id: 'all-dead',
  scoping: [
    { name: 'whichTurn', map: 'spins' },
    { name: 'whichAreLit', map: 'lit' },
    { name: 'whichAreListed', map: 'listed', when: 'nothing-seen' },
    { name: 'sinceWhen', about: 'since' },
  ],
  crossChecks: ['shared', 'fed', 'driven'],
  cautions: ['burnt-smell', 'never-open-supply'],
})
