/**
 * Settings by reference: `headers/SYS1/drive`, `channels/H1/profile`, `host/program`, `ports/board.U1.a/enabled`.
 * One text form for each value, the same in edits, answers and the line protocol: words as they are, numbers as
 * digits, lists as JSON without blanks.
 */
import type { Settings } from '../plan/plan.ts'

type Json = string | number | boolean | readonly unknown[]

/** What can be set at each place of a section. */
export const SETTING_KEYS = {
  headers: ['drive', 'curve', 'delay', 'pulses', 'alarm_below'],
  channels: ['profile', 'colours'],
  ports: ['enabled'],
} as const satisfies Readonly<Record<string, readonly string[]>>

const KEYS: Readonly<Record<string, readonly string[]>> = SETTING_KEYS

const NUMBERS: readonly string[] = ['delay', 'pulses', 'alarm_below']

const FIELD: Readonly<Record<string, string>> = { alarm_below: 'alarmBelow' }

export const settingRef = (section: string, place: string, key: string): string =>
  `${section}/${place}/${key}`

/** `headers`, `SYS1` and `curve` of `headers/SYS1/curve`; the host's settings have no place. */
export function settingParts(ref: string): { section: string; place: string; key: string } {
  const first = ref.indexOf('/')
  const last = ref.lastIndexOf('/')
  if (first < 0) return { section: ref, place: '', key: '' }
  return { section: ref.slice(0, first), place: ref.slice(first + 1, last), key: ref.slice(last + 1) }
}

const textOf = (value: Json): string => (typeof value === 'string' ? value : JSON.stringify(value))

/** The text of a setting, or undefined where the settings do not say or there is no such one. */
export function settingText(settings: Settings, ref: string): string | undefined {
  const { section, place, key } = settingParts(ref)
  if (ref === 'host/program') return settings.host.program
  if (ref === 'host/global_effect') return settings.host.globalEffect
  if (place === '' || !KEYS[section]?.includes(key)) return undefined
  const group = settings[section as 'headers' | 'channels' | 'ports'][place] as
    | Record<string, Json>
    | undefined
  const value = group?.[FIELD[key] ?? key]
  return value === undefined ? undefined : textOf(value)
}

/** A copy with one setting changed; undefined where there is no such setting or the text does not fit it. */
export function withSetting(settings: Settings, ref: string, text: string): Settings | undefined {
  const { section, place, key } = settingParts(ref)
  if (section === 'host') return withHost(settings, ref, text)
  if (place === '' || !KEYS[section]?.includes(key)) return undefined
  const value = parse(key, text)
  if (value === undefined) return undefined
  const groups = settings[section as 'headers' | 'channels' | 'ports']
  return { ...settings, [section]: { ...groups, [place]: { ...groups[place], [FIELD[key] ?? key]: value } } }
}

function withHost(settings: Settings, ref: string, text: string): Settings | undefined {
  if (ref === 'host/program' && (text === 'running' || text === 'absent'))
    return { ...settings, host: { ...settings.host, program: text } }
  if (ref === 'host/global_effect' && (text === 'on' || text === 'off'))
    return { ...settings, host: { ...settings.host, globalEffect: text } }
  return undefined
}

const isNumber = (x: unknown): x is number => typeof x === 'number' && Number.isFinite(x)

function parse(key: string, text: string): Json | undefined {
  if (key === 'drive') return text === 'pwm' || text === 'dc' ? text : undefined
  if (key === 'colours') return /^[A-Z]{3,4}$/.test(text) ? text : undefined
  let value: unknown
  try {
    value = JSON.parse(text)
  } catch {
    return undefined
  }
  if (key === 'enabled') return typeof value === 'boolean' ? value : undefined
  if (NUMBERS.includes(key)) return isNumber(value) && value >= 0 ? value : undefined
  if (!Array.isArray(value)) return undefined
  if (key === 'profile') return value.every((x) => isNumber(x) && x >= 0) ? value : undefined
  return value.every((x) => Array.isArray(x) && x.length === 2 && x.every(isNumber)) ? value : undefined
}
