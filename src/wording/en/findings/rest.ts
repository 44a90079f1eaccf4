/** Sentences of the rules on air and mechanics, on the sense of a plan, and on what it does not say. */
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

export const planSense: Readonly<Record<string, RuleWords>> = {
  'part-alone': {
    title: 'Part without any lead',
    limit: 'one lead at least',
    doing: 'rewire',
    says: (f) => `${f.of('part')} is in the plan and nothing of it is plugged in`,
    todo: () => 'add its leads, or take it out of the plan',
  },
  'motor-plug-open': {
    title: 'Motor not fed',
    limit: 'a socket',
    doing: 'rewire',
    says: (f) => `${f.of('plug')} goes nowhere: ${f.of('part')} does not turn`,
    todo: (f) => `plug ${f.of('plug')} in`,
  },
  'power-plug-open': {
    title: 'Supply plug missing',
    limit: 'a lead of the supply',
    doing: 'rewire',
    says: (f) => `${f.of('plug')} goes nowhere: nothing on ${f.of('part')} works`,
    todo: (f) => `plug ${f.of('plug')} into a lead of the supply`,
  },
  'upstream-open': {
    title: 'Splitter or adapter hangs in the air',
    limit: 'a socket',
    doing: 'rewire',
    says: (f) => `${f.of('part')}.in goes nowhere, so nothing reaches ${f.of('used')}`,
    todo: (f) => `plug ${f.of('part')}.in into the socket that is to feed it`,
  },
  'nothing-on-it': {
    title: 'Nothing on it',
    limit: 'one plug at least',
    doing: 'write',
    says: (f) => `${f.of('part')} is connected and feeds nothing`,
    todo: () => 'leave it out, or add what hangs on it',
  },
  'names-alike': {
    title: 'Names that read alike',
    limit: 'told apart on a label',
    doing: 'write',
    says: (f) =>
      `${f.of('other')} ${f.verb('other', 'is', 'are')} easily taken for ${f.of('one')}${f.verb('other', '', ', or for one another')}`,
    todo: (f) => `rename ${f.verb('other', 'one', 'all but one')} of them`,
  },
  'setting-for-empty-header': {
    title: 'Setting for an empty header',
    limit: 'a fan there',
    doing: 'setting',
    says: (f) => `${f.of('at')} has settings and no fan`,
    todo: () => 'check that the settings are not meant for another header',
  },
  'setting-for-dark-channel': {
    title: 'Setting for an empty channel',
    limit: 'lights there',
    doing: 'setting',
    says: (f) => `channel ${f.of('channel')} has settings and no lights`,
    todo: () => 'check that the settings are not meant for another channel',
  },
  'setting-not-followed': {
    title: 'Setting that nothing follows',
    limit: 'one setting a fan',
    doing: 'setting',
    says: (f) => `${f.of('at')} has settings of its own, but ${f.of('part')} follows a board header`,
    todo: () => 'set the header instead',
  },
  'leads-one-label': {
    title: 'Two like parts at one place',
    limit: 'one a place',
    doing: 'write',
    says: (f) =>
      `${f.of('other')} ${f.verb('other', 'is', 'are')} the same kind of part as ${f.of('one')} and also at ${f.of('at')}: their leads are easily mixed up`,
    todo: () => 'say more closely where each is, and label the leads',
  },
}

const lookUp = 'look it up on the label or in the manual and write it into the plan'
const taken = (f: Said): string => `not given for ${f.of('refs')}; taken as ${f.figure} until you know`

export const unknowns: Readonly<Record<string, RuleWords>> = {
  'unknown-motor-amps': {
    title: 'Current of a fan not given',
    limit: 'none; assumed',
    doing: 'write',
    says: (f) => `the motor’s current is ${taken(f)}`,
    todo: () => lookUp,
  },
  'unknown-header-amps': {
    title: 'Limit of a fan header not given',
    limit: 'none; assumed',
    doing: 'write',
    says: (f) => `the limit is ${taken(f)}`,
    todo: () => lookUp,
  },
  'unknown-light-header-amps': {
    title: 'Limit of a light header not given',
    limit: 'none; assumed',
    doing: 'write',
    says: (f) => `the limit is ${taken(f)}`,
    todo: () => lookUp,
  },
  'unknown-light-volts': {
    title: 'Voltage of lights not known',
    limit: 'none; assumed',
    doing: 'write',
    says: (f) => `the voltage of ${f.of('refs')} is not given; taken as ${f.figure}`,
    todo: () =>
      'plug nothing in before it is known: three holes and a gap are 5 V, four in a row 12 V; read the print beside the header',
  },
  'unknown-leds': {
    title: 'LED count not given',
    limit: 'none; assumed',
    doing: 'write',
    says: (f) => `the LED count is ${taken(f)}`,
    todo: () => 'count them and write it into the plan',
  },
  'unknown-light-amps': {
    title: 'Current of lights not given',
    limit: 'none; assumed',
    doing: 'write',
    says: (f) => `the lights’ current is ${taken(f)}`,
    todo: () => lookUp,
  },
  'unknown-hub-amps': {
    title: 'Limit of a hub not given',
    limit: 'none; assumed',
    doing: 'write',
    says: (f) => `the limit is ${taken(f)}`,
    todo: () => lookUp,
  },
  'unknown-usb-current': {
    title: 'USB current not given',
    limit: 'none; assumed',
    doing: 'write',
    says: (f) => `the USB current is ${taken(f)}`,
    todo: () => lookUp,
  },
  'unknown-fan-kind': {
    title: 'What the fan does at low duty not given',
    limit: 'the usual start duty',
    doing: 'write',
    says: (f) =>
      `the curve of ${f.of('at')} goes down to ${f.figure}; whether ${f.of('fans')} ${f.verb('fans', 'stops', 'stop')} there depends on the kind of fan, which the plan does not say`,
    todo: () => 'look it up, or lift the lowest point over the usual start',
  },
  'unknown-profile': {
    title: 'Profile not given',
    limit: 'none',
    doing: 'write',
    says: (f) =>
      `the plan does not say what ${f.of('channels')} ${f.count('channels') === 1 ? 'is' : 'are'} told, so LED counts are not compared`,
    todo: () => 'write the profile into the settings',
  },
  'unknown-lengths': {
    title: 'Lengths of light leads not given',
    limit: '2 A a channel',
    doing: 'write',
    says: (f) =>
      `${f.of('channels')} ${f.verb('channels', 'carries', 'carry')} more than ${f.limit} of lights and no lead length is given, so the voltage at the far end is not known`,
    todo: () => 'measure the leads and write mm and awg',
  },
  'unknown-flow': {
    title: 'Direction of a fan not given',
    limit: 'none',
    doing: 'write',
    says: (f) =>
      `the plan does not say which way ${f.of('fans')} ${f.verb('fans', 'blows', 'blow')}, so air is not checked`,
    todo: () =>
      'write flow: in or flow: out; inside for a fan on the processor’s cooler, unknown if it cannot be told',
  },
}
