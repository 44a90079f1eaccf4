/** What a channel is told: counts, their order, colours. */
import { ledsOf, litParts, longest } from './channels.ts'
import type { Hit, Rule } from './finding.ts'
import {
  channels,
  dataChannels,
  ledPaths,
  partsOf,
  profileRef,
  SHEET,
  sum,
  toldOf,
} from './light-channels.ts'
import type { Wiring } from './wiring.ts'

function* counted(w: Wiring, wrong: (told: number, fitted: number) => boolean): Generator<Hit> {
  for (const channel of dataChannels(w))
    for (const { told, fitted, branch, at } of toldOf(w, channel))
      if (wrong(told, fitted))
        yield {
          refs: [profileRef(channel), channel.maker, ...partsOf(branch)],
          figure: told,
          limit: fitted,
          facts: {
            channel: channel.key,
            at,
            last: branch.at(-1)?.part ?? '',
            difference: Math.abs(told - fitted),
          },
          rests: ledPaths(branch),
        }
}

export const lightProfile: readonly Rule[] = [
  {
    id: 'profile-short',
    severity: 'will-not-work',
    unit: 'LEDs',
    source: SHEET,
    find: (w) => counted(w, (told, fitted) => told < fitted),
  },
  {
    id: 'profile-long',
    severity: 'may-not-work',
    unit: 'LEDs',
    source: SHEET,
    find: (w) => counted(w, (told, fitted) => told > fitted),
  },
  {
    id: 'profile-order',
    severity: 'may-not-work',
    source: SHEET,
    *find(w) {
      for (const channel of dataChannels(w)) {
        const profile = w.plan.settings.channels[channel.key]?.profile?.filter((n) => n > 0) ?? []
        const branch = longest(channel.branches)
        const byPart = branch.map((l) => l.light.leds)
        const byPort = channel.sockets.map((s) => ledsOf(longest(s.branches))).filter((n) => n > 0)
        if (profile.length < 2 || (channel.order !== 'series' && channel.sockets.length > 1)) continue
        const same = (list: readonly number[]) =>
          list.length === profile.length && list.every((n, i) => n === profile[i])
        if (sum(profile) === sum(byPart) && !same(byPart) && !same(byPort))
          yield {
            refs: [profileRef(channel), ...partsOf(branch)],
            facts: { channel: channel.key, told: profile.join(', '), chain: byPart.join(', ') },
            rests: ledPaths(branch),
          }
      }
    },
  },
  {
    id: 'colours-mismatch',
    severity: 'may-not-work',
    source: 'LED protocol pages: green, red, blue in that order; libraries offer all orders',
    *find(w) {
      for (const channel of channels(w)) {
        const sent = w.plan.settings.channels[channel.key]?.colours
        const wrong = litParts(channel).filter((l) => sent && l.light.volts === 5 && l.light.colours !== sent)
        const [first] = wrong
        if (sent && first)
          yield {
            refs: [`channels/${channel.key}/colours`, ...partsOf(wrong)],
            severity: sent.length === first.light.colours.length ? 'may-not-work' : 'will-not-work',
            figure: sent.length,
            limit: first.light.colours.length,
            facts: { channel: channel.key, sent, takes: first.light.colours, parts: partsOf(wrong) },
            rests: wrong.map((l) => `parts.${l.part}.${l.light.port}.colours`),
          }
      }
    },
  },
  {
    id: 'unlike-leds-on-channel',
    severity: 'may-not-work',
    source: 'LED protocol pages: one order of colours a stream',
    *find(w) {
      for (const channel of channels(w)) {
        const lit = litParts(channel).filter((l) => l.light.volts === 5)
        const orders = [...new Set(lit.map((l) => l.light.colours))]
        if (orders.length > 1)
          yield {
            refs: [channel.maker, ...lit.map((l) => l.plug)],
            figure: orders.length,
            limit: 1,
            facts: { channel: channel.key, orders },
            rests: lit.map((l) => `parts.${l.part}.${l.light.port}.colours`),
          }
      }
    },
  },
]
