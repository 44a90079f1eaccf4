/** Sentences of the rules on tach. */
import type { RuleWords } from '../../findings.ts'

export const tach: Readonly<Record<string, RuleWords>> = {
  'tach-joined': {
    title: 'Tach wires joined',
    limit: 'one fan’s tach a reading',
    doing: 'part',
    says: (f) => `${f.of('at')} gets the tach of ${f.of('fans')} at once: its reading jumps, up to the sum`,
    todo: () => 'use a splitter that returns one tach, or pull the second tach pin',
  },
  'tach-missing': {
    title: 'No tach comes back',
    limit: 'one tach',
    doing: 'know',
    says: (f) =>
      `${f.of('at')} feeds ${f.of('fans')} and gets no tach: it reads 0 rpm while ${f.verb('fans', 'it turns', 'they turn')}`,
    todo: () => 'expect 0 rpm there, and set no alarm on it',
  },
  'tach-way-empty': {
    title: 'The way that returns the tach is empty',
    limit: 'a fan on that way',
    doing: 'rewire',
    says: (f) =>
      `${f.of('part')} returns the tach of socket ${f.of('way')}, where nothing is plugged in: ${f.of('at')} reads 0 rpm`,
    todo: (f) => `move a fan to ${f.of('part')}.${f.of('way')}`,
  },
  'tach-level': {
    title: 'Third wire says running or locked, not speed',
    limit: 'pulses',
    doing: 'know',
    says: (f) => `${f.of('fan')} gives a steady level, not pulses: ${f.of('at')} reads 0 rpm while it turns`,
    todo: () => 'expect 0 rpm there, or use a fan with a pulse tach',
  },
  'tach-none': {
    title: 'Fan without tach',
    limit: 'a tach wire',
    doing: 'know',
    says: (f) => `${f.of('fan')} has no tach: ${f.of('at')} reads 0 rpm while it turns`,
    todo: () => 'expect 0 rpm there, and set no alarm on it',
  },
  'pulses-mismatch': {
    title: 'Pulses a turn set wrong',
    limit: 'the fan’s pulses a turn',
    doing: 'setting',
    says: (f) =>
      `${f.of('fan')} gives ${f.of('pulses')} pulses a turn and ${f.of('at')} counts on ${f.of('counted')}: ${f.limit} read as ${f.figure}`,
    todo: (f) => `set the pulses to ${f.of('pulses')}`,
  },
  'tach-unseen': {
    title: 'Fans that no reading shows',
    limit: 'one reading a header',
    doing: 'know',
    says: (f) =>
      `${f.of('at')} reads ${f.of('seen')} alone; if ${f.of('unseen')} stopped, no reading would tell`,
    todo: (f) => `look at ${f.verb('unseen', 'this fan', 'these fans')} now and then`,
  },
  'tach-elsewhere': {
    title: 'Tach lead of a fan on the supply not plugged in',
    limit: 'a lead to a header',
    doing: 'rewire',
    says: (f) => `${f.of('fan')} runs from the supply and its tach lead goes nowhere: full speed, no reading`,
    todo: (f) => `plug ${f.of('fan')}.motor into a header, if its speed shall be seen`,
  },
}
