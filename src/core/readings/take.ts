/**
 * What a reading answers about a build: values of observables, each with the name that it was read under. What cannot
 * be taken is listed with the reason; nothing is dropped in silence and nothing is guessed.
 */
import type { Build } from '../bench/build.ts'
import { headerPlace } from '../bench/drive.ts'
import { referenceOf } from '../bench/run.ts'
import { settingRef } from '../bench/setting.ts'
import { alarmLimit } from '../bench/tach.ts'
import { settingFound } from './found-setting.ts'
import { placeFor } from './naming.ts'
import type { DriveRecord, FanRecord, Reading } from './reading.ts'
import { type NoWord, type SpeedWord, speedWord } from './speed-word.ts'
import { fromUsb } from './take-usb.ts'
import { join, leave, NONE, type Situation, type Takes } from './takes.ts'

/** Needs power on: what no current feeds reports nothing. */
export const takesFrom = (reading: Reading, where: Situation): Takes =>
  join([
    ...reading.fans.map((fan) => fromFan(fan, reading, where)),
    ...reading.drives.map((drive) => fromDrive(drive, reading, where)),
    fromUsb(reading, where),
  ])

/** The names of a channel, the chip's own in front so that two chips can be told apart. */
const namesOf = ({ chip, channel, also }: FanRecord): string[] => [channel, `${chip}/${channel}`, ...also]

const rounded = (n: number): string => String(Math.round(n))

function fanPortFor(build: Build, ref: string): number | undefined {
  const port = build.portAt.get(ref)
  const connector = port === undefined ? undefined : build.ports[port]?.connector
  return connector === 'fan3' || connector === 'fan4' ? port : undefined
}

/** The drive of the same number on the same chip belongs to the tach of that number, as drivers number them. */
const driveOf = (reading: Reading, fan: FanRecord): DriveRecord | undefined =>
  reading.drives.find((d) => d.chip === fan.chip && d.channel === fan.channel.replace(/^fan/, 'pwm'))

function fromFan(fan: FanRecord, reading: Reading, where: Situation): Takes {
  const { build, history } = where
  const from = fan.channel
  const figure =
    fan.rpm.length > 0
      ? `${fan.rpm.slice(0, 8).map(rounded).join(', ')} RPM`
      : fan.percent === undefined
        ? ''
        : `${rounded(fan.percent)} %`
  const ref = placeFor(where.named, namesOf(fan))
  if (ref === undefined) return leave(from, 'no-place', figure)
  const port = fanPortFor(build, ref)
  if (port === undefined) return leave(from, 'not-a-fan-port', figure, ref)
  if (fan.off) return leave(from, 'turned-off', figure, ref)
  if (fan.absent) return leave(from, 'absent', figure, ref)
  if (fan.disputed) return leave(from, 'disputed', figure, ref)
  // A fault flag may mark a place with nothing plugged; a figure of 0 agrees with that, any other is worth nothing.
  if (fan.fault && fan.rpm.some((r) => r > 0)) return leave(from, 'not-trusted', figure, ref)
  if (fan.rpm.length === 0 && fan.percent !== undefined) return leave(from, 'percent-only', figure, ref)
  const drive = driveOf(reading, fan)
  const word = speedWord(build, history, port, {
    rpm: fan.rpm,
    celsius: reading.celsius,
    ...(drive?.percent !== undefined && (drive.enable ?? 0) >= 2 ? { percent: drive.percent } : {}),
    ...(fan.div === undefined ? {} : { div: fan.div }),
  })
  return join([
    isWord(word)
      ? { taken: [{ observe: { what: 'rpm', at: ref }, value: word, from, figure }], left: [] }
      : leave(from, word, figure, ref),
    alarmOf(fan, ref, port, where),
    pulsesOf(fan, port, where),
    limitOf(fan, port, where),
  ])
}

const WORDS = new Set(['zero', 'low', 'plausible', 'high', 'erratic'])
const isWord = (word: SpeedWord | NoWord): word is SpeedWord => WORDS.has(word)

/**
 * The chip's own alarm goes by the limit in the chip, which need not be the one of the plan or of the firmware's page:
 * with a limit of 0 a stopped fan raises none. Only where both limits give the same answer is it taken.
 */
function alarmOf(fan: FanRecord, ref: string, port: number, { build, history }: Situation): Takes {
  const shown = fan.rpm.at(-1)
  if (fan.alarm === undefined || shown === undefined || !build.fanHeaders.has(port)) return NONE
  const figure = fan.alarm ? 'alarm 1' : 'alarm 0'
  const limit = alarmLimit(referenceOf(build, history), port)
  const byPlan = limit > 0 && shown < limit
  if (byPlan !== fan.alarm) return leave(fan.channel, 'other-limit', figure, ref)
  return {
    taken: [
      { observe: { what: 'alarm', at: ref }, value: fan.alarm ? 'yes' : 'no', from: fan.channel, figure },
    ],
    left: [],
  }
}

function setting(
  key: string,
  text: string,
  from: string,
  figure: string,
  port: number,
  where: Situation,
): Takes {
  const at = settingRef('headers', headerPlace(where.build, port), key)
  const found = settingFound(where.build, where.history, at, text)
  if ('why' in found) return found.why === 'not-in-plan' ? NONE : leave(from, found.why, figure, at)
  return { taken: [{ observe: { what: 'setting', at }, value: found.value, from, figure }], left: [] }
}

const pulsesOf = (fan: FanRecord, port: number, where: Situation): Takes =>
  fan.pulses === undefined || !Number.isInteger(fan.pulses) || fan.pulses < 1
    ? NONE
    : setting('pulses', String(fan.pulses), fan.channel, `${fan.pulses} pulses`, port, where)

const limitOf = (fan: FanRecord, port: number, where: Situation): Takes =>
  fan.min === undefined || !where.build.fanHeaders.has(port)
    ? NONE
    : setting(
        'alarm_below',
        String(Math.round(fan.min)),
        fan.channel,
        `limit ${rounded(fan.min)} RPM`,
        port,
        where,
      )

/** Chips on which "no control" is known to mean full speed (kernel documentation, nct6775). */
const FULL_WHEN_OFF = /^nct6[17]\d\d/

function fromDrive(drive: DriveRecord, reading: Reading, where: Situation): Takes {
  const twin = drive.channel.replace(/^pwm/, 'fan')
  const fan = reading.fans.find((f) => f.chip === drive.chip && f.channel === twin)
  const names = [
    drive.channel,
    `${drive.chip}/${drive.channel}`,
    twin,
    `${drive.chip}/${twin}`,
    ...(fan?.also ?? []),
  ]
  const ref = placeFor(where.named, names)
  const { channel: from, enable, percent, curve } = drive
  // The tach of the same number says already that it has no place.
  if (ref === undefined)
    return fan ? NONE : leave(from, 'no-place', percent === undefined ? '' : `${rounded(percent)} %`)
  const port = fanPortFor(where.build, ref)
  if (port === undefined) return fan ? NONE : leave(from, 'not-a-fan-port', '', ref)
  const mode =
    drive.mode === undefined
      ? NONE
      : setting('drive', drive.mode, from, drive.mode.toUpperCase(), port, where)
  const flat = (duty: number, figure: string): Takes =>
    setting('curve', JSON.stringify([[0, duty]]), from, figure, port, where)
  if (enable === 0) {
    const full = FULL_WHEN_OFF.test(drive.chip)
      ? flat(100, 'no control, full speed')
      : leave(from, 'off-means-unknown', 'enable 0', ref)
    return join([mode, full])
  }
  if (enable === 1 && percent !== undefined)
    return join([mode, flat(Math.round(percent), `by hand, ${rounded(percent)} %`)])
  if (curve) {
    const points = curve.map(([c, d]) => [Math.round(c), Math.round(d)])
    return join([
      mode,
      setting(
        'curve',
        JSON.stringify(points),
        from,
        points.map(([c, d]) => `${c} °C ${d} %`).join(', '),
        port,
        where,
      ),
    ])
  }
  return mode
}
