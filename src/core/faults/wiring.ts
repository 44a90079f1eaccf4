/** A plug in another socket than planned: exchanged with a neighbour, in a free socket, in one of another voltage. */
import { type Build, NOWHERE } from '../bench/build.ts'
import { alterPart, exchange, push } from '../bench/world.ts'
import type { Connector } from '../plan/part.ts'
import { type FaultEntry, portAt, refOf, type Seat, seat, wiredPlugs } from './entry.ts'

const MOTOR: readonly Connector[] = ['fan3', 'fan4']

/** Plugs of two connectors that fit the same sockets. */
export const alike = (a: Connector | undefined, b: Connector | undefined): boolean =>
  a === b || (a !== undefined && b !== undefined && MOTOR.includes(a) && MOTOR.includes(b))

/** The same plug type goes into the other voltage's header only by force or by an adapter; it happens. */
const otherVolts = (a: Connector | undefined, b: Connector | undefined): boolean =>
  (a === 'light5' && b === 'light12') || (a === 'light12' && b === 'light5')

const SWAP = 0.35
const FAR_SWAP = 0.12
const WRONG_SOCKET = 0.3
const WRONG_VOLTS = 0.08
/** Beyond so many candidates a plug has no nearer neighbours than others; the share is spread over the nearest. */
const MOST_NEIGHBOURS = 4

/** The few sockets nearest to this one, on the same part first. */
function nearest(build: Build, socket: number, candidates: readonly number[]): readonly number[] {
  const own = build.partOf[socket]
  const distance = (s: number): number => Math.abs(s - socket) + (build.partOf[s] === own ? 0 : 1000)
  return [...candidates].sort((a, b) => distance(a) - distance(b) || a - b).slice(0, MOST_NEIGHBOURS)
}

/** Finds the sockets nearest to one among many, without going over all of them each time. */
function neighboursIn(build: Build, sockets: readonly number[]) {
  const inOrder = [...sockets].sort((a, b) => a - b)
  const placeOf = new Map(inOrder.map((s, i) => [s, i]))
  const onPart = new Map<number, number[]>()
  for (const s of inOrder) {
    const part = build.partOf[s] ?? NOWHERE
    const of = onPart.get(part)
    if (of) of.push(s)
    else onPart.set(part, [s])
  }
  return (socket: number, fits: (s: number) => boolean): readonly number[] => {
    const own = build.partOf[socket] ?? NOWHERE
    const near = (onPart.get(own) ?? []).filter(fits)
    const elsewhere = (step: number): void => {
      let found = 0
      for (let i = (placeOf.get(socket) ?? 0) + step; found < MOST_NEIGHBOURS; i += step) {
        const s = inOrder[i]
        if (s === undefined) return
        if (build.partOf[s] === own || !fits(s)) continue
        near.push(s)
        found++
      }
    }
    elsewhere(-1)
    elsewhere(1)
    return nearest(build, socket, near)
  }
}

/** Plugs that one could be exchanged with by mistake, by connector family; computed once for all plugs of it. */
function byFamily(build: Build): readonly (readonly number[])[] {
  const families = new Map<string, number[]>()
  for (const plug of wiredPlugs(build)) {
    const kind = build.ports[plug]?.connector
    // Exchanging two supply plugs changes nothing.
    if (kind === undefined || kind === 'sata' || kind === 'peripheral') continue
    const family = MOTOR.includes(kind) ? 'motor' : kind
    families.set(family, [...(families.get(family) ?? []), plug])
  }
  return [...families.values()]
}

function swapSeats(build: Build): readonly Seat[] {
  const socketOf = (plug: number): number => build.socketOf[plug] ?? NOWHERE
  const plugIn = (socket: number): number => build.plugIn[socket] ?? NOWHERE
  return byFamily(build).flatMap((plugs) => {
    const neighbours = neighboursIn(build, plugs.map(socketOf))
    const around = new Map(
      plugs.map((plug) => [plug, neighbours(socketOf(plug), (s) => s !== socketOf(plug))]),
    )
    return plugs.flatMap((plug) =>
      neighbours(socketOf(plug), (s) => plugIn(s) !== plug && !hangsOn(build, plug, plugIn(s)))
        .map(plugIn)
        .filter((other) => other > plug || !around.get(other)?.includes(socketOf(plug)))
        .map((other) => {
          const together = build.partOf[socketOf(other)] === build.partOf[socketOf(plug)]
          const [a, b] = plug < other ? [plug, other] : [other, plug]
          return seat(refOf(build, a), together ? SWAP : FAR_SWAP, refOf(build, b))
        }),
    )
  })
}

/** One of the two hangs on the other: they cannot be exchanged. */
function hangsOn(build: Build, a: number, b: number): boolean {
  const above = (plug: number): number => build.partOf[build.socketOf[plug] ?? 0] ?? NOWHERE
  return above(a) === build.partOf[b] || above(b) === build.partOf[a]
}

const freeSockets = (build: Build, fits: (c: Connector | undefined) => boolean): readonly number[] =>
  build.sockets.filter(
    (s) => (build.plugIn[s] ?? NOWHERE) < 0 && fits(build.ports[s]?.connector) && !covered(build, s),
  )

/** A header's port whose whole header is taken by one wide plug, or a whole header of which a port is taken. */
export function covered(build: Build, socket: number): boolean {
  const header = build.usbHeaders.get(socket)
  if (!header) return false
  const whole = `board.${header.id}`
  return build.sockets.some((s) => {
    const ref = refOf(build, s)
    return (
      s !== socket &&
      (ref === whole || (refOf(build, socket) === whole && ref.startsWith(`${whole}.`))) &&
      (build.plugIn[s] ?? NOWHERE) >= 0
    )
  })
}

const placing = (build: Build, at: string, arg: string) => {
  const plug = portAt(build, at)
  const socket = portAt(build, arg)
  if (plug === undefined || socket === undefined || build.ports[socket]?.gender !== 'socket') return undefined
  const burnt = build.ports[plug]?.connector === 'light5' && build.ports[socket]?.connector === 'light12'
  return (world: Parameters<typeof push>[0]) => {
    push(world, plug, socket)
    if (burnt) alterPart(world, build.partOf[plug] ?? NOWHERE, { lightsDead: true })
  }
}

export const wiringFaults: readonly FaultEntry[] = [
  {
    mode: 'swapped-with-',
    family: 'wiring',
    seats: swapSeats,
    plant: (build, at, arg) => {
      const a = portAt(build, at)
      const b = portAt(build, arg)
      if (a === undefined || b === undefined) return undefined
      if (build.ports[a]?.gender !== 'plug' || build.ports[b]?.gender !== 'plug') return undefined
      return (world) => exchange(world, a, b)
    },
  },
  {
    mode: 'in-',
    family: 'wiring',
    seats: (build) =>
      wiredPlugs(build).flatMap((plug) => {
        const kind = build.ports[plug]?.connector
        if (kind === 'sata' || kind === 'peripheral') return []
        const socket = build.socketOf[plug] ?? NOWHERE
        const right = nearest(
          build,
          socket,
          freeSockets(build, (c) => alike(c, kind)).filter((s) => build.partOf[s] !== build.partOf[plug]),
        )
        const wrong = freeSockets(build, (c) => otherVolts(kind, c)).slice(0, 1)
        return [
          ...right.map((s) =>
            seat(refOf(build, plug), WRONG_SOCKET / Math.max(right.length, 1), refOf(build, s)),
          ),
          ...wrong.map((s) => seat(refOf(build, plug), WRONG_VOLTS, refOf(build, s))),
        ]
      }),
    plant: placing,
  },
]
