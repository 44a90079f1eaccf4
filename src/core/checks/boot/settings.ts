/**
 * Settings read one by one and held against the plan: what the firmware asks of each fan header, then what the
 * vendor's lighting program tells each controller and channel. What is set otherwise is marked.
 */
import type { Build } from '../../bench/build.ts'
import { channelsOf } from '../../bench/channel.ts'
import { headerPlace } from '../../bench/drive.ts'
import { SETTING_KEYS, settingRef, settingText } from '../../bench/setting.ts'
import { rightSetting } from '../../bench/setting-now.ts'
import { governedPorts } from '../../faults/governed.ts'
import { wrongSettings } from '../../faults/setting.ts'
import { lookCost } from '../looks.ts'
import type { Ask } from '../prompt.ts'
import { type BootStage, pointId, SET_OTHERWISE } from './point.ts'

/** One setting on a page that is open before one's eyes. */
const MINUTES_EACH = 0.4

function settingsAsk(build: Build, stage: BootStage, at: string, refs: readonly string[]): Ask | undefined {
  const known = refs.filter((ref) => rightSetting(build, ref) !== undefined)
  if (known.length === 0) return undefined
  return {
    show: 'ask',
    id: pointId(stage, 'settings', at),
    stage: 'check',
    power: 'on',
    hands: 'out',
    minutes: Math.round((0.5 + MINUTES_EACH * known.length) * 100) / 100,
    tools: [],
    error: lookCost.setting.error,
    many: true,
    marks: known.flatMap((ref) =>
      [SET_OTHERWISE, ...wrongSettings(build, ref)].map((value) => ({
        id: `${ref}:${value}`,
        observe: { what: 'setting', at: ref },
        value,
      })),
    ),
  }
}

const present = (asks: readonly (Ask | undefined)[]): readonly Ask[] => asks.filter((a) => a !== undefined)

/** What one fan header remembers; the alarm limit where there is one, the pulses where they are not the usual two, a delay that the plan names. */
function ofHeader(build: Build, port: number, keys: readonly string[]): readonly string[] {
  const place = headerPlace(build, port)
  return keys
    .map((key) => settingRef('headers', place, key))
    .filter((ref) => {
      const right = rightSetting(build, ref)
      if (ref.endsWith('/alarm_below')) return right !== '0'
      if (ref.endsWith('/delay')) return settingText(build.plan.settings, ref) !== undefined
      return !ref.endsWith('/pulses') || right !== '2'
    })
}

/** Each fan header of the board: drive mode, curve, alarm. */
export const firmwareSettings = (build: Build): readonly Ask[] =>
  present(
    governedPorts(build)
      .filter((port) => build.fanHeaders.has(port))
      .map((port) =>
        settingsAsk(
          build,
          'firmware',
          build.ports[port]?.ref ?? '',
          ofHeader(build, port, SETTING_KEYS.headers),
        ),
      ),
  )

/** The curves of controllers that set their fans themselves, one question a controller. */
function ofControllers(build: Build): readonly Ask[] {
  const by = new Map<string, string[]>()
  for (const port of governedPorts(build)) {
    const { part = '' } = build.ports[port] ?? {}
    if (!build.fanHeaders.has(port))
      by.set(part, [...(by.get(part) ?? []), ...ofHeader(build, port, ['curve', 'pulses', 'alarm_below'])])
  }
  return present([...by].map(([id, refs]) => settingsAsk(build, 'system', `${id} fans`, refs)))
}

/** The LED counts and colour order of channels in use, one question a hub, controller or board. */
function ofChannels(build: Build): readonly Ask[] {
  const by = new Map<string, string[]>()
  for (const { place, driver, sockets } of channelsOf(build)) {
    if (!sockets.some((s) => (build.plugIn[s] ?? -1) >= 0)) continue
    const owner = build.parts[driver]?.part.id ?? 'board'
    const refs = ['profile', 'colours'].map((key) => settingRef('channels', place, key))
    by.set(owner, [...(by.get(owner) ?? []), ...refs])
  }
  return present([...by].map(([id, refs]) => settingsAsk(build, 'system', `${id} lights`, refs)))
}

/** One effect over everything, which would hide all that is set by channel. */
const ofHost = (build: Build): Ask | undefined =>
  channelsOf(build).length === 0 ? undefined : settingsAsk(build, 'system', 'host', ['host/global_effect'])

/** All that the vendor's lighting program is told, once it runs. */
export const programSettings = (build: Build): readonly Ask[] =>
  present([...ofControllers(build), ...ofChannels(build), ofHost(build)])
