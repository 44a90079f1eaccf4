/** Sentences of the rules on voltages. */
import type { RuleWords } from '../../findings.ts'

export const voltages: Readonly<Record<string, RuleWords>> = {
  'light-5v-on-12v': {
    title: '5 V lights on 12 V',
    limit: '5 V (LED chips die above 5.3 V)',
    doing: 'rewire',
    says: (f) =>
      `${f.of('plug')} is a 5 V light plug and goes to ${f.of('socket')}, which gives 12 V: the LEDs are destroyed at once`,
    todo: () => 'move the plug to a 5 V header before the machine is switched on',
  },
  'light-12v-on-5v': {
    title: '12 V lights on 5 V',
    limit: '12 V',
    doing: 'rewire',
    says: (f) =>
      `${f.of('plug')} is a 12 V light plug and goes to ${f.of('socket')}, which gives 5 V: the lights stay dark or dim`,
    todo: (f) =>
      f.of('other')
        ? `never on 12 V with ${f.of('other')} behind it, which ${f.verb('other', 'is', 'are')} for 5 V: replace it by a part for 5 V`
        : 'move the plug to a 12 V header',
  },
  'light-drop': {
    title: 'Too little voltage at the lights',
    limit: '4.5 V at the LEDs',
    doing: 'part',
    says: (f) =>
      `the leads to ${f.of('part')} lose ${f.of('drop')} V at full white; ${f.figure} are left of 5 V, LEDs want ${f.limit}`,
    todo: () => 'shorten the run, take thicker leads, or feed the far end as well',
  },
  'light-drop-low-rail': {
    title: 'Too little voltage at the lights if the rail is low',
    limit: '4.5 V at the LEDs, from a rail of 4.75 V',
    doing: 'know',
    says: (f) =>
      `with the 5 V rail at its lower limit ${f.of('part')} ${f.verb('part', 'gets', 'get')} ${f.figure} at full white (${f.of('drop')} V lost); LEDs want ${f.limit}`,
    todo: () => 'if far LEDs turn yellow, shorten the run or hold the brightness down',
  },
  'fan-drop': {
    title: 'Too little voltage at a fan',
    limit: '11.4 V at the fan',
    doing: 'part',
    says: (f) =>
      `the leads to ${f.of('fan')} lose ${f.of('drop')} V; ${f.figure} are left of 12 V, fans want ${f.limit}`,
    todo: () => 'shorten the run or take thicker leads',
  },
  'lead-over-gauge': {
    title: 'Lead too thin for its current',
    limit: 'amps by gauge: 24 AWG 3.5 A, 26 AWG 2.2 A, 28 AWG 1.4 A',
    doing: 'part',
    says: (f) =>
      `lead ${f.of('lead')} of ${f.of('awg')} AWG carries ${f.figure}${f.of('mixed') ? ` at full white, ${f.of('mixed')} A in mixed colours` : ''}; that gauge bears ${f.limit} and gets hot above it`,
    todo: () => 'take a thicker lead, or spread the load over two',
  },
  'light-run-long': {
    title: 'Long light run',
    limit: '1 m from a feed',
    doing: 'know',
    says: (f) =>
      `${f.of('part')} ${f.verb('part', 'hangs', 'hang')} ${f.figure} from the feed; 1 m is the usual advice`,
    todo: () => 'watch for flicker and yellow at the far end',
  },
  'supply-lacks-rail': {
    title: 'Adapter without the rail that is needed',
    limit: 'the rails of both ends',
    doing: 'part',
    says: (f) => `${f.of('adapter')} does not bring ${f.of('rail')}, which ${f.of('part')} runs on`,
    todo: (f) => `feed it by a plug that has ${f.of('rail')}`,
  },
  'light-data-level': {
    title: 'Data too low for the first LED',
    limit: '0.7 of the LEDs’ supply: 3.5 V at 5 V',
    doing: 'part',
    says: (f) =>
      `${f.of('at')} sends its data at ${f.figure}; the first LED of ${f.of('part')} takes as high what is at least ${f.limit}`,
    todo: () =>
      'put a level shifter to 5 V between, or use a header or hub that sends at 5 V; a short lead helps',
  },
}
