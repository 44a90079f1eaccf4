/**
 * How far a change reaches. Each look is made once on the build as planned, in a scene that notes what is read of it.
 * Where a scene differs from the planned one only in spots that a look did not go by, the look shows the same there:
 * nothing else came into it. So a fault is only looked at where it could show, without a rule for any kind of part.
 */
import type { Settings } from '../plan/plan.ts'
import type { Build } from './build.ts'
import { look, type Scene } from './look.ts'
import { freshly, idealMomentOf, type Moment, momentOf } from './moment.ts'
import type { Observable, Value } from './observable.ts'
import { type Spot, type Spots, spotsOf } from './spots.ts'
import { asPlanned, type World } from './world.ts'

export interface Reach {
  /** What the planned build shows; a look is made when its number is first asked for. */
  value(look: number, o: Observable): Value | null
  /** Where a scene differs from the planned one. */
  spots(scene: Scene): readonly Spot[]
  /** Whether a look that was made went by one of these spots. */
  goesBy(look: number, spots: readonly Spot[]): boolean
  /** The looks that were made and went by one of these spots, spot by spot. */
  looksBy(spots: readonly Spot[]): readonly ReadonlySet<number>[]
}

/** What holds for the whole of a world: a scene is held against a planned one in which it is the same. */
type Whole = Pick<World, 'power' | 'contact' | 'unsteady'> & Pick<Settings, 'host'>

/** Gives the reach of changes for scenes like the one that is given; many scenes share it. */
export function reachesOf(build: Build): (scene: Scene) => Reach {
  const spots = spotsOf(build)
  const known = new Map<string, Reach>()
  return ({ now: { world } }) => {
    const { power, contact, unsteady, settings } = world
    const { program, globalEffect } = settings.host
    const key = [power, contact, unsteady, program, globalEffect].join()
    const reach = known.get(key) ?? reachOf(build, spots, { power, contact, unsteady, host: settings.host })
    known.set(key, reach)
    return reach
  }
}

function reachOf(build: Build, { noting, differences }: Spots, { host, ...whole }: Whole): Reach {
  const settings = host === build.plan.settings.host ? build.plan.settings : { ...build.plan.settings, host }
  const now = momentOf(build, { ...asPlanned(build), ...whole, settings })
  const then = idealMomentOf(build, { ...asPlanned(build), power: whole.power, settings })
  const values = new Map<number, Value | null>()
  const looks = new Map<Spot, Set<number>>()
  let making = NaN
  const note = (spot: Spot): void => {
    const by = looks.get(spot)
    if (by) by.add(making)
    else looks.set(spot, new Set([making]))
  }
  const nowNoting = noting(now, 'now', note)
  const thenNoting = noting(then, 'then', note)
  const made = (number: number, o: Observable): Value | null => {
    making = number
    const planned = nowNoting()
    return look(
      {
        now: planned,
        reference: thenNoting(),
        retry: (forced) => freshly({ ...planned, forced }),
        holding: () => freshly({ ...planned, world: { ...planned.world, contact: true } }),
      },
      o,
    )
  }
  // Many scenes share a reference.
  const ofReferences = new WeakMap<Moment, readonly Spot[]>()
  const ofReference = (reference: Moment): readonly Spot[] => {
    const known = ofReferences.get(reference) ?? differences(reference, then, 'then')
    ofReferences.set(reference, known)
    return known
  }
  return {
    value: (number, o) => {
      const known = values.get(number)
      if (known !== undefined) return known
      const value = made(number, o)
      values.set(number, value)
      return value
    },
    spots: (scene) => [...differences(scene.now, now, 'now'), ...ofReference(scene.reference)],
    goesBy: (number, spots) => {
      for (const spot of spots) if (looks.get(spot)?.has(number)) return true
      return false
    },
    looksBy: (spots) => {
      const found: ReadonlySet<number>[] = []
      for (const spot of spots) {
        const by = looks.get(spot)
        if (by) found.push(by)
      }
      return found
    },
  }
}
