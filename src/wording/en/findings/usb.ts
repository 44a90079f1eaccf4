/** Sentences of the rules on USB. */
import type { RuleWords } from '../../findings.ts'

export const usb: Readonly<Record<string, RuleWords>> = {
  'usb-header-over-current': {
    title: 'USB header over its current',
    limit: 'milliamps of the port',
    doing: 'rewire',
    says: (f) =>
      `${f.of('at')} feeds ${f.of('parts')}, ${f.verb('parts', 'with', 'together')} ${f.figure}; it gives ${f.limit}`,
    todo: () => 'move one of them to another port, or use a hub with its own supply',
  },
  'usb-hub-port-over-current': {
    title: 'Port of a USB hub over its current',
    limit: '100 mA of a bus-powered hub, 500 mA of a fed one, or what the plan gives',
    doing: 'rewire',
    says: (f) =>
      `${f.of('at')} gives ${f.limit} and ${f.of('parts')} ${f.verb('parts', 'wants', 'want')} ${f.figure}: not listed`,
    todo: () => 'use a hub with its own supply, or a port of the board',
  },
  'usb-bus-hub-over-budget': {
    title: 'Bus-powered hub over its budget',
    limit: '500 mA with the hub itself',
    doing: 'rewire',
    says: (f) =>
      `${f.of('part')} takes ${f.figure} from its one port together with ${f.of('parts')}; a port gives ${f.limit}`,
    todo: () => 'give the hub a supply plug, or move devices away',
  },
  'usb-bus-hubs-chained': {
    title: 'Bus-powered hub behind another',
    limit: 'none',
    doing: 'rewire',
    says: (f) =>
      `${f.of('part')} is bus-powered and hangs on ${f.of('above')}, which is bus-powered too: it gets 100 mA`,
    todo: () => 'put it on a port of the board, or use a hub with its own supply',
  },
  'usb-bus-hub-ports': {
    title: 'Too many devices on a bus-powered hub',
    limit: 'four ports',
    doing: 'rewire',
    says: (f) =>
      `${f.of('part')} is bus-powered and has ${f.figure} in use; its current is enough for ${f.limit}`,
    todo: () => 'use a hub with its own supply',
  },
  'usb-too-deep': {
    title: 'USB too deep',
    limit: '7 tiers with the root and the device',
    doing: 'rewire',
    says: (f) =>
      `${f.of('part')} makes ${f.figure} behind ${f.of('hubs')}; USB ends at ${f.limit}: not listed`,
    todo: () => 'plug it in nearer to the board',
  },
  'usb-passive-split': {
    title: 'One USB port split into two',
    limit: 'one port a row',
    doing: 'part',
    says: (f) => `${f.of('part')} makes ${f.figure} of one; a cable cannot do that, only one device answers`,
    todo: () => 'use a USB hub',
  },
  'usb-header-over-split': {
    title: 'USB header split into more than two',
    limit: 'two ports a header',
    doing: 'part',
    says: (f) => `${f.of('part')} offers ${f.figure}; a header has ${f.limit}`,
    todo: () => 'use a USB hub',
  },
  'usb-3-header-bare': {
    title: '9-pin plug on a 19-pin header',
    limit: 'an adapter between',
    doing: 'part',
    says: (f) => `${f.of('plug')} is a USB 2 plug and ${f.of('at')} is a USB 3 header: it does not go in`,
    todo: () => 'put an adapter between and write it into the plan',
  },
  'usb-port-off': {
    title: 'USB port turned off',
    limit: 'enabled',
    doing: 'setting',
    says: (f) =>
      `${f.of('at')} is turned off, so ${f.of('parts')} ${f.verb('parts', 'is', 'are')} not listed`,
    todo: () => 'turn it on in the firmware, or use another port',
  },
  'usb-device-over-port': {
    title: 'Device wants more than a port gives',
    limit: '500 mA',
    doing: 'write',
    says: (f) => `${f.of('part')} wants ${f.figure}; one USB 2 port gives ${f.limit}`,
    todo: () => 'check the figure; if it is right, the part needs a supply plug too',
  },
  'usb-lead-missing': {
    title: 'USB lead not plugged in',
    limit: 'a port',
    doing: 'rewire',
    says: (f) => `${f.of('part')}.usb goes nowhere: it is not listed, nor is what hangs on it`,
    todo: (f) => `plug ${f.of('part')}.usb into a USB port`,
  },
  'usb-hub-under-unit-load': {
    title: 'USB hub with less than a unit load a port',
    limit: '100 mA',
    doing: 'write',
    says: (f) => `the ports of ${f.of('part')} give ${f.figure}; USB calls for ${f.limit}`,
    todo: () => 'check the figure on the label',
  },
  'usb-ports-short': {
    title: 'Too few USB ports',
    limit: 'ports of all headers and hubs',
    doing: 'part',
    says: (f) =>
      `${f.of('parts')} ${f.verb('parts', 'needs', 'together need')} ${f.figure} inside the case; headers and hubs offer ${f.limit}`,
    todo: () => 'add an internal hub with its own supply, or leave one of them out',
  },
  'usb-row-missing': {
    title: 'Plug of two ports on a header of one',
    limit: 'ports of the header',
    doing: 'rewire',
    says: (f) =>
      `${f.of('part')} brings out ${f.figure}; ${f.of('at')} has ${f.limit}: one of its sockets stays dead`,
    todo: () => 'use a header with two ports, or mark the dead socket',
  },
  'usb-port-set-twice': {
    title: 'Two settings for one USB port',
    limit: 'one setting',
    doing: 'setting',
    says: (f) => `${f.of('one')} and ${f.of('other')} are set against each other: ${f.of('off')} is off`,
    todo: () => 'look into the firmware, and keep the setting that holds',
  },
}
