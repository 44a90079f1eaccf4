/**
 * Light data: whether it reaches every LED, in the planned order, in the planned count and colours, and who sends it.
 */
import { framesPerSecond, LEAST_FRAMES, ledsAtFrames } from '../electrics/led-data.ts'
import { isOver } from '../electrics/overload.ts'
import { type Branch, type Channel, channelsOf, ledsOf, litParts, longest } from './channels.ts'
import { COMMON, type Facts, type Family, type Hit } from './finding.ts'
import { type LightAt, partOf, type Wiring } from './wiring.ts'

const SHEET = 'LED chip data sheet, cascade'
const profileRef = (channel: Channel): string => `channels/${channel.key}/profile`
const partsOf = (lights: readonly LightAt[]): string[] => [...new Set(lights.map((l) => l.part))]
const sum = (of: readonly number[]): number => of.reduce((a, b) => a + b, 0)

/** Channels are looked at by many rules; found once an audit. */
const known = new WeakMap<Wiring, readonly Channel[]>()
export function channels(w: Wiring): readonly Channel[] {
  const found = known.get(w) ?? channelsOf(w)
  known.set(w, found)
  return found
}

/** Ports of a hub in series that are passed over: empty, with something lit after them. */
function gapsOf(channel: Channel): string[] {
  const last = channel.sockets.findLastIndex((s) => s.branches.length > 0)
  return channel.sockets
    .slice(0, Math.max(0, last))
    .flatMap((s) => (s.branches.length === 0 ? [s.socket] : []))
}

interface Told {
  readonly told: number
  readonly fitted: number
  readonly branch: Branch
  readonly at: string
}

/** What each branch is told against what it has, by the profile; nothing where there is no profile. */
function toldOf(w: Wiring, channel: Channel): Told[] {
  const profile = w.plan.settings.channels[channel.key]?.profile
  if (!profile || profile.length === 0) return []
  if (channel.order === 'series' || channel.sockets.length === 1) {
    const branch = longest(channel.branches)
    return [{ told: sum(profile), fitted: ledsOf(branch), branch, at: channel.key }]
  }
  return channel.sockets.flatMap(({ socket, branches }, i) => {
    const branch = longest(branches)
    return branch.length === 0
      ? []
      : [{ told: profile[i] ?? profile[0] ?? 0, fitted: ledsOf(branch), branch, at: socket }]
  })
}

const ledPaths = (branch: Branch): string[] => branch.map((l) => `parts.${l.part}.${l.light.port}.leds`)

function* counted(w: Wiring, wrong: (told: number, fitted: number) => boolean): Generator<Hit> {
  for (const channel of channels(w))
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

function* makers(
  w: Wiring,
): Generator<readonly [id: string, plug: string, lit: readonly LightAt[], beforeHost: string]> {
  for (const part of w.plan.parts) {
    if (part.kind === 'pump' && part.host === 'usb' && part.lights.length > 0)
      yield [part.id, `${part.id}.usb`, [], part.beforeHost]
    if (part.kind !== 'light-hub' && part.kind !== 'controller') continue
    if (part.host === 'none') continue
    const plug = part.host === 'usb' ? 'usb' : part.kind === 'controller' ? 'light_in' : 'in'
    if (part.kind === 'controller' && part.lightPorts === 0 && part.host !== 'usb') continue
    const lit = channels(w)
      .filter((c) => c.maker === part.id)
      .flatMap(litParts)
    yield [part.id, `${part.id}.${plug}`, lit, part.beforeHost]
  }
}

/** What the channel's neighbours in the order of places say about the chain. */
function outOfOrder(w: Wiring, channel: Channel): Facts | undefined {
  const placed = partsOf(longest(channel.branches)).filter((id) => w.plan.lightOrder.includes(id))
  const wanted = [...placed].sort((a, b) => w.plan.lightOrder.indexOf(a) - w.plan.lightOrder.indexOf(b))
  return placed.every((id, i) => id === wanted[i])
    ? undefined
    : { channel: channel.key, chain: placed, wanted }
}

export const lightData: Family = {
  family: 'light data',
  rules: [
    {
      id: 'series-gap',
      severity: 'will-not-work',
      source: `${SHEET}; a hub in series gets the data back from each port before the next has any`,
      *find(w) {
        for (const channel of channels(w)) {
          const gaps = channel.order === 'series' ? gapsOf(channel) : []
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
        for (const channel of channels(w)) {
          if (channel.order !== 'series') continue
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
        for (const channel of channels(w)) {
          if (channel.order !== 'series') continue
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
        for (const channel of channels(w)) {
          const branch = longest(channel.branches)
          const figure = ledsOf(branch)
          if (channel.maxLeds !== undefined && isOver(figure, channel.maxLeds))
            yield {
              refs: [channel.maker, ...partsOf(branch)],
              figure,
              limit: channel.maxLeds,
              facts: { channel: channel.key, last: branch.at(-1)?.part ?? '' },
              rests: ledPaths(branch),
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
        for (const channel of channels(w)) {
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
          const wrong = litParts(channel).filter(
            (l) => sent && l.light.volts === 5 && l.light.colours !== sent,
          )
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
    {
      id: 'host-lead-missing',
      severity: 'may-not-work',
      source: COMMON,
      *find(w) {
        for (const [id, plug, lit, beforeHost] of makers(w))
          if (!w.leadAt(plug))
            yield {
              refs: [plug, ...partsOf(lit)],
              severity: beforeHost === 'dark' ? 'will-not-work' : 'may-not-work',
              facts: { part: id, plug, shows: beforeHost },
            }
      },
    },
    {
      id: 'nobody-drives',
      severity: 'untidy',
      source: COMMON,
      *find(w) {
        for (const channel of channels(w))
          if (channel.host === 'none')
            yield {
              refs: [channel.maker, ...partsOf(litParts(channel))],
              severity: channel.beforeHost === 'dark' ? 'will-not-work' : 'untidy',
              facts: { channel: channel.key, part: channel.maker, shows: channel.beforeHost },
            }
      },
    },
    {
      id: 'program-absent',
      severity: 'may-not-work',
      source: COMMON,
      *find(w) {
        if (w.plan.settings.host.program === 'running') return
        for (const channel of channels(w))
          if (channel.host !== 'none')
            yield {
              refs: ['host/program', channel.maker, ...partsOf(litParts(channel))],
              severity: channel.beforeHost === 'dark' ? 'will-not-work' : 'may-not-work',
              facts: { channel: channel.key, shows: channel.beforeHost },
            }
      },
    },
    {
      id: 'global-effect-on',
      severity: 'may-not-work',
      source: COMMON,
      *find(w) {
        const set = channels(w).filter((c) => w.plan.settings.channels[c.key])
        if (w.plan.settings.host.globalEffect === 'on' && set.length > 0)
          yield {
            refs: ['host/global_effect', ...set.map((c) => `channels/${c.key}`)],
            facts: { channels: set.map((c) => c.key) },
          }
      },
    },
    {
      id: 'two-hosts',
      severity: 'may-not-work',
      source: COMMON,
      *find(w) {
        for (const part of w.plan.parts) {
          if (part.kind !== 'pump' || part.host !== 'usb') continue
          const fed = part.lights.map((l) => `${part.id}.${l.port}`).filter((plug) => w.leadAt(plug))
          if (fed.length > 0 && w.leadAt(`${part.id}.usb`))
            yield { refs: [...fed, `${part.id}.usb`], figure: 2, limit: 1, facts: { part: part.id } }
        }
      },
    },
    {
      id: 'channel-told-elsewhere',
      severity: 'may-not-work',
      source: COMMON,
      *find(w) {
        const made = new Set(channels(w).map((c) => c.key))
        for (const key of Object.keys(w.plan.settings.channels)) {
          const part = w.parts.get(key) ?? w.parts.get(partOf(key))
          const listens =
            (part?.kind === 'light-hub' || part?.kind === 'controller') && part.host === 'header'
          if (!made.has(key) && part && listens)
            yield { refs: [`channels/${key}`, part.id], facts: { channel: key, part: part.id } }
        }
      },
    },
    {
      id: 'branches-unlike',
      severity: 'untidy',
      unit: 'LEDs',
      source: 'LED chip data sheet, cascade: every branch takes the same first frames',
      *find(w) {
        for (const channel of channels(w)) {
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
        for (const channel of channels(w)) {
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
    {
      id: 'light-plug-open',
      severity: 'will-not-work',
      source: COMMON,
      *find(w) {
        for (const { plug, part } of w.lights) {
          const own = w.parts.get(part)
          const lit = own?.kind === 'pump' && own.host === 'usb'
          if (!lit && !w.leadAt(plug)) yield { refs: [plug], facts: { part, plug } }
        }
      },
    },
  ],
}
