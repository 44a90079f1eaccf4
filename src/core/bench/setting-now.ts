/**
 * The value that would be found for a setting: as set, or, where nobody set it, what the thing does by itself: the
 * usual curve, two pulses a turn, the LEDs as they are wired.
 */
import { USUAL_PULSES } from '../electrics/tach.ts'
import { type Build, NOWHERE } from './build.ts'
import { chainOf, channelsOf, wiredProfile } from './channel.ts'
import { driveMode, headerSetting, USUAL_CURVE, USUAL_DELAY } from './drive.ts'
import { idealMomentOf, type Moment } from './moment.ts'
import { settingParts, settingText } from './setting.ts'
import { alarmLimit } from './tach.ts'
import { asPlanned } from './world.ts'

const plannedMoments = new WeakMap<Build, Moment>()

function planned(build: Build): Moment {
  const moment = plannedMoments.get(build) ?? idealMomentOf(build, asPlanned(build))
  plannedMoments.set(build, moment)
  return moment
}

/** LEDs told by port, as the plan has them or as it is wired; empty where the build has no such channel. */
export function plannedProfile(build: Build, place: string): readonly number[] {
  const set = build.plan.settings.channels[place]?.profile
  if (set) return set
  const channel = channelsOf(build).find((c) => c.place === place)
  return channel ? wiredProfile(planned(build), channel) : []
}

/** Colour order of the lights on a channel, or undefined where nothing hangs there. */
export function plannedColours(build: Build, place: string): string | undefined {
  const set = build.plan.settings.channels[place]?.colours
  if (set) return set
  const channel = channelsOf(build).find((c) => c.place === place)
  const first = channel && chainOf(planned(build), channel)[0]
  return first && build.parts[first.part]?.lights[first.light]?.light.colours
}

/** As `settingText` writes it; undefined where the build has no such setting. */
export function settingNow(moment: Moment, ref: string): string | undefined {
  const { build, world } = moment
  const set = settingText(world.settings, ref)
  if (set !== undefined) return set
  const { section, place, key } = settingParts(ref)
  if (section === 'channels') return ofChannel(build, place, key)
  const port = build.portAt.get(`board.${place}`) ?? build.portAt.get(place) ?? NOWHERE
  if (section === 'ports') return key === 'enabled' && build.usbHeaders.has(port) ? 'true' : undefined
  return section === 'headers' && port >= 0 ? ofHeader(moment, port, key) : undefined
}

function ofChannel(build: Build, place: string, key: string): string | undefined {
  if (key === 'colours') return plannedColours(build, place)
  const profile = key === 'profile' ? plannedProfile(build, place) : []
  return profile.length > 0 ? JSON.stringify(profile) : undefined
}

function ofHeader(moment: Moment, port: number, key: string): string | undefined {
  const { build, world } = moment
  switch (key) {
    case 'drive':
      return driveMode(moment, port)
    case 'pulses':
      return String(headerSetting(build, world.settings, port).pulses ?? USUAL_PULSES)
    case 'delay':
      return String(headerSetting(build, world.settings, port).delay ?? USUAL_DELAY)
    case 'alarm_below':
      return String(alarmLimit(moment, port))
    case 'curve': {
      const usual = build.fanHeaders.get(port)?.role === 'pump' ? [[0, 100]] : USUAL_CURVE
      return JSON.stringify(headerSetting(build, world.settings, port).curve ?? usual)
    }
    default:
      return undefined
  }
}

/** What a setting should be: as planned, or as the wiring asks where the plan is silent. */
export const rightSetting = (build: Build, ref: string): string | undefined => settingNow(planned(build), ref)
