/** Sentences of the rules on the sense of a plan. */
import type { RuleWords } from '../../findings.ts'

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
