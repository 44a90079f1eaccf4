/** A hub or controller that the system does not list: which ones, by which USB path, and whether it comes and goes. */
import { flow } from './shared/flow.ts'

export const notListed = flow({
  id: 'not-listed',
  scoping: [
    { name: 'whichAreMissing', map: 'listed' },
    { name: 'whatTheirLightsShow', map: 'shows', when: 'nothing-seen' },
    { name: 'doesItComeAndGo', about: 'comes-and-goes' },
    { name: 'sinceWhen', about: 'since' },
  ],
  crossChecks: ['usb-path', 'shared', 'fed'],
  cautions: ['usb-keying'],
})
