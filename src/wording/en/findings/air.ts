/** Sentences of the rules on air and mechanics. */
import type { RuleWords, Said } from '../../findings.ts'

const estimate = (f: Said): string =>
  f.of('guessed') === 'yes' ? ' (guessed by size and speed, without filters)' : ' (free air, without filters)'

export const air: Readonly<Record<string, RuleWords>> = {
  'air-unbalanced': {
    title: 'Intake and exhaust far apart',
    limit: 'twice the smaller of the two',
    doing: 'know',
    says: (f) =>
      `about ${f.figure} in by ${f.of('in')} against ${f.limit} out by ${f.of('out')}${estimate(f)}`,
    todo: (f) =>
      f.of('sign') === 'over'
        ? 'fine for dust; turn a fan round if it gets warm'
        : 'dust comes in by every gap; turn a fan round if that matters',
  },
  'air-one-way': {
    title: 'All fans blow one way',
    limit: 'some in, some out',
    doing: 'rewire',
    says: (f) => `all ${f.figure} fans blow ${f.of('flow')}`,
    todo: () => 'turn one round, or correct the plan',
  },
  'fans-face-each-other': {
    title: 'Fans against each other',
    limit: 'one direction a place',
    doing: 'rewire',
    says: (f) =>
      `at ${f.of('at')} ${f.of('in')} ${f.verb('in', 'blows', 'blow')} in and ${f.of('out')} out: they take each other’s air`,
    todo: () => 'turn one round; air leaves on the side with the struts',
  },
  'radiator-flow-mixed': {
    title: 'Both directions through one radiator',
    limit: 'one direction a radiator',
    doing: 'rewire',
    says: (f) => `on ${f.of('on')} ${f.of('in')} ${f.verb('in', 'blows', 'blow')} in and ${f.of('out')} out`,
    todo: () => 'turn them the same way',
  },
  'radiator-screws': {
    title: 'Screws of a radiator',
    limit: 'the length that came with it',
    doing: 'know',
    says: (f) =>
      `${f.of('fans')} ${f.verb('fans', 'sits', 'sit')} on ${f.of('on')}: a screw that is too long pierces it`,
    todo: () => 'use the screws that came with it, and try one by hand without the fan first',
  },
  'radiator-speeds-differ': {
    title: 'Unlike fans on one radiator',
    limit: '1.25 times the slowest',
    doing: 'know',
    says: (f) =>
      `the fans on ${f.of('on')} reach from ${f.limit} to ${f.figure}; air comes back through the slower`,
    todo: () => 'use like fans on one radiator',
  },
  'flow-against-custom': {
    title: 'Direction against custom',
    limit: 'front and bottom in, rear, top and roof out',
    doing: 'know',
    says: (f) => `${f.of('fan')} at ${f.of('at')} blows ${f.of('flow')}; usual is ${f.of('usual')}`,
    todo: () => 'nothing if it is meant so; else turn it round',
  },
  'still-beside-running': {
    title: 'Fan that rests beside one that runs',
    limit: 'all or none at one place',
    doing: 'know',
    says: (f) =>
      `at ${f.of('at')} ${f.of('still')} ${f.verb('still', 'stands', 'stand')} still when cool while the others run: air comes back through ${f.verb('still', 'it', 'them')}`,
    todo: () => 'give fans at one place one curve',
  },
}
