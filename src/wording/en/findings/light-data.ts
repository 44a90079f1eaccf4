/** Sentences of the rules on light data. */
import type { RuleWords, Said } from '../../findings.ts'

const shows = (f: Said): string => (f.of('shows') === 'dark' ? 'stay dark' : 'show their stored pattern')

export const lightData: Readonly<Record<string, RuleWords>> = {
  'series-gap': {
    title: 'Gap in a series',
    limit: 'no empty port before a used one',
    doing: 'rewire',
    says: (f) =>
      `${f.of('channel')} runs in series and ${f.of('gaps')} ${f.count('gaps') === 1 ? 'is' : 'are'} empty: ${f.of('dark')} ${f.verb('dark', 'gets', 'get')} no data`,
    todo: () => 'move the plugs up so that no port is left out',
  },
  'series-no-return': {
    title: 'No data back in a series',
    limit: 'a return wire on all but the last',
    doing: 'rewire',
    says: (f) =>
      `${f.of('part')} on ${f.of('at')} hands no data back, so ${f.of('dark')} after it ${f.verb('dark', 'gets', 'get')} none`,
    todo: (f) => `put ${f.of('part')} on the last used port`,
  },
  'splitter-in-series': {
    title: 'Split within a series',
    limit: 'one branch a port',
    doing: 'rewire',
    says: (f) => `${f.of('at')} of a hub in series feeds ${f.figure} branches; only one stream can come back`,
    todo: () => 'give each branch a port of its own, or set the hub to parallel',
  },
  'channel-over-leds': {
    title: 'More LEDs than can be driven',
    limit: 'LEDs that header, hub or controller can drive',
    doing: 'rewire',
    says: (f) =>
      `${f.of('channel')} has ${f.figure} and drives ${f.limit}; ${[
        f.of('partly') ? `${f.of('partly')} ${f.verb('partly', 'lights', 'light')} up only in part` : '',
        f.of('dark') ? `${f.of('dark')} ${f.verb('dark', 'stays', 'stay')} dark` : '',
      ]
        .filter((part) => part !== '')
        .join(', ')}`,
    todo: () => 'move these parts to another channel',
  },
  'frames-too-slow': {
    title: 'Too many LEDs for smooth movement',
    limit: '30 frames a second',
    doing: 'rewire',
    says: (f) =>
      `${f.figure} in a row on ${f.of('channel')} can be sent ${f.of('frames')} times a second; 30 need ${f.limit} at most`,
    todo: () => 'spread them over two channels',
  },
  'profile-short': {
    title: 'Profile stops short',
    limit: 'LEDs fitted',
    doing: 'setting',
    says: (f) =>
      `${f.of('at')} is told ${f.figure} and has ${f.limit}: the last ${f.of('difference')} (${f.of('last')}) get no data`,
    todo: (f) => `set the profile of ${f.of('channel')} to ${f.limit} in all`,
  },
  'profile-long': {
    title: 'Profile too long',
    limit: 'LEDs fitted',
    doing: 'setting',
    says: (f) =>
      `${f.of('at')} is told ${f.figure} and has ${f.limit}: moving effects vanish for ${f.of('difference')} places each lap`,
    todo: (f) => `set the profile of ${f.of('channel')} to ${f.limit} in all`,
  },
  'profile-order': {
    title: 'Profile in another order than the chain',
    limit: 'the chain',
    doing: 'setting',
    says: (f) =>
      `channel ${f.of('channel')} is told ${f.of('told')} LEDs and the chain has ${f.of('chain')}: effects break at the wrong places`,
    todo: () => 'put the counts in the order of the chain',
  },
  'colours-mismatch': {
    title: 'Colour order set wrong',
    limit: 'the order that the LEDs take',
    doing: 'setting',
    says: (f) =>
      `channel ${f.of('channel')} sends ${f.of('sent')} and ${f.of('parts')} ${f.verb('parts', 'takes', 'take')} ${f.of('takes')}: colours come out wrong`,
    todo: (f) => `set the colours of ${f.of('channel')} to ${f.of('takes')}`,
  },
  'unlike-leds-on-channel': {
    title: 'Unlike LEDs on one channel',
    limit: 'one colour order a channel',
    doing: 'rewire',
    says: (f) =>
      `channel ${f.of('channel')} has LEDs that take ${f.of('orders')}; one setting cannot suit all`,
    todo: () => 'give each kind a channel of its own',
  },
  'host-lead-missing': {
    title: 'Host lead not plugged in',
    limit: 'a lead to its host',
    doing: 'rewire',
    says: (f) =>
      `${f.of('plug')} goes nowhere, so nobody tells ${f.of('part')} what to show; its lights ${shows(f)}`,
    todo: (f) => `plug in ${f.of('plug')}`,
  },
  'nobody-drives': {
    title: 'Lights without a host',
    limit: 'a host',
    doing: 'know',
    says: (f) => `${f.of('part')} has no host: its lights ${shows(f)}`,
    todo: () => 'nothing if that is meant; else use a hub with a host',
  },
  'program-absent': {
    title: 'Lighting program not running',
    limit: 'a running program',
    doing: 'setting',
    says: (f) => `the lighting program is not there: the lights of ${f.of('channel')} ${shows(f)}`,
    todo: () => 'install and start it, or expect this at first boot',
  },
  'global-effect-on': {
    title: 'Global effect over set channels',
    limit: 'off',
    doing: 'setting',
    says: (f) => `a global effect is on and hides what is set for ${f.of('channels')}`,
    todo: () => 'turn the global effect off',
  },
  'two-hosts': {
    title: 'Two hosts for one light',
    limit: 'one host',
    doing: 'rewire',
    says: (f) => `${f.of('part')} drives its own lights over USB and its light lead is plugged in as well`,
    todo: () => 'leave one of the two unplugged',
  },
  'channel-told-elsewhere': {
    title: 'Setting for a hub that only listens',
    limit: 'the header that drives it',
    doing: 'setting',
    says: (f) => `${f.of('channel')} has channel settings, but ${f.of('part')} takes its data from a header`,
    todo: () => 'move the settings to the header that drives it',
  },
  'branches-unlike': {
    title: 'Branches of unlike length',
    limit: 'the shortest branch',
    doing: 'know',
    says: (f) =>
      `the branches of ${f.of('channel')} have ${f.of('counts')} LEDs and take the same data: patterns do not match`,
    todo: () => 'give unlike parts a channel of their own, if it shows',
  },
  'chain-out-of-place': {
    title: 'Chain in another order than the places',
    limit: 'light_order',
    doing: 'rewire',
    says: (f) =>
      `channel ${f.of('channel')} runs ${f.of('chain')}; by place it should run ${f.of('wanted')}: effects jump`,
    todo: () => 'swap the light plugs, or correct light_order',
  },
  'light-order-incomplete': {
    title: 'Lit parts missing from light_order',
    limit: 'every lit part',
    doing: 'write',
    says: (f) => `light_order does not name ${f.of('parts')}`,
    todo: () => 'add them where they stand',
  },
  'light-plug-open': {
    title: 'Light lead not plugged in',
    limit: 'a socket',
    doing: 'rewire',
    says: (f) => `${f.of('plug')} goes nowhere: the lights of ${f.of('part')} stay dark`,
    todo: (f) => `plug ${f.of('plug')} into a hub, controller or header`,
  },
  'light-order-jumps': {
    title: 'Order of the lights jumps about the case',
    limit: 'sides and heights one after the other',
    doing: 'write',
    says: (f) =>
      f.of('how') === 'side'
        ? `light_order leaves the ${f.of('side')} and comes back to it with ${f.of('part')}: an effect jumps`
        : `light_order goes up and down at the ${f.of('side')}: ${f.of('order')}`,
    todo: () => 'list the lights in the order in which one walks along them, and the plugs likewise',
  },
}
