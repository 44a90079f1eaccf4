/** Fans at full speed, or not following their setting: which ones, what the setting asks, and whether they obey it. */
import { flow } from './shared/flow.ts'

export const fansFull = flow({
  id: 'fans-full',
  scoping: [
    { name: 'whichRunFlatOut', map: 'spins' },
    { name: 'doTheyFollow', map: 'follows', when: 'nothing-seen' },
    { name: 'sinceWhen', about: 'since' },
    { name: 'didItEverWork', about: 'worked' },
  ],
  crossChecks: ['asked', 'shared', 'fed'],
  cautions: ['blades'],
})
