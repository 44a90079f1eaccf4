/** A fan or pump alarm at first boot: where, against which limit, and whether the fan or only its reading is missing. */
import { flow } from './shared/flow.ts'

export const alarm = flow({
  id: 'alarm',
  scoping: [
    { name: 'whereAnAlarmShows', map: 'alarm' },
    { name: 'doTheFansTurn', map: 'spins' },
    { name: 'whatIsReported', map: 'rpm', when: 'nothing-seen' },
    { name: 'sinceWhen', about: 'since' },
  ],
  crossChecks: ['alarm-limit', 'speed-from', 'fed'],
  cautions: ['no-cooling-test'],
})
