/**
 * What software or firmware remembers wrongly: of fans, of lights, the host program, a global effect, a port that is
 * turned off. Each is a change of one setting, so setting it right again is its repair.
 */
import { type Build, NOWHERE } from '../bench/build.ts'
import { settingRef, withSetting } from '../bench/setting.ts'
import { rightSetting } from '../bench/setting-now.ts'
import { type FaultEntry, type Seat, seat } from './entry.ts'
import { fanSettings } from './fan-setting.ts'
import { hasHostWork, litByHost } from './governed.ts'
import { lightSettings } from './light-setting.ts'
import type { SettingFault } from './setting-fault.ts'

const settingFaults: readonly SettingFault[] = [
  ...fanSettings,
  ...lightSettings,
  {
    mode: 'not-running',
    family: 'host',
    weight: 1,
    refs: (build) =>
      hasHostWork(build) && build.plan.settings.host.program === 'running' ? ['host/program'] : [],
    wrong: () => 'absent',
  },
  {
    mode: 'left-on',
    family: 'host',
    weight: 0.5,
    refs: (build) =>
      litByHost(build) && build.plan.settings.host.globalEffect === 'off' ? ['host/global_effect'] : [],
    wrong: () => 'on',
  },
  {
    mode: 'off',
    family: 'setting',
    weight: 0.15,
    refs: (build) =>
      [...build.usbHeaders.keys()]
        .filter((s) => (build.plugIn[s] ?? NOWHERE) >= 0)
        .map((s) => settingRef('ports', build.ports[s]?.ref ?? '', 'enabled')),
    wrong: () => 'false',
  },
]

/** The wrong values that a setting may well have, other than the one that it should have. */
export function wrongSettings(build: Build, ref: string): readonly string[] {
  const right = rightSetting(build, ref)
  const values = settingFaults.flatMap(({ refs, wrong }) =>
    refs(build).includes(ref) ? (wrong(build, ref) ?? []) : [],
  )
  return [...new Set(values)].filter((value) => value !== right)
}

export const settingEntries: readonly FaultEntry[] = settingFaults.map(
  ({ mode, family, weight, intermittent, refs, wrong }) => ({
    mode,
    family,
    ...(intermittent ? { intermittent } : {}),
    seats: (build): readonly Seat[] =>
      refs(build).flatMap((ref) => {
        const value = wrong(build, ref)
        return value === undefined || value === rightSetting(build, ref) ? [] : [seat(ref, weight)]
      }),
    plant: (build, at) => {
      if (!refs(build).includes(at)) return undefined
      const value = wrong(build, at)
      if (value === undefined) return undefined
      return (world) => {
        world.settings = withSetting(world.settings, at, value) ?? world.settings
      }
    },
  }),
)
