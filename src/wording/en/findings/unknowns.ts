/** Sentences of the rules on what a plan does not say. */
import type { RuleWords, Said } from '../../findings.ts'

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
