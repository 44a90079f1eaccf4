/**
 * One look over everything of a kind: which fans stay dark, which stand still, which headers read 0, which parts
 * show another pattern. A person takes it in at a glance, so it is one question; each thing that is wrong is one
 * mark, and what is not marked was seen to be right.
 */
import { type Build, NOWHERE } from '../bench/build.ts'
import { chainOf, channelsOf, lightablePorts } from '../bench/channel.ts'
import type { Observable, Value } from '../bench/observable.ts'
import { plannedMoment } from '../bench/run.ts'
import { alarmLimit } from '../bench/tach.ts'
import { refOf } from '../faults/entry.ts'
import { governedPorts } from '../faults/governed.ts'
import { type HostSpeaks, wanted } from '../infer/planned.ts'
import { lookCost } from './looks.ts'
import type { Ask, Mark } from './prompt.ts'

/** What can be looked over, the cheapest first: seen at a glance, read from one page, tried one by one. */
export const MAP_KINDS = [
  'spins',
  'lit',
  'steady',
  'flickers',
  'shows',
  'rpm',
  'listed',
  'alarm',
  'effect',
  'follows',
  'answers',
] as const

export type MapKind = (typeof MAP_KINDS)[number]

interface MapForm {
  /** What it goes over, in the plan's order. */
  readonly things: (build: Build) => readonly string[]
  /** What can be marked, in the order in which it is offered. */
  readonly markable: (build: Build, at: string) => readonly Value[]
  /** For each thing, beside what the look takes as a whole. */
  readonly minutesEach: number
}

const always =
  (...values: Value[]) =>
  () =>
    values

const partsWith =
  (has: (entry: Build['parts'][number], build: Build) => boolean) =>
  (build: Build): readonly string[] =>
    build.parts.filter((entry) => has(entry, build)).map((entry) => entry.part.id)

const portsWhere =
  (has: (build: Build, port: number) => boolean = () => true) =>
  (build: Build): readonly string[] =>
    governedPorts(build)
      .filter((port) => has(build, port))
      .map((port) => refOf(build, port))

const turns = (entry: Build['parts'][number]): boolean =>
  entry.motor !== undefined && entry.motorPlug !== NOWHERE

const hasWiredLights = (entry: Build['parts'][number], build: Build): boolean =>
  entry.lights.some((l) => (build.socketOf[l.plug] ?? NOWHERE) >= 0) ||
  (entry.part.kind === 'pump' && entry.lights.length > 0)

/** Parts that hang on the same channel as this port, which could light in its place. */
function onSameChannel(build: Build, at: string): readonly string[] {
  const socket = build.portAt.get(at) ?? NOWHERE
  const channel = channelsOf(build).find((c) => c.sockets.includes(socket))
  // Where each port is a channel of its own, those of the same controller are its neighbours.
  const near = channelsOf(build).filter((c) => c === channel || (channel && c.driver === channel.driver))
  const ids = near
    .flatMap((c) => chainOf(plannedMoment(build), c))
    .map((e) => build.parts[e.part]?.part.id ?? '')
  const right = wanted(build, { what: 'answers', at })
  return [...new Set(ids)].filter((id) => id !== right)
}

const FORMS: Readonly<Record<MapKind, MapForm>> = {
  spins: {
    things: partsWith(turns),
    markable: always('no', 'twitches', 'slow', 'full'),
    minutesEach: 0.05,
  },
  steady: {
    things: partsWith(turns),
    markable: always('comes-and-goes', 'swings', 'ticks'),
    minutesEach: 0.05,
  },
  flickers: { things: partsWith(hasWiredLights), markable: always('yes'), minutesEach: 0.05 },
  lit: { things: partsWith(hasWiredLights), markable: always('dark', 'part', 'flicker'), minutesEach: 0.05 },
  shows: {
    things: partsWith(hasWiredLights),
    markable: always('stored', 'global', 'wrong-colours', 'frozen', 'nothing'),
    minutesEach: 0.05,
  },
  rpm: {
    things: portsWhere(),
    markable: always('zero', 'low', 'high', 'erratic', 'none'),
    minutesEach: 0.05,
  },
  listed: {
    things: partsWith((entry) => entry.usbPlug >= 0),
    markable: always('no', 'comes-and-goes'),
    minutesEach: 0.05,
  },
  alarm: {
    things: portsWhere(
      (build, port) => build.fanHeaders.has(port) && alarmLimit(plannedMoment(build), port) > 0,
    ),
    markable: always('yes'),
    minutesEach: 0.05,
  },
  effect: {
    things: (build) => channelsOf(build).map((c) => c.ref),
    markable: always('stops-short', 'runs-off', 'jumps'),
    minutesEach: 0.3,
  },
  follows: { things: portsWhere(), markable: always('no', 'some'), minutesEach: 0.5 },
  answers: {
    things: (build) => lightablePorts(build).map((s) => refOf(build, s)),
    markable: (build, at) => ['none', ...onSameChannel(build, at)],
    minutesEach: 0.4,
  },
}

/**
 * Things that a map of this kind goes over: those of which something is wanted to be seen.
 * @param host whether the host speaks, where that is another than planned: lights may then be dark by right
 */
export const mapped = (build: Build, kind: MapKind, host?: HostSpeaks): readonly Observable[] =>
  FORMS[kind]
    .things(build)
    .map((at): Observable => ({ what: kind, at }))
    .filter((o) => !unseen(kind, host).includes(wanted(build, o, host)))

const unseen = (kind: MapKind, host: HostSpeaks | undefined): readonly (Value | null)[] =>
  host === undefined ? [null, 'none'] : kind === 'lit' ? [null, 'dark'] : [null, 'none', 'nothing']

const BASE_MINUTES = 0.5
/** Marking on a map is a look with the name beside it: fewer slips than a single answer read from memory. */
const MAP_ERROR = 0.03

/** The observables of several maps, in order. */
export const mappedAll = (
  build: Build,
  kinds: readonly MapKind[],
  host?: HostSpeaks,
): readonly Observable[] => kinds.flatMap((kind) => mapped(build, kind, host))

/** @param things what the map goes over, where it is not all that `kinds` name (a plug may have been moved) */
export function mapAsk(
  build: Build,
  kinds: readonly MapKind[],
  stage: 'scope' | 'check' | 'proof',
  things: readonly Observable[] = mappedAll(build, kinds),
): Ask {
  const looks = kinds.reduce((sum, kind) => sum + lookCost[kind].minutes * 0.5, 0)
  const each = things.reduce((sum, { what }) => sum + FORMS[what as MapKind].minutesEach, 0)
  return {
    show: 'ask',
    id: `map ${kinds.join(' ')}`,
    stage,
    power: 'on',
    hands: 'out',
    minutes: rounded(BASE_MINUTES + looks + each),
    tools: [],
    error: MAP_ERROR,
    many: true,
    marks: things.flatMap((observe) =>
      FORMS[observe.what as MapKind]
        .markable(build, observe.at)
        .map((value): Mark => ({ id: markId(observe, value), observe, value })),
    ),
  }
}

/** Values that more than one kind of look has carry the look's name. */
const SHARED: readonly Value[] = ['no', 'none', 'yes', 'comes-and-goes', 'some']

const markId = ({ what, at }: Observable, value: Value): string =>
  what !== 'spins' && what !== 'rpm' && SHARED.includes(value) ? `${at}:${what}-${value}` : `${at}:${value}`

/** To a hundredth of a minute. */
const rounded = (minutes: number): number => Math.round(minutes * 100) / 100
