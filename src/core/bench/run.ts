/**
 * Runs a build with faults planted and edits made, and gives a sight that answers every observable. Pure and
 * total: the same build, faults and edits always show the same. Nothing is worked out before it is looked at.
 */
import { type Build, NOWHERE } from './build.ts'
import type { Edit } from './edit.ts'
import { holdPictures, picturesBefore } from './held.ts'
import { look, type Scene } from './look.ts'
import { idealMomentOf, type Moment, momentOf } from './moment.ts'
import type { Observable, Value } from './observable.ts'
import { applyEdit, asPlanned, pull, push, type World } from './world.ts'

/** What a fault does to the build as it really is. */
export type Plant = (world: World, build: Build) => void

export interface Sight {
  /** The value of an observable, null where it has none. */
  see(o: Observable): Value | null
  readonly scene: Scene
}

export interface Run {
  readonly plants: readonly Plant[]
  readonly edits: readonly Edit[]
  /** The last word on power; without it the edits decide, and a build starts switched on. */
  readonly power?: 'on' | 'off'
  /** What comes and goes holds just now: loose joints make contact. */
  readonly contact?: boolean
}

function worldOf(build: Build, { plants, edits, power, contact }: Run): World {
  const world = asPlanned(build)
  for (const plant of plants) plant(world, build)
  world.contact = contact ?? false
  world.handling = true
  for (const edit of edits) {
    const before = picturesBefore(build, world, edit)
    applyEdit(build, world, edit)
    if (before) holdPictures(build, world, before)
  }
  if (power) world.power = power === 'on'
  return world
}

/**
 * What should be there after these edits, were nothing wrong; many runs share it. Settings as planned with the
 * changes made since, wiring as planned, save for plugs that a hand has moved, sources that carry what hangs on them.
 */
export function referenceOf(build: Build, edits: readonly Edit[], power?: 'on' | 'off'): Moment {
  return idealMomentOf(build, worldOf(build, { plants: [], edits, ...(power ? { power } : {}) }))
}

const planned = new WeakMap<Build, Moment>()

/** The build as planned, with nothing wrong but what the plan itself overloads. */
export function plannedMoment(build: Build): Moment {
  const known = planned.get(build)
  if (known) return known
  const moment = momentOf(build, asPlanned(build))
  planned.set(build, moment)
  return moment
}

/**
 * A plug that a hand has moved is where it really is: where that is not where it would be without the fault (two
 * that were exchanged were exchanged back), the reference is laid anew.
 */
function laidAsIs(build: Build, world: World, reference: Moment): Moment {
  const there = reference.world
  if ([...world.moved].every((plug) => world.socketOf[plug] === there.socketOf[plug])) return reference
  const laid: World = { ...asPlanned(build), settings: there.settings, power: there.power }
  for (const plug of world.moved) pull(laid, plug)
  for (const plug of world.moved) {
    const socket = world.socketOf[plug] ?? NOWHERE
    if (socket >= 0) push(laid, plug, socket)
  }
  return idealMomentOf(build, laid)
}

/** @param reference from `referenceOf` with the same edits and power; made anew where it is not given. */
export function run(build: Build, what: Run, reference?: Moment): Sight {
  const world = worldOf(build, what)
  let held: Moment | undefined
  const scene: Scene = {
    now: momentOf(build, world),
    reference: laidAsIs(build, world, reference ?? referenceOf(build, what.edits, what.power)),
    retry: (forced) => momentOf(build, world, forced),
    holding: () => {
      held ??= momentOf(build, { ...world, contact: true })
      return held
    },
  }
  return { see: (o) => look(scene, o), scene }
}
