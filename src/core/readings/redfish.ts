/**
 * Redfish resources on fans, as a service gives them: the older Thermal with its list, the newer Fan, the Sensor
 * behind it, collections (links only). A percentage is no speed; a place that is Absent is no fault.
 */
import { field, isObject, type Json, type JsonObject, numberField, textField } from './json-text.ts'
import { type FanRecord, isRoomLike, NOTHING, type ReadText, type Remark } from './reading.ts'

const typeOf = (json: Json): string => /^#(\w+)\./.exec(textField(json, '@odata.type') ?? '')?.[1] ?? ''

const itemsOf = (json: Json | undefined): readonly Json[] =>
  typeof json === 'object' && json !== null && json.is === 'list' ? json.items : []

/** One resource, several after one another, or a list of them. */
const resources = (documents: readonly Json[]): JsonObject[] =>
  documents.flatMap((d) => (isObject(d) ? [d] : itemsOf(d).filter(isObject)))

export const looksLikeRedfish = (documents: readonly Json[]): boolean =>
  resources(documents).some((r) =>
    ['Thermal', 'Fan', 'FanCollection', 'Sensor', 'ThermalMetrics'].includes(typeOf(r)),
  )

interface Found {
  readonly fans: FanRecord[]
  readonly celsius: number[]
  readonly remarks: { code: Remark; at: string }[]
}

function base(json: Json): Pick<FanRecord, 'channel' | 'chip' | 'also' | 'alarm' | 'absent' | 'fault'> {
  const names = ['Name', 'MemberId', 'Id'].flatMap((key) => textField(json, key) ?? [])
  const status = field(json, 'Status')
  const state = textField(status, 'State')
  const health = textField(status, 'Health')
  return {
    channel: names[0] ?? 'fan',
    chip: 'redfish',
    also: names.slice(1),
    ...(health === undefined ? {} : { alarm: health !== 'OK' }),
    ...(state === 'Absent' ? { absent: true as const } : {}),
    ...(state === 'Disabled' || state === 'UnavailableOffline' ? { fault: true } : {}),
  }
}

function thermalFans(json: Json): Found {
  const fans = itemsOf(field(json, 'Fans')).map((fan): FanRecord => {
    const reading = numberField(fan, 'Reading')
    const isRpm = textField(fan, 'ReadingUnits') === 'RPM'
    const min = isRpm
      ? (numberField(fan, 'LowerThresholdCritical') ?? numberField(fan, 'LowerThresholdFatal'))
      : undefined
    return {
      ...base(fan),
      rpm: reading !== undefined && isRpm ? [reading] : [],
      ...(reading !== undefined && !isRpm ? { percent: reading } : {}),
      ...(min === undefined ? {} : { min }),
    }
  })
  const celsius = itemsOf(field(json, 'Temperatures'))
    .map((t) => numberField(t, 'ReadingCelsius'))
    .filter((c) => c !== undefined)
    .filter(isRoomLike)
  return { fans, celsius, remarks: [] }
}

/** Sensors by their address, to hold a fan's own word against. */
type Sensors = ReadonlyMap<string, { readonly rpm?: number; readonly percent?: number }>

function sensorsIn(all: readonly JsonObject[]): Sensors {
  return new Map(
    all
      .filter((r) => typeOf(r) === 'Sensor')
      .flatMap((r) => {
        const at = textField(r, '@odata.id')
        const reading = numberField(r, 'Reading')
        if (at === undefined || reading === undefined) return []
        const isRpm = textField(r, 'ReadingUnits') === 'RPM' || textField(r, 'ReadingType') === 'Rotational'
        return [[at, isRpm ? { rpm: reading } : { percent: reading }] as const]
      }),
  )
}

/** Two words on one speed, this many points or this share apart, are at odds (judgement). */
const POINTS_APART = 10
const SHARE_APART = 0.15

function newFan(json: Json, sensors: Sensors): Found {
  const speed = field(json, 'SpeedPercent')
  const share = numberField(speed, 'Reading')
  const rpm = numberField(speed, 'SpeedRPM')
  const sensor = sensors.get(textField(speed, 'DataSourceUri') ?? '')
  const own = base(json)
  const tooMuch = share !== undefined && share > 100
  const disputed =
    (sensor?.percent !== undefined &&
      share !== undefined &&
      !tooMuch &&
      Math.abs(sensor.percent - share) > POINTS_APART) ||
    (sensor?.rpm !== undefined &&
      rpm !== undefined &&
      Math.abs(sensor.rpm - rpm) > SHARE_APART * Math.max(sensor.rpm, rpm))
  return {
    fans: [
      {
        ...own,
        rpm: rpm !== undefined ? [rpm] : sensor?.rpm !== undefined ? [sensor.rpm] : [],
        // Some services put the speed where the percentage belongs; it is never taken for one.
        ...(share !== undefined && !tooMuch ? { percent: share } : {}),
        ...(disputed ? { disputed: true as const } : {}),
      },
    ],
    celsius: [],
    remarks: [
      ...(tooMuch ? [{ code: 'percent-over-100' as const, at: own.channel }] : []),
      ...(disputed ? [{ code: 'sources-disagree' as const, at: own.channel }] : []),
    ],
  }
}

function collection(json: Json): Found {
  const count = numberField(json, 'Members@odata.count')
  const members = itemsOf(field(json, 'Members')).length
  const at = textField(json, 'Name') ?? ''
  return {
    fans: [],
    celsius: [],
    remarks: [
      { code: 'links-only', at },
      ...(count !== undefined && count !== members ? [{ code: 'count-mismatch' as const, at }] : []),
    ],
  }
}

function temperatures(json: Json): Found {
  const celsius = itemsOf(field(json, 'TemperatureReadingsCelsius'))
    .map((t) => numberField(t, 'Reading'))
    .filter((c) => c !== undefined)
    .filter(isRoomLike)
  return { fans: [], celsius, remarks: [] }
}

export function readRedfish(documents: readonly Json[]): ReadText {
  const all = resources(documents)
  const sensors = sensorsIn(all)
  const found = all.map((r): Found => {
    switch (typeOf(r)) {
      case 'Thermal':
        return thermalFans(r)
      case 'Fan':
        return newFan(r, sensors)
      case 'FanCollection':
        return collection(r)
      case 'ThermalMetrics':
        return temperatures(r)
      default:
        return { fans: [], celsius: [], remarks: [] }
    }
  })
  return {
    ok: true,
    reading: {
      ...NOTHING,
      source: 'redfish',
      fans: found.flatMap((f) => f.fans),
      celsius: found.flatMap((f) => f.celsius),
      remarks: found.flatMap((f) => f.remarks),
    },
  }
}
