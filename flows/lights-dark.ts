/** Lights dead on some fans, or on all: which, since when, and what the dark ones share. */
import { flow } from './shared/flow.ts'

export const lightsDark = flow({
  id: 'lights-dark',
  scoping: [
    { name: 'whichStayDark', map: 'lit' },
    { name: 'sinceWhen', about: 'since' },
    { name: 'doesItComeAndGo', about: 'comes-and-goes' },
  ],
  crossChecks: ['shared', 'driven', 'fed'],
  cautions: ['five-volt-on-twelve'],
})
