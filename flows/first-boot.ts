/**
 * The first boot: no symptom, so no scoping. What is looked at, in which order, comes from the plan (`walk`); as soon as
 * something is not as wanted, the shared isolation goes on from all that is known, and then the walk.
 */
import { flow } from './shared/flow.ts'

export const firstBoot = flow({
  id: 'first-boot',
  scoping: [],
  walk: true,
  crossChecks: [],
  // They stand at the gates: in full at the one that the walk begins with.
  cautions: [],
})
