/**
 * A plan made ready to be run: ports, conductors and parts by number instead of by name, with every way that a
 * conductor takes inside a part written into one table. Compiled once a plan; thousands of runs share it.
 */

import type { Light, Motor, Part, PartId } from '../plan/part.ts'
import type { FanHeader, LightHeader, Plan, PortRef, UsbHeader } from '../plan/plan.ts'
import { allPorts, type Conductor, type Port, portsOf } from '../plan/ports.ts'
import { modelOf } from './parts/models.ts'

export const CONDUCTORS = [
  '12V',
  '5V',
  '3V3',
  'GND',
  'TACH',
  'CONTROL',
  'DATA',
  'DATA_BACK',
  'R',
  'G',
  'B',
  'USB',
] as const satisfies readonly Conductor[]

export const conductorIndex = Object.fromEntries(CONDUCTORS.map((c, i) => [c, i])) as Record<
  Conductor,
  number
>
export const WIDTH = CONDUCTORS.length

/** No way on; or a source of its own (a header, a supply plug, an output that the part drives). */
export const NOWHERE = -1
export const SOURCE = -2
/** `partOf` for ports that are no part's. */
export const SUPPLY = -1
export const BOARD = -2

export interface BuildLight {
  readonly light: Light
  readonly plug: number
  readonly out: number
}

export type LightWay =
  | { readonly does: 'splits'; readonly from: number; readonly sockets: readonly number[] }
  | {
      readonly does: 'feeds'
      readonly order: 'series' | 'parallel' | 'separate'
      readonly sockets: readonly number[]
      /** The plug by which a light header feeds it, or how else it is told. */
      readonly host: 'usb' | 'none' | number
    }

export interface BuildPart {
  readonly part: Part
  readonly motor: Motor | undefined
  readonly motorPlug: number
  /** Where its 12 V comes in: the motor lead, or a plug of its own. */
  readonly motorPower: number
  readonly lights: readonly BuildLight[]
  readonly usbPlug: number
  /** The plug without which the part does nothing, or NOWHERE. */
  readonly power: number
  readonly tachOut: number
  readonly tachFrom: readonly number[]
  readonly light: LightWay | undefined
  readonly sockets: readonly number[]
  readonly plugs: readonly number[]
}

export interface Build {
  readonly plan: Plan
  readonly ports: readonly Port[]
  readonly portAt: ReadonlyMap<PortRef, number>
  readonly partAt: ReadonlyMap<PartId, number>
  readonly parts: readonly BuildPart[]
  /** By port: the part, SUPPLY or BOARD. */
  readonly partOf: Int32Array
  /** By port: bit c is set where the connector has conductor c. */
  readonly pins: Uint16Array
  /** `up[port * WIDTH + conductor]`: the port of the same part it comes from, NOWHERE, or SOURCE. */
  readonly up: Int32Array
  /** By plug: the planned socket, or NOWHERE. */
  readonly socketOf: Int32Array
  /** By socket: the planned plug, or NOWHERE. */
  readonly plugIn: Int32Array
  readonly plugs: readonly number[]
  readonly sockets: readonly number[]
  readonly fanHeaders: ReadonlyMap<number, FanHeader>
  readonly lightHeaders: ReadonlyMap<number, LightHeader>
  readonly usbHeaders: ReadonlyMap<number, UsbHeader>
  /** By supply socket: the number of its lead in `plan.supply.leads`, else NOWHERE. */
  readonly supplyLead: Int32Array
}

/** @throws never: a plan that was read is wired to ports that exist. */
export function compile(plan: Plan): Build {
  const ports = allPorts(plan)
  const portAt = new Map(ports.map((port, i) => [port.ref, i]))
  const at = (ref: PortRef): number => portAt.get(ref) ?? NOWHERE
  const partAt = new Map(plan.parts.map((part, i) => [part.id, i]))
  const n = ports.length
  const partOf = new Int32Array(n)
  const pins = new Uint16Array(n)
  const up = new Int32Array(n * WIDTH).fill(NOWHERE)
  const socketOf = new Int32Array(n).fill(NOWHERE)
  const plugIn = new Int32Array(n).fill(NOWHERE)
  const supplyLead = new Int32Array(n).fill(NOWHERE)

  ports.forEach((port, i) => {
    partOf[i] = port.part === 'supply' ? SUPPLY : (partAt.get(port.part) ?? BOARD)
    for (const c of port.pins) pins[i] = (pins[i] ?? 0) | (1 << conductorIndex[c])
    if ((partOf[i] ?? 0) < 0) for (const c of port.pins) up[i * WIDTH + conductorIndex[c]] = SOURCE
  })
  plan.supply.leads.forEach((lead, k) => {
    for (let p = 1; p <= lead.plugs; p++) supplyLead[at(`supply.${lead.id}.${p}`)] = k
  })
  for (const lead of plan.leads) {
    const plug = at(lead.plug)
    const socket = at(lead.socket)
    if (plug < 0 || socket < 0) continue
    socketOf[plug] = socket
    plugIn[socket] = plug
  }

  const parts = plan.parts.map((part) => compilePart(part, at, up))
  return {
    plan,
    ports,
    portAt,
    partAt,
    parts,
    partOf,
    pins,
    up,
    socketOf,
    plugIn,
    supplyLead,
    plugs: ports.flatMap((p, i) => (p.gender === 'plug' ? [i] : [])),
    sockets: ports.flatMap((p, i) => (p.gender === 'socket' ? [i] : [])),
    fanHeaders: new Map(plan.board.fanHeaders.map((h) => [at(`board.${h.id}`), h])),
    lightHeaders: new Map(plan.board.lightHeaders.map((h) => [at(`board.${h.id}`), h])),
    usbHeaders: new Map(
      plan.board.usbHeaders.flatMap((h) =>
        ports.flatMap((p, i) =>
          p.ref === `board.${h.id}` || p.ref.startsWith(`board.${h.id}.`) ? [[i, h] as const] : [],
        ),
      ),
    ),
  }
}

function compilePart(part: Part, at: (ref: PortRef) => number, up: Int32Array): BuildPart {
  const model = modelOf(part)
  const own = (name: string): number => at(`${part.id}.${name}`)
  for (const inside of model.inside(part)) {
    for (const c of inside.conductors) up[own(inside.socket) * WIDTH + conductorIndex[c]] = own(inside.from)
  }
  // Outputs that a part drives itself rather than passing on.
  if (part.kind === 'controller' && part.fanControl === 'own') {
    for (let i = 1; i <= part.fanPorts; i++) up[own(`fan${i}`) * WIDTH + conductorIndex.CONTROL] = SOURCE
  }
  const tach = model.tach?.(part)
  const role = model.light?.(part)
  const motor = part.kind === 'fan' || part.kind === 'pump' ? part.motor : undefined
  const lights = 'lights' in part ? part.lights : []
  const power = model.poweredBy?.(part)
  const names = portNames(part, at)
  return {
    part,
    motor,
    motorPlug: motor ? own('motor') : NOWHERE,
    motorPower: motor ? own(motor.feed === 'lead' ? 'motor' : 'power') : NOWHERE,
    lights: lights.map((light) => ({ light, plug: own(light.port), out: own(`${light.port}_out`) })),
    usbPlug: own('usb'),
    power: power === undefined ? NOWHERE : own(power),
    tachOut: tach ? own(tach.out) : NOWHERE,
    tachFrom: tach ? tach.from.map(own) : [],
    light: !role
      ? undefined
      : role.does === 'splits'
        ? { does: 'splits', from: own(role.from), sockets: role.sockets.map(own) }
        : {
            does: 'feeds',
            order: role.order,
            sockets: role.sockets.map(own),
            host: typeof role.host === 'string' ? role.host : own(role.host.from),
          },
    sockets: names.sockets,
    plugs: names.plugs,
  }
}

function portNames(part: Part, at: (ref: PortRef) => number): { sockets: number[]; plugs: number[] } {
  const ports = portsOf(part)
  return {
    sockets: ports.filter((p) => p.gender === 'socket').map((p) => at(p.ref)),
    plugs: ports.filter((p) => p.gender === 'plug').map((p) => at(p.ref)),
  }
}
