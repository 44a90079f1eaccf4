/** Works, then stops, after heat, sleep or a restart: how it goes, then what is stopped now, then who should drive it. */
import { flow } from './shared/flow.ts'

export const worksThenStops = flow({
  id: 'works-then-stops',
  scoping: [
    { name: 'doesItComeBack', about: 'comes-and-goes' },
    { name: 'howTheFansTurn', map: 'spins' },
    { name: 'howTheLightsAre', map: 'lit' },
    { name: 'whatTheyShow', map: 'shows', when: 'nothing-seen' },
    { name: 'whatIsReported', map: 'rpm', when: 'nothing-seen' },
    { name: 'whichAreListed', map: 'listed', when: 'nothing-seen' },
    { name: 'sinceWhen', about: 'since' },
  ],
  crossChecks: ['shared', 'driven', 'usb-path', 'fed'],
  cautions: ['leave-it-failing'],
})
