/** Lights that follow, in other colours than those set: which ones, on which channels, and whether it ever was right. */
import { flow } from './shared/flow.ts'

export const wrongColours = flow({
  id: 'wrong-colours',
  scoping: [
    { name: 'whichColoursShow', map: 'shows' },
    { name: 'whichAreLitInPart', map: 'lit', when: 'nothing-seen' },
    { name: 'didItEverWork', about: 'worked' },
    { name: 'sinceWhen', about: 'since' },
  ],
  crossChecks: ['colours', 'driven', 'shared'],
  cautions: ['five-volt-on-twelve'],
})
