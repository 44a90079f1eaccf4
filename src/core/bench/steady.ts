/**
 * What only shows to who watches for a minute: a fan that stops and starts, or whose speed goes up and down; and what
 * shows when a lead is moved. The bench has two moments for what comes and goes, one in which it fails and one in which
 * it holds. Who watches while it fails sees it change; while it holds, nothing can be seen of it.
 */
import { type Build, NOWHERE } from './build.ts'
import { swing } from './drive.ts'
import type { Scene } from './look.ts'
import type { Moment } from './moment.ts'
import { governor, type Turning, turning } from './motor.ts'
import type { Value } from './observable.ts'
import { JOINT, PORT } from './world.ts'

/** Whether it is a moment in which something fails that may hold again. */
export const comesAndGoes = ({ world }: Moment): boolean => world.unsteady && !world.contact

/** A change of less than this share of the top speed is not seen. */
const SEEN_FROM = 0.1

/** What a fan does that turns as in `a` and as in `b` by turns. */
function between(a: Turning, b: Turning, top: number): Value | undefined {
  if (a.rpm > 0 !== b.rpm > 0) return 'comes-and-goes'
  return Math.abs(a.rpm - b.rpm) > SEEN_FROM * top ? 'swings' : undefined
}

/** Watched for a minute with power on: a fan that tries to start and gives up does so again and again. */
export function steady({ now, retry, holding }: Scene, index: number): Value | null {
  const motor = now.build.parts[index]?.motor
  if (!motor) return null
  const is = turning(now, index)
  const top = motor.rpm[1]
  const fails = comesAndGoes(now) ? between(is, turning(holding(), index), top) : undefined
  if (fails) return fails
  const port = governor(now, index)
  const asked = port < 0 ? undefined : swing(now, port)
  const hunts = asked
    ? between(
        turning(retry({ port, duty: asked.low }), index),
        turning(retry({ port, duty: asked.high }), index),
        top,
      )
    : undefined
  return hunts ?? (is.twitches ? 'ticks' : 'yes')
}

/** Leads that may be moved while they are on: never one from the supply, nor a USB plug. */
export const mayBeMoved = (build: Build, plug: number): boolean => {
  const kind = build.ports[plug]?.connector
  return kind === 'fan3' || kind === 'fan4' || kind === 'light5' || kind === 'light12'
}

/** What moving a lead at its plug does: a loose contact or a wire broken inside makes and breaks. */
export function whenMoved({ build, world }: Moment, plug: number): Value | null {
  const socket = world.socketOf[plug] ?? NOWHERE
  if (plug < 0 || socket < 0 || !mayBeMoved(build, plug)) return null
  const gives =
    world.joint[plug] === JOINT.loose ||
    (world.frayed[plug] ?? 0) !== 0 ||
    ((world.port[socket] ?? 0) & PORT.flaky) !== 0
  return gives ? 'changes' : 'same'
}
