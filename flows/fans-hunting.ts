/** Fans that pulse, tick or hunt: by themselves, by their reading, and whether their setting lets them rest. */
import { flow } from './shared/flow.ts'

export const fansHunting = flow({
  id: 'fans-hunting',
  scoping: [
    { name: 'howTheFansTurn', map: 'spins' },
    { name: 'whatIsReported', map: 'rpm' },
    { name: 'doesItComeAndGo', about: 'comes-and-goes' },
    { name: 'sinceWhen', about: 'since' },
  ],
  crossChecks: ['asked', 'speed-from', 'shared', 'fed'],
  cautions: ['blades'],
})
