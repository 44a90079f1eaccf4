/** Lights that flicker, or go out now and then: which ones while they are watched, which are dark just now, since when. */
import { flow } from './shared/flow.ts'

export const lightsFlicker = flow({
  id: 'lights-flicker',
  scoping: [
    { name: 'whichFlicker', map: 'flickers' },
    { name: 'whichAreDarkNow', map: 'lit' },
    { name: 'doesItComeAndGo', about: 'comes-and-goes' },
    { name: 'sinceWhen', about: 'since' },
  ],
  crossChecks: ['shared', 'driven', 'fed'],
  cautions: ['five-volt-on-twelve'],
})
