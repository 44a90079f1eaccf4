/** Lights that stay in the pattern they came with: which ones, who should drive them, and since when. */
import { flow } from './shared/flow.ts'

export const lightsStuck = flow({
  id: 'lights-stuck',
  scoping: [
    { name: 'whatTheyShow', map: 'shows' },
    { name: 'didItEverWork', about: 'worked' },
    { name: 'sinceWhen', about: 'since' },
  ],
  crossChecks: ['driven', 'shared'],
  cautions: [],
})
