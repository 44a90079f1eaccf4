/** Plugs that are out, half in, shifted or turned round; at the board, at a hub, or at the supply. */
import { type Build, NOWHERE } from '../bench/build.ts'
import {
  JOINT,
  pull,
  SUPPLY_END_OUT,
  seatAtSupply,
  seatBadly,
  supplyLeadAt,
  type World,
} from '../bench/world.ts'
import type { Connector } from '../plan/part.ts'
import { type FaultEntry, portAt, refOf, seat, wiredPlugs } from './entry.ts'

/** How easily a plug of this kind is left out or half in (common practice, no source). */
const SLIPS: Readonly<Record<Connector, number>> = {
  fan3: 1,
  fan4: 1,
  light5: 1.2,
  light12: 1.2,
  sata: 0.8,
  peripheral: 0.6,
  usb2: 1,
  'usb2-pair': 0.7,
  usb3: 0.7,
}

/** Connectors that go in shifted by a pin, or turned round, without force. */
const SHIFTS: Readonly<Partial<Record<Connector, number>>> = {
  usb2: 0.35,
  light5: 0.15,
  light12: 0.3,
  fan3: 0.05,
  fan4: 0.05,
}
const TURNS: Readonly<Partial<Record<Connector, number>>> = { usb2: 0.25, light12: 0.3 }

/** Kinds of part whose own leads are plugged in at both ends. */
const BOTH_ENDS: readonly string[] = ['fan-hub', 'light-hub', 'controller', 'usb-hub']
const detachable = (build: Build, plug: number): boolean =>
  build.ports[plug]?.gender === 'plug' &&
  BOTH_ENDS.includes(build.parts[build.partOf[plug] ?? NOWHERE]?.part.kind ?? '')

const kindOf = (build: Build, plug: number): Connector => build.ports[plug]?.connector ?? 'fan4'

const supplyLeads = (build: Build, weight: number) =>
  build.plan.supply.leads
    .filter((lead) => lead.modular && used(build, lead.id))
    .map((lead) => seat(`supply.${lead.id}`, weight))

const used = (build: Build, lead: string): boolean =>
  build.sockets.some(
    (s) => refOf(build, s).startsWith(`supply.${lead}.`) && (build.plugIn[s] ?? NOWHERE) >= 0,
  )

const jointMode = (code: number) => (build: Build, at: string) => {
  const plug = portAt(build, at)
  return plug === undefined ? undefined : (world: World) => seatBadly(world, plug, code)
}

const byConnector = (build: Build, weights: Readonly<Partial<Record<Connector, number>>>) =>
  wiredPlugs(build).flatMap((plug) => {
    const weight = weights[kindOf(build, plug)]
    return weight === undefined ? [] : [seat(refOf(build, plug), weight)]
  })

export const jointFaults: readonly FaultEntry[] = [
  {
    mode: 'unplugged',
    family: 'connection',
    seats: (build) => [...byConnector(build, SLIPS), ...supplyLeads(build, 0.6)],
    plant: (build, at) => {
      const lead = supplyLeadAt(build, at)
      if (lead >= 0) return (world) => seatAtSupply(world, lead, SUPPLY_END_OUT)
      const plug = portAt(build, at)
      return plug === undefined ? undefined : (world) => pull(world, plug)
    },
  },
  {
    mode: 'loose',
    family: 'connection',
    intermittent: true,
    seats: (build) => [
      ...wiredPlugs(build).map((plug) => seat(refOf(build, plug), 0.6 * SLIPS[kindOf(build, plug)])),
      ...supplyLeads(build, 0.25),
    ],
    plant: (build, at) => {
      const lead = supplyLeadAt(build, at)
      if (lead >= 0) return (world) => seatAtSupply(world, lead, JOINT.loose)
      return jointMode(JOINT.loose)(build, at)
    },
  },
  {
    // Pulled out where the lead enters its own part: at the board or the supply it is still in.
    mode: 'out-at-part',
    family: 'connection',
    seats: (build) =>
      wiredPlugs(build)
        .filter((plug) => detachable(build, plug))
        .map((plug) => seat(refOf(build, plug), 0.25)),
    plant: (build, at) => {
      const plug = portAt(build, at)
      return plug !== undefined && detachable(build, plug) ? jointMode(JOINT.ownEnd)(build, at) : undefined
    },
  },
  {
    mode: 'offset',
    family: 'connection',
    seats: (build) => byConnector(build, SHIFTS),
    plant: jointMode(JOINT.offset),
  },
  {
    mode: 'reversed',
    family: 'connection',
    seats: (build) => byConnector(build, TURNS),
    plant: jointMode(JOINT.reversed),
  },
]
