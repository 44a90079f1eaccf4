/** Parts that do not do their work: motors, tachs, lights, hubs, controllers, and splitters that return another tach. */
import { type Build, type BuildPart, NOWHERE } from '../bench/build.ts'
import { alterPart, type PartState, PORT, pull, spoilPort } from '../bench/world.ts'
import { type FaultEntry, type Seat, seat } from './entry.ts'
import type { Family } from './fault.ts'

const seats = (build: Build, weight: (entry: BuildPart) => number): readonly Seat[] =>
  build.parts.flatMap((entry) => {
    const w = weight(entry)
    return w > 0 ? [seat(entry.part.id, w)] : []
  })

const alters = (change: PartState, fits: (entry: BuildPart) => boolean) => (build: Build, at: string) => {
  const index = build.partAt.get(at)
  const entry = index === undefined ? undefined : build.parts[index]
  return index !== undefined && entry && fits(entry)
    ? (world: Parameters<typeof alterPart>[0]) => alterPart(world, index, change)
    : undefined
}

const plain = (
  mode: string,
  family: Family,
  change: PartState,
  weight: (entry: BuildPart) => number,
): FaultEntry => ({
  mode,
  family,
  seats: (build) => seats(build, weight),
  plant: alters(change, (entry) => weight(entry) > 0),
})

const motor = (w: number) => (entry: BuildPart) => (entry.motor ? w : 0)
const lit = (w: number) => (entry: BuildPart) => (entry.lights.length > 0 ? w : 0)
const ACTIVE: readonly string[] = ['fan-hub', 'light-hub', 'controller', 'usb-hub', 'usb-device']
const active = (w: number) => (entry: BuildPart) => (ACTIVE.includes(entry.part.kind) ? w : 0)
const onUsb = (w: number) => (entry: BuildPart) => (entry.usbPlug >= 0 ? w : 0)
const makesLight = (w: number) => (entry: BuildPart) =>
  entry.light?.does === 'feeds' && entry.light.host === 'usb' ? w : 0
const fanLike = (w: number) => (entry: BuildPart) => (entry.part.kind === 'fan' && entry.motor ? w : 0)

/** One LED near the middle stands for all that are neither the first nor the last. */
const ledPlaces = (leds: number): readonly number[] =>
  leds < 2 ? [] : [...new Set([2, Math.ceil(leds / 2), leds])].filter((n) => n > 1 && n <= leds)

/** LEDs of the largest set in a chain. */
const chained = (entry: BuildPart): number =>
  Math.max(0, ...entry.lights.flatMap(({ light }) => (light.volts === 5 ? [light.leds] : [])))

const tachWays = (entry: BuildPart): readonly Seat[] => {
  if (entry.tachOut < 0 || entry.sockets.length < 2 || entry.part.kind === 'adapter') return []
  return [
    ...entry.sockets.flatMap((socket, i) =>
      entry.tachFrom.length === 1 && entry.tachFrom[0] === socket
        ? []
        : i < 3
          ? [seat(entry.part.id, 0.1, `from-${i + 1}`)]
          : [],
    ),
    ...(entry.tachFrom.length > 1 ? [] : [seat(entry.part.id, 0.12, 'joined')]),
  ]
}

export const partFaults: readonly FaultEntry[] = [
  plain('motor-dead', 'part', { motor: 'dead' }, motor(0.25)),
  plain('seized', 'part', { motor: 'seized' }, motor(0.1)),
  plain('blocked', 'connection', { motor: 'blocked' }, fanLike(0.4)),
  plain('worn', 'part', { motor: 'worn' }, motor(0.06)),
  // Dry, but not yet fast: it starts at times, and gives up again.
  { ...plain('sticking', 'part', { motor: 'sticks' }, motor(0.06)), intermittent: true },
  {
    ...plain('tach-dead', 'part', { tachDead: true }, motor(0.12)),
    seats: (build) => seats(build, (entry) => (entry.motor?.tach === 'pulses' ? 0.12 : 0)),
  },
  {
    // Another fan than planned: its third wire tells running or locked, and no speed.
    ...plain('tach-level', 'wiring', { tachDead: true }, motor(0.05)),
    seats: (build) => seats(build, (entry) => (entry.motor?.tach === 'pulses' ? 0.05 : 0)),
  },
  plain('lights-dead', 'part', { lightsDead: true }, lit(0.25)),
  {
    mode: 'led-dead-',
    family: 'part',
    seats: (build) =>
      build.parts.flatMap((entry) => {
        const places = ledPlaces(entry.lights[0]?.light.volts === 5 ? (entry.lights[0]?.light.leds ?? 0) : 0)
        return places.map((n) => seat(entry.part.id, 0.2 / places.length, String(n)))
      }),
    plant: (build, at, arg) => {
      const n = Number(arg)
      if (!Number.isInteger(n) || n < 1) return undefined
      return alters({ ledDead: n }, (entry) =>
        entry.lights.some(({ light }) => light.volts === 5 && n <= light.leds),
      )(build, at)
    },
  },
  {
    mode: 'led-dark-',
    family: 'part',
    seats: (build) =>
      build.parts.flatMap((entry) => {
        const place = Math.ceil(chained(entry) / 2)
        return place > 0 ? [seat(entry.part.id, 0.06, String(place))] : []
      }),
    plant: (build, at, arg) => {
      const n = Number(arg)
      if (!Number.isInteger(n) || n < 1) return undefined
      return alters({ ledDark: n }, (entry) => n <= chained(entry))(build, at)
    },
  },
  plain('dead', 'part', { dead: true }, active(0.2)),
  plain('not-answering', 'part', { notAnswering: true }, onUsb(0.1)),
  plain('usb-stuck', 'host', { asleep: true }, onUsb(0.12)),
  plain('hung', 'host', { hung: true }, makesLight(0.25)),
  {
    mode: 'tach-',
    family: 'wiring',
    seats: (build) => build.parts.flatMap(tachWays),
    plant: (build, at, arg) => {
      const way = /^from-(\d+)$/.exec(arg)?.[1]
      if (way === undefined && arg !== 'joined') return undefined
      const n = Number(way)
      return alters(
        { tachFrom: way === undefined ? 'all' : n },
        (entry) => entry.tachOut >= 0 && (way === undefined || (n >= 1 && n <= entry.sockets.length)),
      )(build, at)
    },
  },
  {
    // A splitter with fewer ways than planned: what should hang on the last way hangs nowhere.
    mode: 'way-missing',
    family: 'wiring',
    seats: (build) =>
      build.parts.flatMap((entry) => (lastWay(build, entry) < 0 ? [] : [seat(entry.part.id, 0.05)])),
    plant: (build, at) => {
      const entry = build.parts[build.partAt.get(at) ?? NOWHERE]
      const socket = entry ? lastWay(build, entry) : NOWHERE
      if (socket < 0) return undefined
      return (world) => {
        const plug = world.plugIn[socket] ?? NOWHERE
        if (plug >= 0) pull(world, plug)
        spoilPort(world, socket, PORT.dead)
      }
    },
  },
]

/** The last way of a splitter with three or more, where something hangs on it. */
function lastWay(build: Build, { part, sockets }: BuildPart): number {
  const splits = part.kind === 'fan-splitter' || part.kind === 'light-splitter'
  const last = sockets.at(-1) ?? NOWHERE
  return splits && sockets.length > 2 && (build.plugIn[last] ?? NOWHERE) >= 0 ? last : NOWHERE
}
