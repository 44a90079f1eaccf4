/** What is remembered wrongly of lights: the LEDs told, their order, the order of colours. */
import type { Build } from '../bench/build.ts'
import { settingParts, settingRef } from '../bench/setting.ts'
import { plannedColours, plannedProfile } from '../bench/setting-now.ts'
import { channelsInUse } from './governed.ts'
import type { SettingFault } from './setting-fault.ts'

const channelRefs = (key: string) => (build: Build) =>
  channelsInUse(build).map((c) => settingRef('channels', c.place, key))

const profile = (change: (counts: number[]) => number[] | undefined) => (build: Build, ref: string) => {
  const counts = [...plannedProfile(build, settingParts(ref).place)]
  const changed = counts.length > 0 ? change(counts) : undefined
  return changed && JSON.stringify(changed)
}

export const lightSettings: readonly SettingFault[] = [
  {
    mode: 'count-low',
    family: 'setting',
    weight: 0.5,
    refs: channelRefs('profile'),
    wrong: profile((counts) => {
      const last = counts.length - 1
      const n = counts[last] ?? 0
      return n > 1 ? [...counts.slice(0, last), n - Math.max(1, Math.floor(n / 3))] : undefined
    }),
  },
  {
    mode: 'count-high',
    family: 'setting',
    weight: 0.4,
    refs: channelRefs('profile'),
    wrong: profile((counts) => [...counts.slice(0, -1), (counts.at(-1) ?? 0) + 4]),
  },
  {
    mode: 'entry-missing',
    family: 'setting',
    weight: 0.4,
    refs: channelRefs('profile'),
    wrong: profile((counts) => (counts.length > 1 ? counts.slice(0, -1) : undefined)),
  },
  {
    mode: 'wrong-order',
    family: 'setting',
    weight: 0.3,
    refs: channelRefs('profile'),
    wrong: profile((counts) => {
      const i = counts.findIndex((n, k) => k > 0 && n !== counts[k - 1])
      if (i < 1) return undefined
      return counts.map((n, k) => (k === i ? (counts[i - 1] ?? n) : k === i - 1 ? (counts[i] ?? n) : n))
    }),
  },
  {
    mode: 'wrong',
    family: 'setting',
    weight: 0.4,
    refs: channelRefs('colours'),
    wrong: (build, ref) => {
      const right = plannedColours(build, settingParts(ref).place)
      if (right === undefined) return undefined
      return right[0] === 'G' ? `RG${right.slice(2)}` : right.startsWith('RG') ? `GR${right.slice(2)}` : 'GRB'
    },
  },
]
