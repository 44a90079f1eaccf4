/**
 * Numbers with their units as people write them: `0.25 A`, `250 mA`, `50 cm`, `24 AWG`, `30 %`. A number without
 * a unit is in the unit of its key. Factors are definitions (SI; 1 in = 25.4 mm; 1 ft³/min = 1.699 m³/h).
 */

export type Dimension =
  | 'current'
  | 'milliamps'
  | 'voltage'
  | 'length'
  | 'speed'
  | 'gauge'
  | 'percent'
  | 'temperature'
  | 'time'
  | 'power'
  | 'airflow'
  | 'count'

interface Scale {
  readonly name: string
  readonly sample: string
  /** Units in lower case and the factor to the program's own unit. */
  readonly units: Readonly<Record<string, number>>
}

const AMPS = { a: 1, amp: 1, amps: 1, ampere: 1, amperes: 1 }
const MILLIAMPS = { ma: 1, milliamp: 1, milliamps: 1 }
const times = (units: Readonly<Record<string, number>>, by: number): Record<string, number> =>
  Object.fromEntries(Object.entries(units).map(([unit, factor]) => [unit, factor * by]))

export const scales: Readonly<Record<Dimension, Scale>> = {
  current: { name: 'a current', sample: '0.25 A or 250 mA', units: { ...AMPS, ...times(MILLIAMPS, 0.001) } },
  milliamps: { name: 'a current', sample: '100 mA', units: { ...MILLIAMPS, ...times(AMPS, 1000) } },
  voltage: { name: 'a voltage', sample: '12 V', units: { v: 1, volt: 1, volts: 1, mv: 0.001 } },
  length: {
    name: 'a length',
    sample: '500 mm or 50 cm',
    units: { mm: 1, cm: 10, m: 1000, in: 25.4, inch: 25.4, inches: 25.4, '"': 25.4 },
  },
  speed: { name: 'a speed', sample: '1500 rpm', units: { rpm: 1, '1/min': 1, '/min': 1, 'min-1': 1 } },
  gauge: { name: 'a wire gauge', sample: '24 AWG', units: { awg: 1 } },
  percent: { name: 'a share', sample: '30 %', units: { '%': 1, percent: 1 } },
  temperature: { name: 'a temperature', sample: '40 °C', units: { '°c': 1, c: 1, celsius: 1, degc: 1 } },
  time: { name: 'a time', sample: '3 s', units: { s: 1, sec: 1, second: 1, seconds: 1, ms: 0.001 } },
  power: { name: 'a power', sample: '650 W', units: { w: 1, watt: 1, watts: 1, kw: 1000 } },
  airflow: {
    name: 'an air flow',
    sample: '55 CFM',
    units: { cfm: 1, 'm3/h': 1 / 1.699, 'm³/h': 1 / 1.699 },
  },
  count: {
    name: 'a count',
    sample: '8',
    units: Object.fromEntries(
      ['led', 'port', 'way', 'plug', 'pin', 'pulse', 'out'].flatMap((w) => [
        [w, 1],
        [`${w}s`, 1],
      ]),
    ),
  },
}

/** What kind of value a unit belongs to, such as `a voltage` for V. */
const dimensionOfUnit = (unit: string): string | undefined =>
  Object.values(scales).find((scale) => Object.hasOwn(scale.units, unit.toLowerCase()))?.name

export type Quantity =
  | { readonly ok: true; readonly value: number }
  | { readonly ok: false; readonly why: 'not-a-number' | 'comma' }
  | {
      readonly ok: false
      readonly why: 'unit'
      readonly unit: string
      readonly belongsTo: string | undefined
    }

const NUMBER_THEN_UNIT = /^([+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d{1,3})?)\s*(\D.*)?$/

/** Rounds away what binary fractions add: 250 mA is 0.25 A, not 0.25000000000000006. */
const clean = (value: number): number => Number(value.toPrecision(12))

/** Reads a number with or without its unit. */
export function quantity(text: string, dimension: Dimension): Quantity {
  const trimmed = text.trim()
  if (/^[+-]?\d+,\d+/.test(trimmed)) return { ok: false, why: 'comma' }
  const gauge = dimension === 'gauge' ? /^(?:awg|#)\s*(\d+)$/.exec(trimmed.toLowerCase()) : null
  const match = gauge ?? NUMBER_THEN_UNIT.exec(trimmed)
  if (!match) return { ok: false, why: 'not-a-number' }
  const number = Number(match[1])
  if (!Number.isFinite(number)) return { ok: false, why: 'not-a-number' }
  const unit = gauge ? undefined : match[2]?.trim().toLowerCase()
  if (unit === undefined || unit === '') return { ok: true, value: number }
  if (dimension === 'temperature' && (unit === '°f' || unit === 'f'))
    return { ok: true, value: clean(((number - 32) * 5) / 9) }
  const { units } = scales[dimension]
  const factor = Object.hasOwn(units, unit) ? units[unit] : undefined
  if (factor === undefined) return { ok: false, why: 'unit', unit, belongsTo: dimensionOfUnit(unit) }
  return { ok: true, value: clean(number * factor) }
}
