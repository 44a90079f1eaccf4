/**
 * What is wrong with the plan itself, as faults: a source that cannot carry what hangs on it, a USB port over its
 * current, a count of LEDs that does not fit the wiring, lights in a socket of another voltage. A build wired
 * exactly so shows a symptom without anything being broken. `wanted` is what the builder meant to see.
 */
import { type Build, conductorIndex, NOWHERE } from '../bench/build.ts'
import { chainOf, channelsOf } from '../bench/channel.ts'
import { look } from '../bench/look.ts'
import { idealMomentOf, type Moment } from '../bench/moment.ts'
import { type Observable, observableKey, type Value } from '../bench/observable.ts'
import { plannedMoment } from '../bench/run.ts'
import { listed } from '../bench/usb.ts'
import { asPlanned } from '../bench/world.ts'
import { refOf } from '../faults/entry.ts'
import type { Fault } from '../faults/fault.ts'

export function plannedTroubles(build: Build): readonly Fault[] {
  const moment = plannedMoment(build)
  return [
    ...overloads(build, moment),
    ...budgets(build, moment),
    ...counts(build, moment),
    ...voltages(build),
  ]
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

function counts(build: Build, moment: Moment): Fault[] {
  return channelsOf(build).flatMap((channel): Fault[] => {
    const profile = build.plan.settings.channels[channel.place]?.profile
    const chain = chainOf(moment, channel)
    if (!profile || chain.length === 0) return []
    const told = profile.reduce((a, b) => a + b, 0)
    const fitted =
      channel.order === 'series'
        ? chain.reduce((sum, e) => sum + e.leds, 0)
        : Math.max(...chain.map((e) => e.start + e.leds))
    if (channel.order === 'parallel' || told === fitted) return []
    return [{ at: `channels/${channel.place}/profile`, mode: told < fitted ? 'count-low' : 'count-high' }]
  })
}

const voltages = (build: Build): Fault[] =>
  build.parts.flatMap(({ lights }) =>
    lights.flatMap(({ plug, light }): Fault[] => {
      const socket = build.socketOf[plug] ?? NOWHERE
      const rail = conductorIndex[light.volts === 5 ? '5V' : '12V']
      if (socket < 0 || (build.pins[socket] ?? 0) & (1 << rail)) return []
      return [{ at: refOf(build, plug), mode: `in-${refOf(build, socket)}` }]
    }),
  )

const wantedMoments = new WeakMap<Build, Moment>()

/** The build as meant: planned, with sources that carry it and counts that fit it. */
function wantedMoment(build: Build): Moment {
  const known = wantedMoments.get(build)
  if (known) return known
  const world = asPlanned(build)
  world.settings = {
    ...world.settings,
    channels: Object.fromEntries(
      Object.entries(world.settings.channels).map(([place, { profile: _, ...rest }]) => [place, rest]),
    ),
  }
  const moment = idealMomentOf(build, world)
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
  return look({ now: moment, reference: moment, retry }, o)
}
