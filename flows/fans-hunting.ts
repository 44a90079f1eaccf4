/** Fans that stop now and then, pulse, tick or hunt: watched for a minute first, then their reading and their past. */
import { flow } from './shared/flow.ts'

export const fansHunting = flow({
  id: 'fans-hunting',
  scoping: [
    { name: 'howTheyGoOn', map: 'steady' },
    { name: 'whatIsReported', map: 'rpm' },
    { name: 'doesItComeAndGo', about: 'comes-and-goes' },
    { name: 'sinceWhen', about: 'since' },
  ],
  crossChecks: ['asked', 'speed-from', 'shared', 'fed'],
  cautions: ['blades'],
})
