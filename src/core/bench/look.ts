/**
 * One look at one thing: the value of an observable at a moment, or null where it has none (no power, no such
 * thing, nothing that could show it). `reference` is the same build with the same edits and no fault: what should
 * be there now.
 */
import { type Build, type BuildPart, conductorIndex, NOWHERE } from './build.ts'
import { answersAt, channelsOf, effect } from './channel.ts'
import { lightNow } from './light-data.ts'
import { grounded, type Moment, walk } from './moment.ts'
import { follows, spin, volts12 } from './motor.ts'
import type { Observable, Value, What } from './observable.ts'
import { settingNow } from './setting-now.ts'
import { comesAndGoes, steady, whenMoved } from './steady.ts'
import { alarm, rpmWord } from './tach.ts'
import { listed } from './usb.ts'
import { JOINT, SUPPLY_END_OUT, supplyLeadAt } from './world.ts'

export interface Scene {
  readonly now: Moment
  readonly reference: Moment
  readonly retry: (forced: NonNullable<Moment['forced']>) => Moment
  /** The same with everything that comes and goes in its good moment. */
  readonly holding: () => Moment
}

type Look = (scene: Scene, at: string) => Value | null

const part = (build: Build, id: string): number => build.partAt.get(id) ?? NOWHERE
const port = (build: Build, ref: string): number => build.portAt.get(ref) ?? NOWHERE

/** Looks that need power give null without it. */
const live =
  (look: Look): Look =>
  (scene, at) =>
    scene.now.world.power ? look(scene, at) : null

const looks: Readonly<Record<What, Look>> = {
  spins: ({ now, reference }, at) => spin(now, reference, part(now.build, at)),
  steady: live((scene, at) => steady(scene, part(scene.now.build, at))),
  rpm: live(({ now, reference }, at) => {
    const socket = port(now.build, at)
    return socket < 0 ? null : rpmWord(now, reference, socket)
  }),
  lit: ({ now }, at) => lit(now, part(now.build, at)),
  flickers: live(({ now, holding }, at) => {
    const index = part(now.build, at)
    const as = picture(now, index)
    if (as === null) return null
    return comesAndGoes(now) && picture(holding(), index) !== as ? 'yes' : 'no'
  }),
  shows: live(({ now }, at) => shows(now, part(now.build, at))),
  effect: live(({ now, reference }, at) => {
    const channel = channelsOf(now.build).find((c) => c.ref === at)
    return channel ? effect(now, reference, channel) : null
  }),
  answers: live(({ now, reference }, at) => answersAt(now, reference, port(now.build, at))),
  goes: ({ now }, at) => {
    const plug = port(now.build, at)
    if (plug < 0) return null
    return now.build.ports[now.world.socketOf[plug] ?? NOWHERE]?.ref ?? 'none'
  },
  listed: live(({ now }, at) => listed(now, part(now.build, at))),
  follows: live(({ now, reference, retry }, at) => follows(now, reference, retry, port(now.build, at))),
  volts: volts,
  seated: ({ now }, at) => {
    const lead = supplyLeadAt(now.build, at)
    if (lead >= 0) {
      const end = now.world.supplyEnd[lead]
      return end === SUPPLY_END_OUT ? 'no' : end === JOINT.sound ? 'yes' : 'doubtful'
    }
    const plug = port(now.build, at)
    if (plug < 0) return null
    if ((now.world.socketOf[plug] ?? NOWHERE) < 0 || now.world.joint[plug] === JOINT.ownEnd) return 'no'
    return now.world.joint[plug] === JOINT.sound ? 'yes' : 'doubtful'
  },
  'when-moved': live(({ now }, at) => whenMoved(now, port(now.build, at))),
  setting: live(({ now }, at) => settingNow(now, at) ?? null),
  alarm: live(({ now }, at) => {
    const socket = port(now.build, at)
    return socket < 0 ? null : alarm(now, socket)
  }),
}

export const hasLights = (entry: BuildPart): boolean => entry.lights.length > 0

/** The value of one observable, or null. */
export const look = (scene: Scene, { what, at }: Observable): Value | null => looks[what](scene, at)

function lit(now: Moment, index: number): Value | null {
  const entry = now.build.parts[index]
  if (!entry || !hasLights(entry)) return null
  const lights = entry.lights.map((light) => lightNow(now, index, light))
  if (lights.every((l) => l.lit === 0)) return 'dark'
  return lights.every((l) => l.lit === l.leds) ? 'whole' : 'part'
}

/** How far its lights are lit, and what they show. */
function picture(now: Moment, index: number): string | null {
  const far = lit(now, index)
  return far === null ? null : `${far} ${shows(now, index)}`
}

function shows(now: Moment, index: number): Value | null {
  const entry = now.build.parts[index]
  if (!entry || !hasLights(entry)) return null
  for (const light of entry.lights) {
    const { lit, stream } = lightNow(now, index, light)
    if (lit === 0 || !stream) continue
    if (stream.making === 'set' && stream.colours !== undefined && stream.colours !== light.light.colours)
      return 'wrong-colours'
    if (stream.colours === 'missing') return 'wrong-colours'
    return stream.making
  }
  return 'nothing'
}

/** Against what should stand there: 5 % is the tolerance of the supply design guides for 12 V and 5 V. */
const TOLERANCE = 0.05

function volts({ now, reference }: Scene, at: string): Value | null {
  const slash = at.lastIndexOf('/')
  const socket = port(now.build, at.slice(0, slash))
  const conductor = at.slice(slash + 1)
  if (socket < 0 || !(conductor === '12V' || conductor === '5V')) return null
  const actual = railVolts(now, socket, conductor)
  const right = railVolts(reference, socket, conductor)
  if (actual <= 0) return 'none'
  if (actual > right * (1 + TOLERANCE)) return 'high'
  return actual < right * (1 - TOLERANCE) ? 'low' : 'right'
}

/** Volts between a rail's contact and the ground contact beside it. */
function railVolts(moment: Moment, socket: number, rail: '12V' | '5V'): number {
  const { build } = moment
  if (!moment.world.power) return 0
  const hasGround = (build.pins[socket] ?? 0) & (1 << conductorIndex.GND)
  if (hasGround && !grounded(moment, socket)) return 0
  if (rail === '12V') return volts12(moment, socket)
  const { source, left } = walk(moment, socket, conductorIndex['5V'])
  return source < 0 ? 0 : 5 * left
}
