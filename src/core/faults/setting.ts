/**
 * What software or firmware remembers wrongly: drive mode, curve, pulses, alarm limit, the LEDs told, colour order,
 * the host program, a global effect, a port that is turned off. Each is a change of one setting, so setting it
 * right again is its repair.
 */
import { type Build, NOWHERE } from '../bench/build.ts'
import { channelsOf } from '../bench/channel.ts'
import { driveMode, headerPlace, headerSetting, swing } from '../bench/drive.ts'
import { governor } from '../bench/motor.ts'
import { plannedMoment } from '../bench/run.ts'
import { settingRef, settingText, withSetting } from '../bench/setting.ts'
import { plannedColours, plannedProfile, rightSetting } from '../bench/setting-now.ts'
import { alarmLimit } from '../bench/tach.ts'
import { type FaultEntry, portAt, type Seat, seat } from './entry.ts'
import type { Family } from './fault.ts'

/** Ports whose fans follow a setting: board fan headers in use, and a controller's own fan ports in use. */
export function governedPorts(build: Build): readonly number[] {
  return build.sockets.filter((s) => {
    if ((build.plugIn[s] ?? NOWHERE) < 0) return false
    if (build.fanHeaders.has(s)) return true
    const part = build.parts[build.partOf[s] ?? NOWHERE]?.part
    return (
      part?.kind === 'controller' &&
      part.fanControl === 'own' &&
      (build.ports[s]?.name.startsWith('fan') ?? false)
    )
  })
}

interface SettingFault {
  readonly mode: string
  readonly family: Family
  readonly weight: number
  /** Is seen now in one way, now in another. */
  readonly intermittent?: true
  /** References to settings that can be wrong in this way. */
  refs(build: Build): readonly string[]
  /** The wrong value, or undefined where this way of being wrong makes no difference. */
  wrong(build: Build, ref: string): string | undefined
}

const portOfRef = (build: Build, ref: string): number => {
  const place = ref.split('/')[1] ?? ''
  return portAt(build, `board.${place}`) ?? portAt(build, place) ?? NOWHERE
}
/** `SYS1` of `headers/SYS1/curve`; the host's settings have no place. */
export const placeOfRef = (ref: string): string => ref.slice(ref.indexOf('/') + 1, ref.lastIndexOf('/'))

const headerRefs =
  (key: string, of: (build: Build, port: number) => boolean = () => true) =>
  (build: Build) =>
    governedPorts(build)
      .filter((port) => of(build, port))
      .map((port) => settingRef('headers', headerPlace(build, port), key))

const channelRefs = (key: string) => (build: Build) =>
  channelsOf(build)
    .filter((c) => c.sockets.some((s) => (build.plugIn[s] ?? NOWHERE) >= 0))
    .map((c) => settingRef('channels', c.place, key))

const litByHost = (build: Build): boolean =>
  channelsOf(build).some((c) => c.sockets.some((s) => (build.plugIn[s] ?? NOWHERE) >= 0)) ||
  build.parts.some(({ part }) => part.kind === 'pump' && part.host === 'usb' && part.lights.length > 0)

/** Whether a host program drives lights, or sets and reads fans, of this build at all. */
export const speaksToLights = (build: Build): boolean => litByHost(build) || readByHost(build)

/** A controller that sets its fans itself reports them to the host program only. */
const readByHost = (build: Build): boolean => governedPorts(build).some((s) => !build.fanHeaders.has(s))

const fansUnder = (build: Build, port: number) =>
  build.parts.filter((entry, i) => entry.motor && governorOf(build, i) === port)

const governorOf = (build: Build, index: number): number => governor(plannedMoment(build), index)

const profile = (change: (counts: number[]) => number[] | undefined) => (build: Build, ref: string) => {
  const counts = [...plannedProfile(build, placeOfRef(ref))]
  const changed = counts.length > 0 ? change(counts) : undefined
  return changed && JSON.stringify(changed)
}

const curveOf = (build: Build, port: number): readonly (readonly [number, number])[] =>
  headerSetting(build, build.plan.settings, port).curve ?? [
    [30, 40],
    [70, 100],
  ]

const settingFaults: readonly SettingFault[] = [
  {
    mode: 'wrong-mode',
    family: 'setting',
    weight: 0.5,
    refs: headerRefs(
      'drive',
      (build, port) => build.fanHeaders.get(port)?.drive === 'auto' && build.fanHeaders.get(port)?.pins === 4,
    ),
    wrong: (build, ref) => (driveMode(plannedMoment(build), portOfRef(build, ref)) === 'pwm' ? 'dc' : 'pwm'),
  },
  {
    mode: 'rests-at-zero',
    family: 'setting',
    weight: 0.3,
    refs: headerRefs('curve'),
    wrong: (build) =>
      JSON.stringify([
        [build.plan.settings.celsius + 10, 0],
        [build.plan.settings.celsius + 30, 100],
      ]),
  },
  {
    mode: 'under-start',
    family: 'setting',
    weight: 0.2,
    refs: headerRefs('curve'),
    wrong: (build, ref) => {
      const port = portOfRef(build, ref)
      const lowest = Math.min(...fansUnder(build, port).map((f) => lowestStart(build, port, f.motor)))
      return Number.isFinite(lowest) && lowest > 2
        ? JSON.stringify([[0, Math.max(1, Math.floor(lowest / 2))]])
        : undefined
    },
  },
  {
    // Under the step the fans rest, above it they start and cool until they rest again.
    mode: 'steps-at-start',
    family: 'setting',
    weight: 0.12,
    intermittent: true,
    refs: headerRefs('curve'),
    wrong: ({ plan: { settings } }) =>
      JSON.stringify([
        [settings.celsius, 0],
        [settings.celsius + 1, 70],
      ]),
  },
  {
    // Each short load is heard, because nothing lets the temperature settle before the fans follow it.
    mode: 'follows-at-once',
    family: 'setting',
    weight: 0.12,
    intermittent: true,
    refs: headerRefs(
      'delay',
      (build, port) => build.fanHeaders.has(port) && swing(plannedMoment(build), port, 0) !== undefined,
    ),
    wrong: () => '0',
  },
  {
    mode: 'flat-out',
    family: 'setting',
    weight: 0.3,
    refs: headerRefs('curve', (build, port) => curveOf(build, port).some(([, duty]) => duty < 100)),
    wrong: () => JSON.stringify([[0, 100]]),
  },
  {
    mode: 'wrong',
    family: 'reading',
    weight: 0.15,
    refs: headerRefs('pulses'),
    wrong: (build, ref) => (settingText(build.plan.settings, ref) === '1' ? '2' : '1'),
  },
  {
    mode: 'too-high',
    family: 'reading',
    weight: 0.25,
    refs: headerRefs('alarm_below', (build, port) => alarmLimit(plannedMoment(build), port) > 0),
    wrong: () => '5000',
  },
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
      const right = plannedColours(build, placeOfRef(ref))
      if (right === undefined) return undefined
      return right[0] === 'G' ? `RG${right.slice(2)}` : right.startsWith('RG') ? `GR${right.slice(2)}` : 'GRB'
    },
  },
  {
    mode: 'not-running',
    family: 'host',
    weight: 1,
    refs: (build) =>
      speaksToLights(build) && build.plan.settings.host.program === 'running' ? ['host/program'] : [],
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

/** Duty under which a fan does not start: its own limit in PWM, or that of the volts in DC drive. */
function lowestStart(
  build: Build,
  port: number,
  motor: { startDuty: number; startVolts: number; pins: number; belowMin: string } | undefined,
): number {
  if (!motor) return Number.POSITIVE_INFINITY
  const mode = driveMode(plannedMoment(build), port)
  if (mode === 'dc') return (motor.startVolts / 12) * 100
  return motor.pins === 4 && motor.belowMin === 'stops' ? motor.startDuty : Number.POSITIVE_INFINITY
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
