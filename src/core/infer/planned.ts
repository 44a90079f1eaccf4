/**
 * What is wrong with the plan itself, as faults: a source that cannot carry what hangs on it, a USB port over its
 * current, lights that the plan leaves dark, fans that it gives no control. A build wired
 * exactly so shows a symptom without anything being broken. `wanted` is what the builder meant to see.
 */
import { type Build, NOWHERE } from '../bench/build.ts'
import { channelsOf, wiredProfile } from '../bench/channel.ts'
import type { Edit } from '../bench/edit.ts'
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
import type { Settings } from '../plan/plan.ts'
import { doing, drives, hunts, readings, unwatched } from './planned-fans.ts'
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
    ...hunts(build, ideal),
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

/** Whether the vendor's lighting program speaks to the hubs and controllers. */
export type HostSpeaks = Settings['host']['program']

/** The host as the last word of a job has it, else as planned: right after power on it does not speak yet. */
export const hostAfter = (build: Build, history: readonly Edit[]): HostSpeaks => {
  const last = history.findLast((e) => e.do === 'set' && e.setting === 'host/program')
  if (last?.do === 'set' && (last.value === 'running' || last.value === 'absent')) return last.value
  return build.plan.settings.host.program
}

interface Wanted {
  readonly moment: Moment
  readonly values: Map<string, Value | null>
}

const wantedBy = new WeakMap<Build, Map<HostSpeaks, Wanted>>()

/** The build as meant: planned, with sources that carry it and counts that fit it, and a host that speaks or not. */
function wantedOf(build: Build, host: HostSpeaks): Wanted {
  const all = wantedBy.get(build) ?? new Map<HostSpeaks, Wanted>()
  wantedBy.set(build, all)
  const known = all.get(host)
  if (known) return known
  const world = asPlanned(build)
  const ideal = idealMomentOf(build, world)
  const channels = { ...world.settings.channels }
  for (const channel of channelsOf(build))
    if (misfit(build, ideal, channel))
      channels[channel.place] = { ...channels[channel.place], profile: wiredProfile(ideal, channel) }
  const settings = { ...world.settings, channels, host: { ...world.settings.host, program: host } }
  const made = { moment: idealMomentOf(build, { ...world, settings }), values: new Map() }
  all.set(host, made)
  return made
}

/** What should be seen when all is well, null where nothing can be. @param host as planned where it is left out */
export function wanted(
  build: Build,
  o: Observable,
  host: HostSpeaks = build.plan.settings.host.program,
): Value | null {
  const { moment, values } = wantedOf(build, host)
  const key = observableKey(o)
  const known = values.get(key)
  if (known !== undefined) return known
  const value = meant(moment, o)
  values.set(key, value)
  return value
}

/** The same after what was done by then: before the host speaks, other things are right. */
export const wantedAfter = (build: Build, o: Observable, history: readonly Edit[]): Value | null =>
  wanted(build, o, hostAfter(build, history))

function meant(moment: Moment, o: Observable): Value | null {
  const { build } = moment
  const retry = (forced: NonNullable<Moment['forced']>): Moment => idealMomentOf(build, moment.world, forced)
  const value = look({ now: moment, reference: moment, retry, holding: () => moment }, o)
  return value === null ? null : (intended(build, moment, o, value) ?? value)
}

/** What was meant where the plan itself stands in the way; undefined where it does not. */
function intended(build: Build, moment: Moment, { what, at }: Observable, value: Value): Value | undefined {
  const port = build.portAt.get(at) ?? NOWHERE
  const part = build.partAt.get(at) ?? NOWHERE
  // Before the host speaks, dark lights may be just what the parts do by themselves.
  const lights = moment.world.settings.host.program === build.plan.settings.host.program
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
    case 'steady':
      return 'yes'
    case 'alarm':
      return 'no'
    case 'lit':
      return lights && standsInTheWay(build) && fallsShort(build, moment, part) ? 'whole' : undefined
    case 'shows':
      return lights && standsInTheWay(build) && fallsShort(build, moment, part)
        ? pictureMeant(build)
        : undefined
    case 'effect':
      return lights && standsInTheWay(build) && value === 'stops-short' ? 'whole' : undefined
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
