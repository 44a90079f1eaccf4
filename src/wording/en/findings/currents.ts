/** Sentences of the rules on currents. */
import type { RuleWords, Said } from '../../findings.ts'

const overPart = (f: Said): string =>
  `${f.of('at')} feeds ${f.of('fans')}, ${f.verb('fans', 'with', 'together')} ${f.figure}; it gives ${f.limit}`
const overLight = (f: Said): string =>
  `${f.of('at')} feeds the lights of ${f.of('parts')}: ${f.figure} at full white, ${f.of('set') ? `${f.of('set')} A at the brightness that is set` : `${f.of('mixed')} A in mixed colours`}; it gives ${f.limit}`
const dim = (f: Said): string =>
  f.finding.severity === 'untidy'
    ? `keep the brightness under ${f.of('percent')} %; nothing but the program holds it there`
    : `move some of them elsewhere, or hold the brightness under ${f.of('percent')} %`
const surge = (f: Said): string =>
  `${f.of('fans')} ${f.verb('fans', 'starts', 'start together')} with ${f.figure} on ${f.of('at')}; it gives ${f.limit}, for a second about ${f.of('surge')} A${f.of('guarded') === 'no' ? harm(f) : ''}`
const harm = (f: Said): string =>
  f.finding.severity === 'will-damage'
    ? '. Nothing protects it: so far above, even the second of a start can damage it'
    : '. Nothing protects it: often repeated, that wears it'
const white = (f: Said): string =>
  f.of('mixed') ? ` (lights at full white; ${f.of('mixed')} A in mixed colours)` : ''
const dimmed = (f: Said): string =>
  f.of('percent') ? `, or hold the brightness under ${f.of('percent')} %` : ''
const spread = (f: Said): string =>
  `spread what hangs there over more hubs or controllers, each on a lead of its own${dimmed(f)}`
/** What must go, so that both the steady limit and the one at the start are kept. */
const worth = (f: Said): string =>
  `fans worth ${f.by}${f.of('start') ? ` running and ${f.of('start')} A at the start` : ''}`
const move = (f: Said): string =>
  f.of('plug')
    ? `move ${f.of('plug')} to ${f.of('free') || `a header that gives ${f.figure}`}, or to a hub with its own supply`
    : `move ${worth(f)} to another header or to a hub with its own supply`

export const currents: Readonly<Record<string, RuleWords>> = {
  'header-over-current': {
    title: 'Fan header over its current',
    limit: 'amps of the header',
    doing: 'rewire',
    says: overPart,
    todo: move,
  },
  'header-over-margin': {
    title: 'Fan header with little in hand',
    limit: '80 % of the header’s amps',
    doing: 'know',
    says: (f) =>
      `${f.of('at')} carries ${f.figure} of ${f.of('full')} A; the trade plans for at most ${f.limit}`,
    todo: () => 'leave it, but add no further fan there',
  },
  'header-start-surge': {
    title: 'Fan header over its current at the start',
    limit: 'amps of the header; 1.47 times that for a second',
    doing: 'rewire',
    says: surge,
    todo: () => 'move a fan to another header, or let a hub with its own supply feed them',
  },
  'fan-hub-over-current': {
    title: 'Fan hub over its current',
    limit: 'amps of the hub',
    doing: 'rewire',
    says: overPart,
    todo: (f) => `move ${worth(f)} elsewhere`,
  },
  'fan-hub-port-over-current': {
    title: 'Port of a fan hub over its current',
    limit: 'amps of one port',
    doing: 'rewire',
    says: overPart,
    todo: () => 'spread these fans over more ports',
  },
  'fan-hub-start-surge': {
    title: 'Fan hub over its current at the start',
    limit: 'amps of the hub; 1.47 times that for a second',
    doing: 'rewire',
    says: surge,
    todo: () => 'move fans to another hub',
  },
  'controller-fans-over-current': {
    title: 'Controller over its current for fans',
    limit: 'amps of the controller for fans',
    doing: 'rewire',
    says: overPart,
    todo: (f) => `move ${worth(f)} elsewhere`,
  },
  'controller-fan-port-over-current': {
    title: 'Fan port of a controller over its current',
    limit: 'amps of one fan port',
    doing: 'rewire',
    says: overPart,
    todo: () => 'spread these fans over more ports',
  },
  'controller-start-surge': {
    title: 'Controller over its current at the start',
    limit: 'amps of the controller for fans; 1.47 times that for a second',
    doing: 'rewire',
    says: surge,
    todo: () => 'move fans elsewhere',
  },
  'light-header-over-current': {
    title: 'Light header over its current',
    limit: 'amps of the header',
    doing: 'rewire',
    says: overLight,
    todo: dim,
  },
  'light-hub-over-current': {
    title: 'Light hub over its current',
    limit: 'amps of the hub',
    doing: 'rewire',
    says: overLight,
    todo: dim,
  },
  'light-hub-port-over-current': {
    title: 'Port of a light hub over its current',
    limit: 'amps of one port',
    doing: 'rewire',
    says: overLight,
    todo: dim,
  },
  'controller-lights-over-current': {
    title: 'Controller over its current for lights',
    limit: 'amps of the controller for lights',
    doing: 'rewire',
    says: overLight,
    todo: dim,
  },
  'controller-light-port-over-current': {
    title: 'Light port of a controller over its current',
    limit: 'amps of one light port',
    doing: 'rewire',
    says: overLight,
    todo: dim,
  },
  'light-splitter-over-current': {
    title: 'Light splitter over its current',
    limit: 'amps of the splitter',
    doing: 'rewire',
    says: overLight,
    todo: dim,
  },
  'sata-plug-over-current': {
    title: 'SATA plug over its current',
    limit: '4.5 A a rail (three pins of 1.5 A)',
    doing: 'rewire',
    says: (f) =>
      `${f.of('at')} carries ${f.figure} at ${f.of('rail')}${white(f)}; the three pins of a SATA rail bear ${f.limit} and get hot above it`,
    todo: spread,
  },
  'peripheral-plug-over-current': {
    title: 'Peripheral plug over its current',
    limit: '11 A a contact',
    doing: 'rewire',
    says: (f) =>
      `${f.of('at')} carries ${f.figure} at ${f.of('rail')}${white(f)}; one contact bears ${f.limit}`,
    todo: spread,
  },
  'supply-lead-over-current': {
    title: 'Supply lead over its current',
    limit: 'amps of the lead by rail',
    doing: 'rewire',
    says: (f) =>
      `over all its plugs lead ${f.of('lead')} carries ${f.figure} at ${f.of('rail')}${white(f)}; it is good for ${f.limit}`,
    todo: (f) =>
      f.of('alone')
        ? `no lead bears ${f.of('alone')}: ${spread(f)}`
        : `move a hub or controller to another lead of the supply${dimmed(f)}`,
  },
  'supply-over-power': {
    title: 'Supply over its power',
    limit: 'watts of the supply',
    doing: 'part',
    says: (f) => `fans and lights alone take ${f.figure}; the supply gives ${f.limit}`,
    todo: () => 'take a stronger supply, or fewer lights',
  },
  'locked-rotor-over-limit': {
    title: 'A fan that is held fast is too much',
    limit: 'amps of the header, hub or controller',
    doing: 'know',
    says: (f) =>
      `should ${f.of('fan')} be held fast, it draws ${f.of('locked')} A and ${f.of('at')} carries ${f.figure}; it gives ${f.limit}`,
    todo: () => 'move a fan to another header or hub, or keep cables out of its blades',
  },
  'fan-over-specification': {
    title: 'Fan over the fan specification',
    limit: '1.5 A steady, 2.2 A at the start',
    doing: 'write',
    says: (f) =>
      `${f.of('fan')} ${f.verb('fan', 'takes', 'each take')} ${f.figure} (${f.of('when')}); the fan specification allows ${f.limit}`,
    todo: (f) =>
      `check the label; if it is right, feed ${f.verb('fan', 'this fan', 'these fans')} from the supply and not from a header`,
  },
  'adapter-moulded': {
    title: 'Cast peripheral-to-SATA adapter',
    limit: 'none may be in use',
    doing: 'part',
    says: (f) =>
      `${f.of('part')} is a cast peripheral-to-SATA adapter; such have shorted inside and burned, the supply not tripping`,
    todo: () => 'replace it by one with separate crimped contacts, or use a SATA lead of the supply',
  },
  'sata-feeds-peripheral': {
    title: 'Several peripheral plugs from one SATA plug',
    limit: '4.5 A of the SATA end',
    doing: 'know',
    says: (f) =>
      `${f.of('part')} offers peripheral plugs (${f.figure} each) from one SATA plug; all together may take ${f.limit}`,
    todo: () => 'hang no more on it than the SATA end bears',
  },
}
