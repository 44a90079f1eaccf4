/**
 * Lights that the plan itself leaves dark, short or in a wrong order: counts that do not fit the wiring, a socket
 * of another voltage, a gap in a series, a hub that the plan gives no supply.
 */
import { type Build, conductorIndex, NOWHERE } from '../bench/build.ts'
import { type Channel, chainOf, channelsOf, profileOf, wiredProfile } from '../bench/channel.ts'
import { lightNow } from '../bench/light-data.ts'
import type { Moment } from '../bench/moment.ts'
import { refOf } from '../faults/entry.ts'
import type { Fault } from '../faults/fault.ts'

const total = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0)

/** How a channel's profile is wrong against the wiring, or undefined where it fits or nothing is told. */
export function misfit(
  build: Build,
  moment: Moment,
  channel: Channel,
): 'count-low' | 'count-high' | 'wrong-order' | undefined {
  if (!build.plan.settings.channels[channel.place]?.profile) return undefined
  if (chainOf(moment, channel).length === 0) return undefined
  const wired = wiredProfile(moment, channel)
  const told = profileOf(moment, moment, channel)
  if (channel.order === 'parallel') {
    // A short profile tells the remaining ports what it tells the first.
    const each = wired.map((n, b) => (n === 0 ? 0 : (told[b] ?? told[0] ?? n) - n))
    return each.some((d) => d < 0) ? 'count-low' : each.some((d) => d > 0) ? 'count-high' : undefined
  }
  if (total(told) !== total(wired)) return total(told) < total(wired) ? 'count-low' : 'count-high'
  const shifted =
    channel.order === 'series' && wired.some((n, b) => (told[b] ?? 0) > 0 && n > 0 && told[b] !== n)
  return shifted ? 'wrong-order' : undefined
}

export const counts = (build: Build, moment: Moment): Fault[] =>
  channelsOf(build).flatMap((channel): Fault[] => {
    const mode = misfit(build, moment, channel)
    return mode ? [{ at: `channels/${channel.place}/profile`, mode }] : []
  })

export const voltages = (build: Build): Fault[] =>
  build.parts.flatMap(({ lights }) =>
    lights.flatMap(({ plug, light }): Fault[] => {
      const socket = build.socketOf[plug] ?? NOWHERE
      const rail = conductorIndex[light.volts === 5 ? '5V' : '12V']
      if (socket < 0 || (build.pins[socket] ?? 0) & (1 << rail)) return []
      return [{ at: refOf(build, plug), mode: `in-${refOf(build, socket)}` }]
    }),
  )

const inUse = (build: Build, sockets: readonly number[]): readonly number[] =>
  sockets.filter((s) => (build.plugIn[s] ?? NOWHERE) >= 0)

/** A series with an empty port, or a part that hands nothing back, before the last one in use. */
export const gaps = (build: Build): Fault[] =>
  build.parts.flatMap(({ light }): Fault[] => {
    if (light?.does !== 'feeds' || light.order !== 'series') return []
    const last = inUse(build, light.sockets).at(-1) ?? NOWHERE
    const before = light.sockets.slice(0, Math.max(0, light.sockets.indexOf(last)))
    return before.flatMap((s): Fault[] => {
      const plug = build.plugIn[s] ?? NOWHERE
      if (plug < 0) return [{ at: refOf(build, s), mode: 'gap' }]
      const own = build.parts[build.partOf[plug] ?? NOWHERE]?.lights.find((l) => l.plug === plug)
      return own?.light.returns ? [] : [{ at: refOf(build, plug), mode: 'open-DATA_BACK' }]
    })
  })

/** A hub or controller with something on it and its supply plug left out of the plan. */
export const unfed = (build: Build): Fault[] =>
  build.parts.flatMap(({ power, sockets }): Fault[] =>
    power >= 0 && (build.socketOf[power] ?? NOWHERE) < 0 && inUse(build, sockets).length > 0
      ? [{ at: refOf(build, power), mode: 'unplugged' }]
      : [],
  )

/** Whether all lights of a part that the plan has wired are dark or short of LEDs as it stands. */
export function fallsShort(build: Build, moment: Moment, index: number): boolean {
  const entry = build.parts[index]
  return (entry?.lights ?? []).some((light) => {
    const { lit, leds } = lightNow(moment, index, light)
    return (build.socketOf[light.plug] ?? NOWHERE) >= 0 && lit < leds
  })
}
