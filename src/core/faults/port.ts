/** A header, a hub's port or a supply plug that does not work, wholly or in one of its functions. */
import { type Build, conductorIndex, NOWHERE, SUPPLY } from '../bench/build.ts'
import { plannedMoment } from '../bench/run.ts'
import { alarmLimit, COARSE_RPM, reading } from '../bench/tach.ts'
import { PORT, spoilPort, type World } from '../bench/world.ts'
import type { Conductor } from '../plan/ports.ts'
import { type FaultEntry, portAt, refOf, seat } from './entry.ts'

const inUse = (build: Build): readonly number[] =>
  build.sockets.filter((s) => (build.plugIn[s] ?? NOWHERE) >= 0)
const has = (build: Build, socket: number, c: Conductor): boolean =>
  ((build.pins[socket] ?? 0) & (1 << conductorIndex[c])) !== 0
const passive = (build: Build, socket: number): boolean => {
  const kind = build.parts[build.partOf[socket] ?? NOWHERE]?.part.kind
  return kind === 'fan-splitter' || kind === 'light-splitter' || kind === 'adapter' || kind === 'fan'
}

const bit = (flag: number, c?: Conductor) => (build: Build, at: string) => {
  const socket = portAt(build, at)
  if (socket === undefined || build.ports[socket]?.gender !== 'socket') return undefined
  if (c !== undefined && !has(build, socket, c)) return undefined
  return (world: World) => spoilPort(world, socket, flag)
}

const onHeader = (flag: number) => (build: Build, at: string) => {
  const socket = portAt(build, at)
  return socket !== undefined && build.fanHeaders.has(socket) ? bit(flag)(build, at) : undefined
}

export const portFaults: readonly FaultEntry[] = [
  {
    mode: 'dead',
    family: 'part',
    seats: (build) =>
      inUse(build).map((s) =>
        seat(refOf(build, s), build.partOf[s] === SUPPLY ? 0.1 : passive(build, s) ? 0.12 : 0.15),
      ),
    plant: bit(PORT.dead),
  },
  {
    mode: 'tripped',
    family: 'load',
    seats: (build) =>
      [...build.fanHeaders]
        .filter(([s, header]) => header.protected && (build.plugIn[s] ?? NOWHERE) >= 0)
        .map(([s]) => seat(refOf(build, s), 0.12)),
    plant: onHeader(PORT.tripped),
  },
  {
    // A fuse that heals by itself: it gives up warm, under its load, and feeds again once it has cooled.
    mode: 'trips-again',
    family: 'load',
    intermittent: true,
    seats: (build) =>
      inUse(build)
        .filter((s) => build.fanHeaders.get(s)?.protected || build.lightHeaders.has(s))
        .map((s) => seat(refOf(build, s), 0.06)),
    plant: (build, at) => {
      const socket = portAt(build, at) ?? NOWHERE
      const onBoard = build.fanHeaders.has(socket) || build.lightHeaders.has(socket)
      return onBoard ? bit(PORT.recovers)(build, at) : undefined
    },
  },
  {
    mode: 'control-dead',
    family: 'part',
    seats: (build) =>
      inUse(build)
        .filter((s) => has(build, s, 'CONTROL') && !passive(build, s))
        .map((s) => seat(refOf(build, s), 0.08)),
    plant: bit(PORT.control, 'CONTROL'),
  },
  {
    mode: 'tach-dead',
    family: 'reading',
    seats: (build) =>
      [...build.fanHeaders.keys()]
        .filter((s) => (build.plugIn[s] ?? NOWHERE) >= 0)
        .map((s) => seat(refOf(build, s), 0.1)),
    plant: bit(PORT.tach, 'TACH'),
  },
  {
    mode: 'data-dead',
    family: 'part',
    seats: (build) =>
      inUse(build)
        .filter((s) => has(build, s, 'DATA') && !passive(build, s))
        .map((s) => seat(refOf(build, s), 0.12)),
    plant: bit(PORT.data, 'DATA'),
  },
  {
    mode: 'worn-contact',
    family: 'part',
    intermittent: true,
    seats: (build) =>
      inUse(build)
        .filter((s) => build.partOf[s] !== SUPPLY && !passive(build, s) && !has(build, s, 'USB'))
        .map((s) => seat(refOf(build, s), 0.03)),
    plant: bit(PORT.flaky),
  },
  {
    // A board's data level just too low for the first LED, or the lead to it too long.
    mode: 'data-weak',
    family: 'part',
    intermittent: true,
    seats: (build) =>
      [...build.lightHeaders]
        .filter(([s, header]) => header.volts === 5 && (build.plugIn[s] ?? NOWHERE) >= 0)
        .map(([s]) => seat(refOf(build, s), 0.15)),
    plant: bit(PORT.weak, 'DATA'),
  },
  {
    mode: 'alarm-stored',
    family: 'reading',
    seats: (build) =>
      [...build.fanHeaders.keys()]
        .filter((s) => alarmLimit(plannedMoment(build), s) > 0)
        .map((s) => seat(refOf(build, s), 0.12)),
    plant: onHeader(PORT.alarm),
  },
  {
    // The counter's range starts above what its fan does: it shows 0.
    mode: 'counts-coarsely',
    family: 'reading',
    seats: (build) =>
      [...build.fanHeaders.keys()].filter((s) => readsSlow(build, s)).map((s) => seat(refOf(build, s), 0.1)),
    plant: onHeader(PORT.coarse),
  },
]

function readsSlow(build: Build, socket: number): boolean {
  const shown = reading(plannedMoment(build), socket)
  return typeof shown === 'number' && shown > 0 && shown < COARSE_RPM
}
