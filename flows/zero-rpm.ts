/** A header that reports 0 RPM: first what is shown, then whether the fans turn; a reading is not a fan. */
import { flow } from './shared/flow.ts'

export const zeroRpm = flow({
  id: 'zero-rpm',
  scoping: [
    { name: 'whatIsReported', map: 'rpm' },
    { name: 'doTheFansTurn', map: 'spins' },
    { name: 'sinceWhen', about: 'since' },
  ],
  crossChecks: ['speed-from', 'fed'],
  cautions: ['no-cooling-test'],
})
