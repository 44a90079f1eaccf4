/** A fan too slow, or a reading that cannot be right: the figure first, then the fan itself; a reading is not a fan. */
import { flow } from './shared/flow.ts'

export const oddReading = flow({
  id: 'odd-reading',
  scoping: [
    { name: 'whatIsReported', map: 'rpm' },
    { name: 'howTheFansTurn', map: 'spins' },
    { name: 'doesItComeAndGo', about: 'comes-and-goes' },
    { name: 'sinceWhen', about: 'since' },
  ],
  crossChecks: ['speed-from', 'asked', 'fed'],
  cautions: [],
})
