/** Lights in the wrong order, or only part of a fan lit: how far an effect runs, then which part stays dark. */
import { flow } from './shared/flow.ts'

export const lightsOrder = flow({
  id: 'lights-order',
  scoping: [
    { name: 'howFarTheEffectRuns', map: 'effect' },
    { name: 'whichAreLitInPart', map: 'lit' },
    { name: 'didItEverWork', about: 'worked' },
    { name: 'sinceWhen', about: 'since' },
  ],
  crossChecks: ['order', 'told', 'driven', 'shared'],
  cautions: [],
})
