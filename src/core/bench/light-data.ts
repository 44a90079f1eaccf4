/**
 * Light data from where it is made to the last LED. Each LED keeps the first frame that it sees and hands the rest
 * on (one data line, no clock), so a break darkens all that follows, and too low a count leaves the tail without. A hub in
 * series sends out to a port and must get the data back before the next port has any.
 */
import type { BeforeHost, Light } from '../plan/part.ts'
import { type BuildLight, type BuildPart, conductorIndex, NOWHERE } from './build.ts'
import { across, grounded, type Moment, once, stateOf, walk, working } from './moment.ts'
import { alive, hostSpeaksTo } from './usb.ts'
import { PORT } from './world.ts'

const V12 = conductorIndex['12V']
const V5 = conductorIndex['5V']
const { DATA, DATA_BACK, R, G, B } = conductorIndex

export type Making = 'set' | 'global' | 'stored' | 'frozen'

export interface Stream {
  readonly making: Making
  /** LEDs told in all; Infinity for a stored pattern, which knows no count. */
  readonly told: number
  /** LEDs passed before this point. */
  readonly used: number
  readonly colours: string | undefined
}

/** The place of a socket's channel in `settings.channels`: `H1`, `C1.light1`, or `L1` for `board.L1`. */
export function channelPlace(moment: Pick<Moment, 'build'>, socket: number): string {
  const ref = moment.build.ports[socket]?.ref ?? ''
  const part = moment.build.parts[moment.build.partOf[socket] ?? NOWHERE]
  if (!part) return ref.replace(/^board\./, '')
  return part.light?.does === 'feeds' && part.light.order === 'separate' ? ref : part.part.id
}

/** What goes out at a socket, or null where nothing does. */
export function outOf(moment: Moment, socket: number): Stream | null {
  return once(moment, 'out', socket, sent)
}

function sent(moment: Moment, socket: number): Stream | null {
  // Plugs in a ring have no beginning: whoever comes round again finds nothing.
  moment.memo.out[socket] = null
  const { build, world } = moment
  const bits = world.port[socket] ?? 0
  if (!world.power || !working(moment, socket) || bits & PORT.data) return null
  if (bits & PORT.weak && !world.contact) return null
  if (build.lightHeaders.has(socket)) return boardStream(moment, socket)
  const index = build.partOf[socket] ?? NOWHERE
  const part = build.parts[index]
  if (!part) return null
  const passing = part.lights.find((light) => light.out === socket)
  if (passing) return pastLights(moment, index, passing)
  if (part.light?.does === 'splits') return into(moment, part.light.from)
  if (part.light?.does !== 'feeds') return null
  const { order, sockets } = part.light
  const place = sockets.indexOf(socket)
  if (order === 'series' && place > 0) return comesBack(moment, sockets[place - 1] ?? NOWHERE)
  const made = partStream(moment, index, part, socket)
  if (made === null || order !== 'parallel' || made.told === Number.POSITIVE_INFINITY) return made
  const profile = world.settings.channels[channelPlace(moment, socket)]?.profile
  return { ...made, told: profile?.[place] ?? profile?.[0] ?? made.told }
}

function boardStream(moment: Moment, socket: number): Stream | null {
  const { build, world } = moment
  return world.settings.host.program === 'running'
    ? hostStream(moment, socket)
    : beforeHost(build.plan.board.beforeHost)
}

function partStream(moment: Moment, index: number, part: BuildPart, socket: number): Stream | null {
  if (part.light?.does !== 'feeds' || !alive(moment, index)) return null
  const stored = 'beforeHost' in part.part ? part.part.beforeHost : 'dark'
  if (stateOf(moment, index).hung)
    return { making: 'frozen', told: Number.POSITIVE_INFINITY, used: 0, colours: undefined }
  const { host } = part.light
  if (typeof host === 'number') return into(moment, host) ?? beforeHost(stored)
  return hostSpeaksTo(moment, index) ? hostStream(moment, socket) : beforeHost(stored)
}

function hostStream(moment: Moment, socket: number): Stream {
  const { settings } = moment.world
  const channel = settings.channels[channelPlace(moment, socket)]
  const told = channel?.profile?.reduce((sum, n) => sum + n, 0) ?? Number.POSITIVE_INFINITY
  return {
    making: settings.host.globalEffect === 'on' ? 'global' : 'set',
    told,
    used: 0,
    colours: channel?.colours,
  }
}

const beforeHost = (does: BeforeHost): Stream | null =>
  does === 'dark' ? null : { making: 'stored', told: Number.POSITIVE_INFINITY, used: 0, colours: undefined }

/** What comes in at a plug: over a data wire, or over the three colour wires of a plain 12 V light. */
export function into(moment: Moment, plug: number): Stream | null {
  const { build, world } = moment
  if ((build.pins[plug] ?? 0) & (1 << DATA)) {
    const socket = across(moment, plug, DATA)
    return socket < 0 ? null : outOf(moment, socket)
  }
  const wired = [R, G, B].filter((c) => across(moment, plug, c) >= 0)
  const stream = wired.length === 0 ? null : outOf(moment, world.socketOf[plug] ?? NOWHERE)
  return stream && wired.length < 3 ? { ...stream, colours: 'missing' } : stream
}

/** Data after the last LED of one set of lights, or null where it ends there. */
function pastLights(moment: Moment, index: number, { light, plug }: BuildLight): Stream | null {
  const state = stateOf(moment, index)
  const stream = into(moment, plug)
  if (!stream || !powered(moment, light.volts, plug) || state.lightsDead) return null
  if (deadLed(moment, index, light) !== undefined) return null
  return { ...stream, used: stream.used + light.leds }
}

/** What comes back at a socket of a series hub from the part that hangs there. */
function comesBack(moment: Moment, socket: number): Stream | null {
  const { build, world } = moment
  const plug = world.plugIn[socket] ?? NOWHERE
  if (plug < 0 || across(moment, plug, DATA_BACK) < 0) return null
  const index = build.partOf[plug] ?? NOWHERE
  const part = build.parts[index]
  const own = part?.lights.find((light) => light.plug === plug)
  if (!own) return null
  const next = own.out >= 0 ? (world.plugIn[own.out] ?? NOWHERE) : NOWHERE
  if (next >= 0) return comesBack(moment, own.out)
  return own.light.returns ? pastLights(moment, index, own) : null
}

export function powered(moment: Moment, volts: 5 | 12, plug: number): boolean {
  if (!moment.world.power) return false
  return volts === 5
    ? walk(moment, plug, V5).source >= 0 && grounded(moment, plug)
    : walk(moment, plug, V12).source >= 0
}

/** The n-th LED is in the first set of a part's lights that has so many in a chain. */
const inSet = (moment: Moment, index: number, light: Light, n: number | undefined): number | undefined => {
  if (n === undefined) return undefined
  const set = moment.build.parts[index]?.lights.find((l) => l.light.volts === 5 && n <= l.light.leds)
  return set?.light === light ? n : undefined
}

/** The LED at which data ends in one set of lights. */
const deadLed = (moment: Moment, index: number, light: Light): number | undefined =>
  inSet(moment, index, light, stateOf(moment, index).ledDead)

export interface LightNow {
  /** LEDs that light, of all. */
  readonly lit: number
  /** LEDs that data reaches; a dark one may be among them. */
  readonly reached: number
  readonly leds: number
  readonly stream: Stream | null
}

/** How many LEDs of one set light, and what they follow. */
export function lightNow(moment: Moment, index: number, entry: BuildLight): LightNow {
  const { light, plug } = entry
  const state = stateOf(moment, index)
  const stream = hostedInside(moment, index, plug) ?? into(moment, plug) ?? kept(moment, plug)
  if (!stream || !powered(moment, light.volts, plugOrInside(moment, index, plug)) || state.lightsDead)
    return { lit: 0, reached: 0, leds: light.leds, stream: null }
  const told = Math.max(0, Math.min(light.leds, stream.told - stream.used))
  const reached = Math.min(told, (deadLed(moment, index, light) ?? light.leds + 1) - 1)
  const dark = inSet(moment, index, light, state.ledDark)
  const lit = dark !== undefined && dark <= reached ? reached - 1 : reached
  return { lit, reached, leds: light.leds, stream }
}

/** The last picture of lights that lost their data while they had power. */
function kept({ world }: Moment, plug: number): Stream | null {
  const reached = world.held.get(plug)
  return reached === undefined ? null : { making: 'frozen', told: reached, used: 0, colours: undefined }
}

/** A part that drives its own lights (a pump head with a USB plug) and has no light lead in use. */
function hostedInside(moment: Moment, index: number, plug: number): Stream | undefined {
  const part = moment.build.parts[index]?.part
  if (part?.kind !== 'pump' || part.host !== 'usb' || (moment.build.socketOf[plug] ?? NOWHERE) >= 0)
    return undefined
  if (stateOf(moment, index).dead) return undefined
  const made = hostSpeaksTo(moment, index)
    ? ({
        making: moment.world.settings.host.globalEffect === 'on' ? 'global' : 'set',
        told: Number.POSITIVE_INFINITY,
        used: 0,
        colours: moment.world.settings.channels[part.id]?.colours,
      } as const)
    : beforeHost(part.beforeHost)
  return made ?? undefined
}

function plugOrInside(moment: Moment, index: number, plug: number): number {
  const entry = moment.build.parts[index]
  if (entry?.part.kind !== 'pump' || (moment.build.socketOf[plug] ?? NOWHERE) >= 0) return plug
  return entry.usbPlug
}
