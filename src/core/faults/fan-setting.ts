/** What is remembered wrongly of fans: drive mode, curve, delay, pulses, alarm limit. */
import { type Build, NOWHERE } from '../bench/build.ts'
import { driveMode, headerPlace, headerSetting, swing, USUAL_CURVE } from '../bench/drive.ts'
import { governor } from '../bench/motor.ts'
import { plannedMoment } from '../bench/run.ts'
import { settingParts, settingRef, settingText } from '../bench/setting.ts'
import { alarmLimit } from '../bench/tach.ts'
import { portAt } from './entry.ts'
import { governedPorts } from './governed.ts'
import type { SettingFault } from './setting-fault.ts'

const portOfRef = (build: Build, ref: string): number => {
  const { place } = settingParts(ref)
  return portAt(build, `board.${place}`) ?? portAt(build, place) ?? NOWHERE
}

const headerRefs =
  (key: string, of: (build: Build, port: number) => boolean = () => true) =>
  (build: Build) =>
    governedPorts(build)
      .filter((port) => of(build, port))
      .map((port) => settingRef('headers', headerPlace(build, port), key))

const fansUnder = (build: Build, port: number) =>
  build.parts.filter((entry, i) => entry.motor && governorOf(build, i) === port)

const governorOf = (build: Build, index: number): number => governor(plannedMoment(build), index)

const curveOf = (build: Build, port: number): readonly (readonly [number, number])[] =>
  headerSetting(build, build.plan.settings, port).curve ?? USUAL_CURVE

export const fanSettings: readonly SettingFault[] = [
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
]

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
