/**
 * A light channel as a whole: in which order its parts come, how a running effect looks over them, and which part
 * lights when one port is lit alone. A channel is named by the part that drives it, or by the port where each port
 * is a channel of its own (`H1`, `C1.light1`, `board.L1`).
 */
import { type Build, NOWHERE } from './build.ts'
import { type LightNow, lightNow, outOf } from './light-data.ts'
import { type Moment, momentOf } from './moment.ts'
import { hostSpeaksTo } from './usb.ts'
import { asPlanned } from './world.ts'

export interface ChainEntry {
  readonly part: number
  /** Which of the part's lights. */
  readonly light: number
  /** LEDs before it in its chain, as plugged. */
  readonly start: number
  readonly leds: number
  /** Number of the channel's socket it hangs under. */
  readonly branch: number
}

export interface Channel {
  readonly ref: string
  readonly place: string
  readonly order: 'series' | 'parallel' | 'separate'
  readonly sockets: readonly number[]
  /** The part that drives it, or NOWHERE for the board. */
  readonly driver: number
}

const known = new WeakMap<Build, readonly Channel[]>()

/** All channels that a host can drive, in the plan's order. */
export function channelsOf(build: Build): readonly Channel[] {
  const channels = known.get(build) ?? findChannels(build)
  known.set(build, channels)
  return channels
}

function findChannels(build: Build): readonly Channel[] {
  const board = [...build.lightHeaders.entries()].map(([socket, header]) => ({
    ref: `board.${header.id}`,
    place: header.id,
    order: 'separate' as const,
    sockets: [socket],
    driver: NOWHERE,
  }))
  const parts = build.parts.flatMap((entry, driver): Channel[] => {
    const { light, part } = entry
    if (light?.does !== 'feeds' || light.host !== 'usb') return []
    if (light.order !== 'separate')
      return [{ ref: part.id, place: part.id, order: light.order, sockets: light.sockets, driver }]
    return light.sockets.map((socket) => {
      const ref = build.ports[socket]?.ref ?? ''
      return { ref, place: ref, order: 'separate', sockets: [socket], driver }
    })
  })
  return [...board, ...parts]
}

/** The lights under a channel as they are plugged, whether or not anything reaches them. */
export function chainOf(moment: Moment, channel: Channel): readonly ChainEntry[] {
  const found: ChainEntry[] = []
  let start = 0
  channel.sockets.forEach((socket, branch) => {
    if (channel.order !== 'series') start = 0
    start = hang(moment, socket, start, branch, found, 0)
  })
  return found
}

/** Adds what hangs under a socket; returns the LEDs passed by then along the longest branch. */
function hang(
  moment: Moment,
  socket: number,
  start: number,
  branch: number,
  found: ChainEntry[],
  depth: number,
): number {
  const { build, world } = moment
  const plug = world.plugIn[socket] ?? NOWHERE
  const index = build.partOf[plug] ?? NOWHERE
  const part = build.parts[index]
  if (!part || depth > 32) return start
  const k = part.lights.findIndex((light) => light.plug === plug)
  const own = part.lights[k]
  if (own) {
    found.push({ part: index, light: k, start, leds: own.light.leds, branch })
    return hang(moment, own.out, start + own.light.leds, branch, found, depth + 1)
  }
  const inSeries = part.light?.does === 'feeds' && part.light.order === 'series'
  let furthest = start
  for (const way of part.light?.sockets ?? [])
    furthest = Math.max(furthest, hang(moment, way, inSeries ? furthest : start, branch, found, depth + 1))
  return furthest
}

const now = (moment: Moment, entry: ChainEntry): LightNow | undefined => {
  const light = moment.build.parts[entry.part]?.lights[entry.light]
  return light && lightNow(moment, entry.part, light)
}

const sum = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0)

const byPort = (channel: Channel, chain: readonly ChainEntry[]): number[] =>
  channel.sockets.map((_, b) => sum(chain.flatMap((e) => (e.branch === b ? [e.leds] : []))))

/**
 * LEDs told by port, from the settings, else as the lights are planned. A profile may be written by part where
 * several hang on one port: then it is added up.
 */
export function profileOf(moment: Moment, reference: Moment, channel: Channel): readonly number[] {
  const set = moment.world.settings.channels[channel.place]?.profile
  const planned = chainOf(reference, channel)
  if (!set) return byPort(channel, planned)
  if (channel.order !== 'series' || set.length !== planned.length) return set
  return channel.sockets.map((_, b) => sum(set.filter((_, i) => planned[i]?.branch === b)))
}

/** LEDs by port as they are wired, without the empty ports behind the last one in use. */
export function wiredProfile(moment: Moment, channel: Channel): readonly number[] {
  const chain = chainOf(moment, channel)
  if (channel.order === 'separate') return [Math.max(0, ...chain.map((e) => e.start + e.leds))]
  const counts = byPort(channel, chain)
  while (counts.length > 1 && counts.at(-1) === 0) counts.pop()
  return counts
}

export type EffectWord = 'whole' | 'stops-short' | 'runs-off' | 'jumps'

/** Null where no host drives the channel, or nothing hangs on it. */
export function effect(moment: Moment, reference: Moment, channel: Channel): EffectWord | null {
  if (!driven(moment, channel) || frozen(moment, channel)) return null
  const planned = chainOf(reference, channel)
  const actual = chainOf(moment, channel)
  const last = lastOf(planned, channel)
  if (!last) return null
  const lastNow = now(moment, last)
  if (!lastNow || lastNow.reached < lastNow.leds) return 'stops-short'
  const told = profileOf(moment, reference, channel)
  const fitted = byPort(channel, actual)
  // All ports show the same from their first LED on, so there is no order that could be wrong.
  if (channel.order === 'parallel')
    return fitted.some((n, b) => n > 0 && (told[b] ?? 0) > n) ? 'runs-off' : 'whole'
  if (!sameOrder(orderOf(moment.build, channel), actual)) return 'jumps'
  if (sum(told) > Math.max(...actual.map((e) => e.start + e.leds))) return 'runs-off'
  const shifted = (n: number, b: number): boolean => n > 0 && (told[b] ?? 0) > 0 && n !== told[b]
  return channel.order === 'series' && fitted.some(shifted) ? 'jumps' : 'whole'
}

/** Where an effect ends: at the end of the longest branch where several take the same frames. */
function lastOf(chain: readonly ChainEntry[], channel: Channel): ChainEntry | undefined {
  if (channel.order !== 'separate') return chain.at(-1)
  const end = Math.max(...chain.map((e) => e.start + e.leds))
  return chain.findLast((e) => e.start + e.leds === end)
}

const orders = new WeakMap<Channel, readonly ChainEntry[]>()

/** The order of the plan, which is the right one wherever hands have moved a plug since. */
function orderOf(build: Build, channel: Channel): readonly ChainEntry[] {
  const order = orders.get(channel) ?? chainOf(momentOf(build, asPlanned(build)), channel)
  orders.set(channel, order)
  return order
}

/** The parts that hang on both come in the same order; a missing one is no other order. */
function sameOrder(planned: readonly ChainEntry[], actual: readonly ChainEntry[]): boolean {
  const names = (chain: readonly ChainEntry[]): string[] => chain.map((e) => `${e.part}.${e.light}`)
  const [should, is] = [names(planned), names(actual)]
  return should.filter((n) => is.includes(n)).join(' ') === is.filter((n) => should.includes(n)).join(' ')
}

const driven = (moment: Moment, channel: Channel): boolean =>
  moment.world.power &&
  (channel.driver < 0
    ? moment.world.settings.host.program === 'running'
    : hostSpeaksTo(moment, channel.driver))

const frozen = (moment: Moment, channel: Channel): boolean =>
  outOf(moment, channel.sockets[0] ?? NOWHERE)?.making === 'frozen'

/** Names of the parts that light when this port alone is lit, joined by +; null where no host can do that. */
export function answersAt(moment: Moment, reference: Moment, socket: number): string | null {
  const { build } = moment
  const channel = channelsOf(build).find((c) => c.sockets.includes(socket))
  if (!channel || channel.order === 'parallel' || !driven(moment, channel)) return null
  const branch = channel.sockets.indexOf(socket)
  const profile = profileOf(moment, reference, channel)
  const before = channel.order === 'series' ? profile.slice(0, branch).reduce((a, b) => a + b, 0) : 0
  const from = before
  const to = channel.order === 'series' ? before + (profile[branch] ?? 0) : Number.POSITIVE_INFINITY
  if (frozen(moment, channel)) return 'none'
  const lit = chainOf(moment, channel)
    .filter((entry) => {
      const shown = now(moment, entry)
      return shown !== undefined && shown.lit > 0 && entry.start < to && entry.start + shown.reached > from
    })
    .map((entry) => entry.part)
  const ids = build.parts.flatMap((part, i) => (lit.includes(i) ? [part.part.id] : []))
  return ids.length === 0 ? 'none' : ids.join('+')
}

/** Ports that a host can light alone. */
export const lightablePorts = (build: Build): readonly number[] =>
  channelsOf(build).flatMap((c) => (c.order === 'parallel' ? [] : c.sockets))
