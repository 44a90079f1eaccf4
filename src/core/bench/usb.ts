/**
 * Which parts are listed over USB: bus power, the data pair, ports that are enabled, hubs that are up, at most five
 * hubs in a path (USB 2.0, bus topology), and the port's current. Over the current by up to a quarter a part comes
 * and goes; above that it is not listed (judgement, no source).
 */
import { SAGS_UP_TO } from '../electrics/overload.ts'
import { conductorIndex, NOWHERE, WIDTH } from './build.ts'
import { across, grounded, type Moment, once, stateOf, walk, working } from './moment.ts'

const V5 = conductorIndex['5V']
const V12 = conductorIndex['12V']
const { USB } = conductorIndex
const MOST_HUBS = 5

export type Listed = 'yes' | 'no' | 'comes-and-goes'

/** Current of a part at its USB plug, mA: its own, and all that hangs on it where it has no supply of its own. */
function drawOf(moment: Moment, index: number, depth = 0): number {
  const entry = moment.build.parts[index]
  if (!entry || depth > MOST_HUBS + 1) return 0
  const { part } = entry
  if (part.kind !== 'usb-hub') return 'usbMilliamps' in part ? part.usbMilliamps : 0
  if (part.power !== 'bus') return part.ownMilliamps
  return entry.sockets.reduce((sum, s) => {
    const plug = moment.world.plugIn[s] ?? NOWHERE
    return plug < 0 ? sum : sum + drawOf(moment, moment.build.partOf[plug] ?? NOWHERE, depth + 1)
  }, part.ownMilliamps)
}

/** A part that needs supply to do anything has it. */
export function alive(moment: Moment, index: number): boolean {
  const entry = moment.build.parts[index]
  if (!entry || !moment.world.power || stateOf(moment, index).dead) return false
  if (entry.power < 0) return true
  const fed = walk(moment, entry.power, V5).source >= 0 || walk(moment, entry.power, V12).source >= 0
  return fed && grounded(moment, entry.power)
}

const worse = (a: Listed, b: Listed): Listed =>
  a === 'no' || b === 'no'
    ? 'no'
    : a === 'comes-and-goes' || b === 'comes-and-goes'
      ? 'comes-and-goes'
      : 'yes'

/** `null` where the part has no USB plug. */
export function listed(moment: Moment, index: number): Listed | null {
  const entry = moment.build.parts[index]
  if (!entry || entry.usbPlug < 0) return null
  return once(moment, 'listed', index, link)
}

/** @param below hubs between this part and the one that is asked for */
function link(moment: Moment, index: number, below = 0): Listed {
  const { build, world } = moment
  const entry = build.parts[index]
  const hubs = below + (entry?.part.kind === 'usb-hub' ? 1 : 0)
  if (!entry || hubs > MOST_HUBS || !world.power) return 'no'
  const state = stateOf(moment, index)
  if (state.dead || state.notAnswering || state.asleep) return 'no'
  if (entry.part.kind === 'usb-hub' && !alive(moment, index)) return 'no'
  if (!grounded(moment, entry.usbPlug) || walk(moment, entry.usbPlug, V5).source < 0) return 'no'
  let plug = entry.usbPlug
  // Through passive adapters up to a hub or the board.
  for (let step = 0; step < 8; step++) {
    const socket = across(moment, plug, USB)
    if (socket < 0 || !working(moment, socket) || !enabled(moment, socket)) return 'no'
    const above = build.partOf[socket] ?? NOWHERE
    const own = withinBudget(drawOf(moment, index), limitAt(moment, socket))
    if (above < 0) return own
    if (build.parts[above]?.part.kind === 'usb-hub') return worse(own, link(moment, above, hubs))
    plug = build.up[socket * WIDTH + USB] ?? NOWHERE
  }
  return 'no'
}

function enabled(moment: Moment, socket: number): boolean {
  const ref = moment.build.ports[socket]?.ref ?? ''
  return moment.world.settings.ports[ref]?.enabled ?? true
}

function limitAt(moment: Moment, socket: number): number {
  const header = moment.build.usbHeaders.get(socket)
  if (header) return header.milliamps
  const part = moment.build.parts[moment.build.partOf[socket] ?? NOWHERE]?.part
  return part?.kind === 'usb-hub' ? part.portMilliamps : Number.POSITIVE_INFINITY
}

const withinBudget = (draw: number, limit: number): Listed =>
  draw <= limit ? 'yes' : draw <= limit * SAGS_UP_TO ? 'comes-and-goes' : 'no'

/** The host program runs and reaches the part over USB. */
export const hostSpeaksTo = (moment: Moment, index: number): boolean =>
  moment.world.settings.host.program === 'running' && listed(moment, index) === 'yes'
