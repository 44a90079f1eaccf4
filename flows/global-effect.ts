/** One effect over everything, or effects that are not per fan: what is shown, who sends it, where it runs. */
import { flow } from './shared/flow.ts'

export const globalEffect = flow({
  id: 'global-effect',
  scoping: [
    { name: 'whatTheyShow', map: 'shows' },
    { name: 'howFarTheEffectRuns', map: 'effect', when: 'nothing-seen' },
    { name: 'didItEverWork', about: 'worked' },
    { name: 'sinceWhen', about: 'since' },
  ],
  crossChecks: ['driven', 'told'],
  cautions: [],
})
