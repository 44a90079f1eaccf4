/** No symptom that can be named: everything is looked over, the fans and lights first, until something shows. */
import { flow } from './shared/flow.ts'

export const survey = flow({
  id: 'survey',
  scoping: [
    { name: 'howTheFansTurn', map: 'spins' },
    { name: 'howTheLightsAre', map: 'lit' },
    { name: 'whatTheyShow', map: 'shows' },
    { name: 'whatIsReported', map: 'rpm', when: 'nothing-seen' },
    { name: 'whichAreListed', map: 'listed', when: 'nothing-seen' },
    { name: 'whereAnAlarmShows', map: 'alarm', when: 'nothing-seen' },
    { name: 'howFarTheEffectRuns', map: 'effect', when: 'nothing-seen' },
    { name: 'sinceWhen', about: 'since' },
    { name: 'doesItComeAndGo', about: 'comes-and-goes' },
  ],
  crossChecks: ['shared', 'driven', 'speed-from', 'fed'],
  cautions: [],
})
