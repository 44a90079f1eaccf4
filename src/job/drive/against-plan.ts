/**
 * The cross-checks one by one: each holds what was seen to be wrong against the plan and says one fact, or nothing
 * where the plan has nothing to say. Facts are records; the words are made elsewhere.
 */
import type { CrossCheck } from '../../../flows/shared/flow.ts'
import { type Build, conductorIndex, NOWHERE, WIDTH } from '../../core/bench/build.ts'
import { chainOf, channelsOf, profileOf } from '../../core/bench/channel.ts'
import { askedDuty, driveMode } from '../../core/bench/drive.ts'
import { governor } from '../../core/bench/motor.ts'
import type { Observable } from '../../core/bench/observable.ts'
import { plannedMoment } from '../../core/bench/run.ts'
import { plannedColours } from '../../core/bench/setting-now.ts'
import { alarmLimit, reading, tachSources } from '../../core/bench/tach.ts'
import type { Note } from '../../core/checks/prompt.ts'
import { refOf } from '../../core/faults/entry.ts'
import { partAt, plugsFor, routeOf, upstream } from './upstream.ts'

export type Facts = Note['facts']

/** What the bad parts share, and whether good ones hang there too; one part, looked at in several ways, shares nothing. */
function shared(build: Build, bad: readonly Observable[], good: readonly Observable[]): Facts | null {
  const at = bad.map((o) => partAt(build, o.at))
  const parts = bad.filter((_, i) => at.indexOf(at[i] ?? NOWHERE) === i).map((o) => o.at)
  if (parts.length < 2) return null
  const sets = bad.map((o) => upstream(build, partAt(build, o.at), o.what))
  const common = [...(sets[0] ?? [])].filter((ref) => sets.every((s) => s.has(ref)))
  const others = good.map((o) => ({ at: o.at, set: upstream(build, partAt(build, o.at), o.what) }))
  if (common.length === 0) return { what: 'nothing-shared', parts }
  const only = common.filter((ref) => others.every((o) => !o.set.has(ref)))
  if (only.length > 0) return { what: 'shared', parts, at: only.slice(0, 3) }
  const nearest = common[0] ?? ''
  return {
    what: 'shared-too',
    parts,
    at: nearest,
    also: others.filter((o) => o.set.has(nearest)).map((o) => o.at),
  }
}

/** The socket that feeds a plug of the part. */
function fed(build: Build, o: Observable): Facts | null {
  const plug = plugsFor(build, partAt(build, o.at), routeOf(o.what)).findLast((p) => p >= 0) ?? NOWHERE
  const socket = build.socketOf[plug] ?? NOWHERE
  return socket < 0 ? null : { what: 'fed', at: refOf(build, plug), from: refOf(build, socket) }
}

/** The channel that drives a part's lights. */
const channelAt = (build: Build, o: Observable) => {
  const own = channelsOf(build).find((c) => c.ref === o.at)
  if (own) return own
  const part = partAt(build, o.at)
  const moment = plannedMoment(build)
  return channelsOf(build).find((c) => chainOf(moment, c).some((e) => e.part === part))
}

function driven(build: Build, o: Observable): Facts | null {
  if (routeOf(o.what) !== 'light') return null
  let plug = build.parts[partAt(build, o.at)]?.lights[0]?.plug ?? NOWHERE
  for (let step = 0; step < 8 && plug >= 0; step++) {
    const socket = build.socketOf[plug] ?? NOWHERE
    if (socket < 0) return null
    const above = build.parts[build.partOf[socket] ?? NOWHERE]
    if (!above) return { what: 'driven', at: o.at, from: refOf(build, socket) }
    if (above.light?.does === 'feeds') return { what: 'driven', at: o.at, from: above.part.id }
    plug =
      above.light?.does === 'splits'
        ? above.light.from
        : (build.up[socket * WIDTH + conductorIndex['5V']] ?? NOWHERE)
  }
  return null
}

function speedFrom(build: Build, o: Observable): Facts | null {
  const moment = plannedMoment(build)
  const port = build.portAt.has(o.at)
    ? (build.portAt.get(o.at) ?? NOWHERE)
    : governor(moment, partAt(build, o.at))
  if (port < 0) return null
  const from = tachSources(moment, port).map((i) => build.parts[i]?.part.id ?? '')
  return from.length === 0
    ? { what: 'no-speed', at: refOf(build, port) }
    : { what: 'speed-from', at: refOf(build, port), from }
}

/** The way of a part's USB up to the board. */
function usbPath(build: Build, o: Observable): Facts | null {
  const path: string[] = []
  let plug = build.parts[partAt(build, o.at)]?.usbPlug ?? NOWHERE
  for (let step = 0; step < 8 && plug >= 0; step++) {
    const socket = build.socketOf[plug] ?? NOWHERE
    if (socket < 0) break
    path.push(refOf(build, socket))
    plug = build.parts[build.partOf[socket] ?? NOWHERE]?.usbPlug ?? NOWHERE
  }
  return path.length === 0 ? null : { what: 'usb-path', at: o.at, from: path }
}

const portFor = (build: Build, o: Observable): number =>
  build.portAt.get(o.at) ?? governor(plannedMoment(build), partAt(build, o.at))

/** What the settings ask of the port that governs a fan, now. */
function asked(build: Build, o: Observable): Facts | null {
  const port = portFor(build, o)
  if (port < 0 || routeOf(o.what) !== 'motor') return null
  const moment = plannedMoment(build)
  return {
    what: 'asked',
    at: refOf(build, port),
    value: driveMode(moment, port),
    figure: Math.round(askedDuty(moment, port)),
    unit: '%',
  }
}

/** The limit of a watched port against the speed that its fan has when all is well. */
function limitOf(build: Build, o: Observable): Facts | null {
  const port = portFor(build, o)
  const moment = plannedMoment(build)
  if (port < 0) return null
  const limit = alarmLimit(moment, port)
  const shown = reading(moment, port)
  if (limit <= 0 || typeof shown !== 'number') return null
  return { what: 'alarm-limit', at: refOf(build, port), figure: Math.round(shown), limit, unit: 'RPM' }
}

/** The order in which an effect should reach the parts of a channel. */
function order(build: Build, o: Observable): Facts | null {
  const channel = channelAt(build, o)
  if (!channel) return null
  const parts = chainOf(plannedMoment(build), channel).map((e) => build.parts[e.part]?.part.id ?? '')
  return parts.length < 2 ? null : { what: 'order', at: channel.ref, parts }
}

/** LEDs that the settings tell a channel, against those that hang there. */
function ledsTold(build: Build, o: Observable): Facts | null {
  const channel = channelAt(build, o)
  if (!channel) return null
  const moment = plannedMoment(build)
  const sum = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0)
  const told = sum(profileOf(moment, moment, channel))
  const fitted = sum(chainOf(moment, channel).map((e) => e.leds))
  return { what: 'told', at: channel.ref, figure: told, limit: fitted }
}

/** The colour order that the lights of a channel have by the plan. */
function colours(build: Build, o: Observable): Facts | null {
  const channel = channelAt(build, o)
  const value = channel && plannedColours(build, channel.place)
  return value === undefined ? null : { what: 'colours', at: channel?.ref ?? '', value }
}

type Held = (
  build: Build,
  bad: readonly Observable[],
  good: readonly Observable[],
) => readonly (Facts | null)[]

/** The first few are told; what is the same for several is told once. */
const each =
  (say: (build: Build, o: Observable) => Facts | null, most: number): Held =>
  (build, bad) => {
    const told = new Map<string, Facts>()
    for (const o of bad) {
      const facts = say(build, o)
      if (facts) told.set(String(facts.at), facts)
    }
    return [...told.values()].slice(0, most)
  }

export const against: Readonly<Record<CrossCheck, Held>> = {
  shared: (build, bad, good) => [shared(build, bad, good)],
  fed: (build, bad) => (bad.length > 2 ? [] : each(fed, 2)(build, bad, [])),
  driven: each(driven, 1),
  'speed-from': each(speedFrom, 3),
  'usb-path': each(usbPath, 3),
  asked: each(asked, 2),
  'alarm-limit': each(limitOf, 2),
  order: each(order, 1),
  colours: each(colours, 1),
  told: each(ledsTold, 2),
}
