/** The channels of a plan, and what each is told against what it has; shared by the rules on light data. */
import { type Branch, type Channel, channelsOf, ledsOf, litParts, longest } from './channels.ts'
import type { LightAt, Wiring } from './wiring.ts'

export const SHEET = 'LED chip data sheet, cascade'

export const profileRef = (channel: Channel): string => `channels/${channel.key}/profile`

export const partsOf = (lights: readonly LightAt[]): string[] => [...new Set(lights.map((l) => l.part))]

export const sum = (of: readonly number[]): number => of.reduce((a, b) => a + b, 0)

/** Channels are looked at by many rules; found once an audit. */
export const known = new WeakMap<Wiring, readonly Channel[]>()

/** The channels of a plan, found once for all the rules that ask. */
export function channels(w: Wiring): readonly Channel[] {
  const found = known.get(w) ?? channelsOf(w)
  known.set(w, found)
  return found
}

/** Channels whose lights take data; plain 12 V lights are not told one by one. */
export const dataChannels = (w: Wiring): readonly Channel[] =>
  channels(w).filter((channel) => litParts(channel).some((l) => l.light.volts === 5))

export interface Told {
  readonly told: number
  readonly fitted: number
  readonly branch: Branch
  readonly at: string
}

/** What each branch is told against what it has, by the profile; nothing where there is no profile. */
export function toldOf(w: Wiring, channel: Channel): Told[] {
  const profile = w.plan.settings.channels[channel.key]?.profile
  if (!profile || profile.length === 0) return []
  if (channel.order === 'series' || channel.sockets.length === 1) {
    const branch = longest(channel.branches)
    return [{ told: sum(profile), fitted: ledsOf(branch), branch, at: channel.key }]
  }
  return channel.sockets.flatMap(({ socket, branches }, i) => {
    const branch = longest(branches)
    return branch.length === 0
      ? []
      : [{ told: profile[i] ?? profile[0] ?? 0, fitted: ledsOf(branch), branch, at: socket }]
  })
}

export const ledPaths = (branch: Branch): string[] =>
  branch.map((l) => `parts.${l.part}.${l.light.port}.leds`)
