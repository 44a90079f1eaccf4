/**
 * One look over everything of a kind: which fans stay dark, which stand still, which headers read 0, which parts
 * show another pattern. A person takes it in at a glance, so it is one question; each thing that is wrong is one
 * mark, and what is not marked was seen to be right.
 */
import { type Build, NOWHERE } from '../bench/build.ts'
import type { Observable, What } from '../bench/observable.ts'
import { refOf } from '../faults/entry.ts'
import { governedPorts } from '../faults/setting.ts'
import { wanted } from '../infer/planned.ts'
import { lookCost } from './looks.ts'
import type { Ask, Mark } from './prompt.ts'

export type MapKind = 'lit' | 'spins' | 'rpm' | 'shows'

/** What can be marked, in the order in which it is offered. */
const MARKABLE: Readonly<Record<MapKind, readonly string[]>> = {
  lit: ['dark', 'part', 'flicker'],
  spins: ['no', 'twitches', 'slow', 'full'],
  rpm: ['zero', 'low', 'high', 'erratic', 'none'],
  shows: ['stored', 'global', 'wrong-colours', 'frozen', 'nothing'],
}

/** Things that a map of this kind goes over, in the plan's order. */
export function mapped(build: Build, kind: MapKind): readonly Observable[] {
  if (kind === 'rpm') {
    return governedPorts(build)
      .map((s): Observable => ({ what: 'rpm', at: refOf(build, s) }))
      .filter((o) => wanted(build, o) !== 'none')
  }
  const what: What = kind
  return build.parts.flatMap((entry): Observable[] => {
    const has =
      kind === 'spins'
        ? entry.motor !== undefined && entry.motorPlug !== NOWHERE
        : hasWiredLights(build, entry)
    return has ? [{ what, at: entry.part.id }] : []
  })
}

const hasWiredLights = (build: Build, entry: Build['parts'][number]): boolean =>
  entry.lights.some((l) => (build.socketOf[l.plug] ?? NOWHERE) >= 0) ||
  (entry.part.kind === 'pump' && entry.lights.length > 0)

const BASE_MINUTES = 0.5
const MINUTES_EACH = 0.05
/** Marking on a map is a look with the name beside it: fewer slips than a single answer read from memory. */
const MAP_ERROR = 0.03

/** The observables of several maps, in order. */
export const mappedAll = (build: Build, kinds: readonly MapKind[]): readonly Observable[] =>
  kinds.flatMap((kind) => mapped(build, kind))

/** @param things what the map goes over, where it is not all that `kinds` name (a plug may have been moved) */
export function mapAsk(
  build: Build,
  kinds: readonly MapKind[],
  stage: 'scope' | 'check' | 'proof',
  things: readonly Observable[] = mappedAll(build, kinds),
): Ask {
  const looks = kinds.reduce((sum, kind) => sum + lookCost[kind].minutes * 0.5, 0)
  return {
    show: 'ask',
    id: `map ${kinds.join(' ')}`,
    stage,
    power: 'on',
    hands: 'out',
    minutes: rounded(BASE_MINUTES + looks + MINUTES_EACH * things.length),
    tools: [],
    error: MAP_ERROR,
    many: true,
    marks: things.flatMap((observe) =>
      MARKABLE[observe.what as MapKind].map(
        (value): Mark => ({ id: `${observe.at}:${value}`, observe, value }),
      ),
    ),
  }
}

/** To a hundredth of a minute. */
const rounded = (minutes: number): number => Math.round(minutes * 100) / 100
