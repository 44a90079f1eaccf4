/**
 * The first boot of a build as points to look at, made from its plan: every lead before power, blades, then what must
 * turn and light, what the firmware shows, what the system lists, the lights port by port, and all once more when warm.
 * Each point is one question; what is marked is not as wanted.
 */
import { type Build, NOWHERE } from '../bench/build.ts'
import type { Observable } from '../bench/observable.ts'
import { refOf } from '../faults/entry.ts'
import { lookCost } from './looks.ts'
import { type MapKind, mapAsk, mapped, mappedAll } from './maps.ts'
import type { Ask, Mark } from './prompt.ts'

export type BootStage = 'before-power' | 'power-on' | 'firmware' | 'system' | 'soak'

export interface BootPoint {
  readonly stage: BootStage
  readonly ask: Ask
  /** Seconds after which it must be so; 0 where there is nothing to wait for. */
  readonly within: number
}

/** Before power: a look at each plug in one part's sockets. */
const leadsAsk = (build: Build, owner: string, sockets: readonly number[]): Ask => {
  const plugs = sockets.map((s) => build.plugIn[s] ?? NOWHERE)
  return {
    show: 'ask',
    id: `walk leads ${owner}`,
    stage: 'check',
    power: 'off',
    hands: 'in',
    minutes: Math.round((0.5 + 0.4 * plugs.length) * 100) / 100,
    tools: [],
    error: lookCost.goes.error,
    many: true,
    marks: plugs.flatMap((plug) => [
      ...marksOf({ what: 'seated', at: refOf(build, plug) }, ['no', 'doubtful']),
      ...marksOf({ what: 'goes', at: refOf(build, plug) }, elsewhere(build, plug)),
    ]),
  }
}

const marksOf = (observe: Observable, values: readonly string[]): readonly Mark[] =>
  values.map((value) => ({ id: `${observe.at}:${observe.what}-${value}`, observe, value }))

const MOST_ELSEWHERE = 5

/** The nearest sockets on the same part that would take this plug too. */
function elsewhere(build: Build, plug: number): readonly string[] {
  const own = build.socketOf[plug] ?? NOWHERE
  const kind = build.ports[own]?.connector
  return build.sockets
    .filter(
      (s) =>
        s !== own && build.ports[s]?.connector === kind && build.ports[s]?.part === build.ports[own]?.part,
    )
    .sort((a, b) => Math.abs(a - own) - Math.abs(b - own) || a - b)
    .slice(0, MOST_ELSEWHERE)
    .map((s) => refOf(build, s))
}

/** Owners of sockets in the order of a wiring sheet: the supply, the board, then the parts. */
function leads(build: Build): readonly Ask[] {
  const by = new Map<string, number[]>()
  for (const s of build.sockets)
    if ((build.plugIn[s] ?? NOWHERE) >= 0) {
      const owner = build.ports[s]?.part ?? ''
      by.set(owner, [...(by.get(owner) ?? []), s])
    }
  const first = ['supply', 'board'].filter((owner) => by.has(owner))
  const rest = [...by.keys()].filter((owner) => !first.includes(owner))
  return [...first, ...rest].map((owner) => leadsAsk(build, owner, by.get(owner) ?? []))
}

/** Nothing loose in a fan, no screw on a blade: turned by a finger. */
function blades(build: Build): Ask {
  const fans = mapped(build, 'spins')
  return {
    ...mapAsk(build, ['spins'], 'check', fans),
    id: 'walk blades',
    power: 'off',
    hands: 'in',
    many: true,
    marks: fans.flatMap((o) => marksOf(o, ['no', 'twitches'])),
  }
}

const look = (
  build: Build,
  kinds: readonly MapKind[],
  stage: BootStage,
  within: number,
): readonly BootPoint[] => {
  const there = kinds.filter((kind) => mapped(build, kind).length > 0)
  return there.length === 0 ? [] : [{ stage, within, ask: mapAsk(build, there, 'check') }]
}

/** Fans start within this, lights too; common practice, no source. */
const STARTED = 5
/** A host program has sent its first frame within this; common practice, no source. */
const HOST_UP = 60
const WARM = 30 * 60

/** All points, in order. A build without lights or USB has fewer. */
export function bootWalk(build: Build): readonly BootPoint[] {
  const before = (ask: Ask): BootPoint => ({ stage: 'before-power', within: 0, ask })
  const warm = mapAsk(build, ['spins', 'lit', 'rpm'], 'check', mappedAll(build, ['spins', 'lit', 'rpm']))
  return [
    ...leads(build).map(before),
    ...(mapped(build, 'spins').length > 0 ? [before(blades(build))] : []),
    ...look(build, ['spins'], 'power-on', STARTED),
    ...look(build, ['lit'], 'power-on', STARTED),
    ...look(build, ['rpm'], 'firmware', STARTED),
    ...look(build, ['alarm'], 'firmware', STARTED),
    ...look(build, ['follows'], 'firmware', 10),
    ...look(build, ['listed'], 'system', HOST_UP),
    ...look(build, ['shows'], 'system', HOST_UP),
    ...look(build, ['effect'], 'system', STARTED),
    ...look(build, ['answers'], 'system', STARTED),
    { stage: 'soak', within: WARM, ask: { ...warm, id: 'walk soak' } },
  ]
}
