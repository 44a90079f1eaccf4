/** A fan that does not spin, or tries and gives up: which, since when, and what feeds them. */
import { flow } from './shared/flow.ts'

export const fanStill = flow({
  id: 'fan-still',
  scoping: [
    { name: 'whichStandStill', map: 'spins' },
    { name: 'sinceWhen', about: 'since' },
    { name: 'doesItComeAndGo', about: 'comes-and-goes' },
  ],
  crossChecks: ['shared', 'fed'],
  cautions: ['blades', 'no-cooling-test'],
})
