/** The chain: gaps, wires that bring nothing back, too many LEDs, order against place. */
import { framesPerSecond, LEAST_FRAMES, ledsAtFrames } from '../electrics/led-data.ts'
import { isOver } from '../electrics/overload.ts'
import { type Channel, fedInSeries, ledsOf, litParts, longest, type Series } from './channels.ts'
import { COMMON, type Facts, type Rule } from './finding.ts'
import { channels, dataChannels, ledPaths, partsOf, SHEET, toldOf } from './light-channels.ts'
import { limitedChains } from './light-limits.ts'
import { orderAgainstPlace } from './light-places.ts'
import type { Wiring } from './wiring.ts'

const series = (w: Wiring): Series[] => [
  ...channels(w).filter((channel) => channel.order === 'series'),
  ...fedInSeries(w),
]

/** Ports of a hub in series that are passed over: empty, with something lit after them. */
function gapsOf(channel: Series): string[] {
  const last = channel.sockets.findLastIndex((s) => s.branches.length > 0)
  return channel.sockets
    .slice(0, Math.max(0, last))
    .flatMap((s) => (s.branches.length === 0 ? [s.socket] : []))
}

/** What the channel's neighbours in the order of places say about the chain. */
function outOfOrder(w: Wiring, channel: Channel): Facts | undefined {
  const placed = partsOf(longest(channel.branches)).filter((id) => w.plan.lightOrder.includes(id))
  const wanted = [...placed].sort((a, b) => w.plan.lightOrder.indexOf(a) - w.plan.lightOrder.indexOf(b))
  return placed.every((id, i) => id === wanted[i])
    ? undefined
    : { channel: channel.key, chain: placed, wanted }
}

export const lightChain: readonly Rule[] = [
  {
    id: 'series-gap',
    severity: 'will-not-work',
    source: `${SHEET}; a hub in series gets the data back from each port before the next has any`,
    *find(w) {
      for (const channel of series(w)) {
        const gaps = gapsOf(channel)
        if (gaps.length === 0) continue
        const first = channel.sockets.findIndex((s) => s.branches.length === 0)
        const dark = partsOf(channel.sockets.slice(first).flatMap((s) => s.branches.flat()))
        yield {
          refs: [...gaps, channel.maker, ...dark],
          figure: gaps.length,
          limit: 0,
          facts: { channel: channel.key, gaps, dark },
        }
      }
    },
  },
  {
    id: 'series-no-return',
    severity: 'will-not-work',
    source: `${SHEET}; the fourth wire brings the data back`,
    *find(w) {
      for (const channel of series(w)) {
        const last = channel.sockets.findLastIndex((s) => s.branches.length > 0)
        for (const [i, { socket, branches }] of channel.sockets.entries()) {
          const light = longest(branches).at(-1)
          if (i >= last || !light || light.light.returns) continue
          const dark = partsOf(channel.sockets.slice(i + 1).flatMap((s) => s.branches.flat()))
          yield {
            refs: [socket, light.plug, ...dark],
            facts: { channel: channel.key, at: socket, part: light.part, dark },
            rests: [`parts.${light.part}.${light.light.port}.returns`],
          }
          break
        }
      }
    },
  },
  {
    id: 'splitter-in-series',
    severity: 'may-not-work',
    source: `${SHEET}; two branches hand back two streams`,
    *find(w) {
      for (const channel of series(w)) {
        for (const { socket, branches } of channel.sockets)
          if (branches.length > 1)
            yield {
              refs: [socket, ...partsOf(branches.flat())],
              figure: branches.length,
              limit: 1,
              facts: { at: socket, channel: channel.key },
            }
      }
    },
  },
  {
    id: 'channel-over-leds',
    severity: 'will-not-work',
    unit: 'LEDs',
    source: 'what the header, hub or controller can drive, as the plan gives it',
    *find(w) {
      for (const { ref, limit, lights, dark, partly } of limitedChains(w)) {
        const figure = ledsOf(lights)
        if (isOver(figure, limit))
          yield {
            refs: [ref, ...partsOf(lights)],
            figure,
            limit,
            facts: { channel: ref, dark, partly },
            rests: ledPaths(lights),
          }
      }
    },
  },
  {
    id: 'frames-too-slow',
    severity: 'may-not-work',
    unit: 'LEDs',
    source: 'LED chip data sheet: 30 µs a LED and a reset gap; 30 frames a second as in its features',
    *find(w) {
      for (const channel of channels(w)) {
        const branch = longest(channel.branches)
        const figure = ledsOf(branch)
        const frames = framesPerSecond(figure)
        if (frames < LEAST_FRAMES && branch[0]?.light.volts === 5)
          yield {
            refs: [channel.maker, ...partsOf(branch)],
            figure,
            limit: ledsAtFrames(LEAST_FRAMES),
            facts: { channel: channel.key, frames: Math.round(frames * 10) / 10 },
            rests: ledPaths(branch),
          }
      }
    },
  },
  {
    id: 'branches-unlike',
    severity: 'untidy',
    unit: 'LEDs',
    source: 'LED chip data sheet, cascade: every branch takes the same first frames',
    *find(w) {
      for (const channel of dataChannels(w)) {
        if (channel.order === 'series' || toldOf(w, channel).length > 1) continue
        const counts = channel.branches.map(ledsOf)
        if (counts.length > 1 && Math.min(...counts) !== Math.max(...counts))
          yield {
            refs: [channel.maker, ...partsOf(litParts(channel))],
            figure: Math.max(...counts),
            limit: Math.min(...counts),
            facts: { channel: channel.key, counts: counts.join(', ') },
            rests: channel.branches.flatMap(ledPaths),
          }
      }
    },
  },
  {
    id: 'chain-out-of-place',
    severity: 'untidy',
    source: 'LED chip data sheet, cascade: effects run in the order of the chain',
    *find(w) {
      for (const channel of dataChannels(w)) {
        const facts = outOfOrder(w, channel)
        if (facts)
          yield { refs: ['light_order', channel.maker, ...(facts.chain as readonly string[])], facts }
      }
    },
  },
  {
    id: 'light-order-incomplete',
    severity: 'untidy',
    source: COMMON,
    *find(w) {
      const missing = partsOf(w.lights).filter((id) => !w.plan.lightOrder.includes(id))
      if (w.plan.lightOrder.length > 0 && missing.length > 0)
        yield {
          refs: ['light_order', ...missing],
          figure: missing.length,
          limit: 0,
          facts: { parts: missing },
        }
    },
  },
  orderAgainstPlace,
]
