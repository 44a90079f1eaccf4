/**
 * What is wrong with the plan itself, as faults: a source that cannot carry what hangs on it, a USB port over its
 * current, lights that the plan leaves dark, fans that it gives no control. A build wired
 * exactly so shows a symptom without anything being broken. `wanted` is what the builder meant to see.
 */
import { type Build, NOWHERE } from '../bench/build.ts'
import { channelsOf, wiredProfile } from '../bench/channel.ts'
import { look } from '../bench/look.ts'
import { idealMomentOf, type Moment } from '../bench/moment.ts'
import { governor, turning } from '../bench/motor.ts'
import { type Observable, observableKey, type Value } from '../bench/observable.ts'
import { plannedMoment } from '../bench/run.ts'
import { tachSources } from '../bench/tach.ts'
import { listed } from '../bench/usb.ts'
import { asPlanned } from '../bench/world.ts'
import { refOf } from '../faults/entry.ts'
import type { Fault } from '../faults/fault.ts'
import { doing, drives, readings, unwatched } from './planned-fans.ts'
import { counts, fallsShort, gaps, misfit, unfed, voltages } from './planned-lights.ts'

const known = new WeakMap<Build, readonly Fault[]>()

export function plannedTroubles(build: Build): readonly Fault[] {
  const before = known.get(build)
  if (before) return before
  const moment = plannedMoment(build)
  const ideal = idealMomentOf(build, asPlanned(build))
  const troubles = [
    ...overloads(build, moment),
    ...budgets(build, moment),
    ...counts(build, moment),
    ...voltages(build),
    ...gaps(build),
    ...unfed(build),
    ...drives(build, ideal),
    ...readings(build, ideal),
    ...unwatched(build, ideal),
  ]
  known.set(build, troubles)
  return troubles
}

function overloads(build: Build, moment: Moment): Fault[] {
  const leads = new Set<string>()
  return build.sockets.flatMap((s): Fault[] => {
    if ((moment.strain[s] ?? 1) >= 1 || (build.plugIn[s] ?? NOWHERE) < 0) return []
    const lead = build.plan.supply.leads[build.supplyLead[s] ?? NOWHERE]
    if (!lead) return [{ at: refOf(build, s), mode: 'overloaded' }]
    if (leads.has(lead.id)) return []
    leads.add(lead.id)
    return [{ at: `supply.${lead.id}`, mode: 'overloaded' }]
  })
}

const budgets = (build: Build, moment: Moment): Fault[] =>
  build.parts.flatMap(({ part, usbPlug }, i): Fault[] => {
    const socket = build.socketOf[usbPlug] ?? NOWHERE
    if (usbPlug < 0 || socket < 0 || listed(moment, i) === 'yes') return []
    const off = build.plan.settings.ports[refOf(build, socket)]?.enabled === false
    return off ? [] : [{ at: part.id, mode: 'over-budget' }]
  })

const wantedMoments = new WeakMap<Build, Moment>()

/** The build as meant: planned, with sources that carry it and counts that fit it. */
function wantedMoment(build: Build): Moment {
  const known = wantedMoments.get(build)
  if (known) return known
  const world = asPlanned(build)
  const ideal = idealMomentOf(build, world)
  const channels = { ...world.settings.channels }
  for (const channel of channelsOf(build))
    if (misfit(build, ideal, channel))
      channels[channel.place] = { ...channels[channel.place], profile: wiredProfile(ideal, channel) }
  const moment = idealMomentOf(build, { ...world, settings: { ...world.settings, channels } })
  wantedMoments.set(build, moment)
  return moment
}

const wantedValues = new WeakMap<Build, Map<string, Value | null>>()

/** What should be seen when all is well, null where nothing can be. */
export function wanted(build: Build, o: Observable): Value | null {
  const values = wantedValues.get(build) ?? new Map<string, Value | null>()
  wantedValues.set(build, values)
  const key = observableKey(o)
  const known = values.get(key)
  if (known !== undefined) return known
  const value = meant(build, o)
  values.set(key, value)
  return value
}

function meant(build: Build, o: Observable): Value | null {
  const moment = wantedMoment(build)
  const retry = (forced: NonNullable<Moment['forced']>): Moment => idealMomentOf(build, moment.world, forced)
  const value = look({ now: moment, reference: moment, retry }, o)
  return value === null ? null : (intended(build, moment, o, value) ?? value)
}

/** What was meant where the plan itself stands in the way; undefined where it does not. */
function intended(build: Build, moment: Moment, { what, at }: Observable, value: Value): Value | undefined {
  const port = build.portAt.get(at) ?? NOWHERE
  const part = build.partAt.get(at) ?? NOWHERE
  switch (what) {
    case 'spins':
      return doing(moment, part) === 'as-asked' ? undefined : 'normal'
    case 'rpm': {
      const turns = tachSources(moment, port).filter(
        (i) => turning(moment, i).rpm > 0 || doing(moment, i) !== 'as-asked',
      )
      return value !== 'none' && turns.length > 0 ? 'plausible' : undefined
    }
    case 'follows':
      return fansAt(moment, port).some((i) => doing(moment, i) === 'too-fast') ? 'yes' : undefined
    case 'alarm':
      return 'no'
    case 'lit':
      return standsInTheWay(build) && fallsShort(build, moment, part) ? 'whole' : undefined
    case 'shows':
      return standsInTheWay(build) && fallsShort(build, moment, part) ? pictureMeant(build) : undefined
    case 'effect':
      return standsInTheWay(build) && value === 'stops-short' ? 'whole' : undefined
    default:
      return undefined
  }
}

const fansAt = (moment: Moment, port: number): readonly number[] =>
  moment.build.parts.flatMap((entry, i) => (entry.motor && governor(moment, i) === port ? [i] : []))

/** The plan leaves lights in the dark that it means to light. */
const standsInTheWay = (build: Build): boolean =>
  voltages(build).length + gaps(build).length + unfed(build).length > 0

function pictureMeant(build: Build): Value {
  const { program, globalEffect } = build.plan.settings.host
  return program === 'absent' ? 'stored' : globalEffect === 'on' ? 'global' : 'set'
}
