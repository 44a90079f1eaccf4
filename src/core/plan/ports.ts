/**
 * Which plugs and sockets a part has, with the conductors in each. One small function a kind: a new part kind
 * is one entry here and one file in `bench/parts`. The pins follow the public fan, SATA and USB pin tables;
 * `DATA_BACK` is the fourth wire by which a fan hands light data back to a hub that runs in series.
 */
import type { Adapter, Connector, Light, Motor, Part, PartId, PartKindName } from './part.ts'
import type { Board, Plan, PortRef } from './plan.ts'

export type Conductor =
  | '12V'
  | '5V'
  | '3V3'
  | 'GND'
  | 'TACH'
  | 'CONTROL'
  | 'DATA'
  | 'DATA_BACK'
  | 'R'
  | 'G'
  | 'B'
  | 'USB'

export interface Port {
  readonly ref: PortRef
  readonly part: PartId
  readonly name: string
  readonly gender: 'plug' | 'socket'
  readonly connector: Connector
  readonly pins: readonly Conductor[]
}

const FAN3: readonly Conductor[] = ['GND', '12V', 'TACH']
const FAN4: readonly Conductor[] = ['GND', '12V', 'TACH', 'CONTROL']

/** The conductors that a connector has, in pin order; the return wire of light data only where it is used. */
export const pinsOf: Readonly<Record<Connector, readonly Conductor[]>> = {
  fan3: FAN3,
  fan4: FAN4,
  light5: ['5V', 'DATA', 'GND', 'DATA_BACK'],
  light12: ['12V', 'G', 'R', 'B'],
  sata: ['3V3', '5V', '12V', 'GND'],
  peripheral: ['12V', 'GND', '5V'],
  usb2: ['5V', 'USB', 'GND'],
  'usb2-pair': ['5V', 'USB', 'GND'],
  usb3: ['5V', 'USB', 'GND'],
}

type Bare = Pick<Port, 'name' | 'gender' | 'connector'> & { pins?: readonly Conductor[] }

const plug = (name: string, connector: Connector, pins?: readonly Conductor[]): Bare => ({
  name,
  gender: 'plug',
  connector,
  ...(pins ? { pins } : {}),
})
const socket = (name: string, connector: Connector): Bare => ({ name, gender: 'socket', connector })
const sockets = (n: number, connector: Connector, prefix = ''): Bare[] =>
  Array.from({ length: n }, (_, i) => socket(`${prefix}${i + 1}`, connector))

const lightConnector = (volts: 5 | 12): Connector => (volts === 5 ? 'light5' : 'light12')

const motorPorts = (motor: Motor): Bare[] => [
  plug('motor', motor.pins === 4 ? 'fan4' : 'fan3', motor.pins === 2 ? ['GND', '12V'] : undefined),
  ...(motor.feed === 'lead' ? [] : [plug('power', motor.feed)]),
  ...(motor.passesOn ? [socket('motor_out', motor.pins === 4 ? 'fan4' : 'fan3')] : []),
]

const lightPorts = (lights: readonly Light[]): Bare[] =>
  lights.flatMap((light) => [
    plug(light.port, lightConnector(light.volts)),
    ...(light.passesOn ? [socket(`${light.port}_out`, lightConnector(light.volts))] : []),
  ])

const hostPort = (host: 'usb' | 'header' | 'none', volts: 5 | 12, name = 'in'): Bare[] =>
  host === 'usb' ? [plug('usb', 'usb2')] : host === 'header' ? [plug(name, lightConnector(volts))] : []

const adapterPorts = (adapter: Adapter): Bare[] => [
  plug('in', adapter.from),
  ...(adapter.outs === 1 ? [socket('out', adapter.to)] : sockets(adapter.outs, adapter.to, 'out')),
]

const bare: { [K in PartKindName]: (part: Extract<Part, { kind: K }>) => Bare[] } = {
  fan: (p) => [...(p.motor ? motorPorts(p.motor) : []), ...lightPorts(p.lights)],
  pump: (p) => [
    ...motorPorts(p.motor),
    ...(p.host === 'usb' ? [plug('usb', 'usb2')] : []),
    ...lightPorts(p.lights),
  ],
  strip: (p) => lightPorts(p.lights),
  'fan-splitter': (p) => [
    plug('in', p.passesControl ? 'fan4' : 'fan3'),
    ...sockets(p.ways, p.passesControl ? 'fan4' : 'fan3'),
  ],
  'fan-hub': (p) => [
    plug('in', p.passesControl ? 'fan4' : 'fan3'),
    ...(p.power === 'header' ? [] : [plug('power', p.power)]),
    ...sockets(p.ports, p.passesControl ? 'fan4' : 'fan3'),
  ],
  'light-hub': (p) => [
    ...(p.power === 'header' ? [] : [plug('power', p.power)]),
    ...hostPort(p.host, p.volts),
    ...sockets(p.ports, lightConnector(p.volts)),
  ],
  controller: (p) => [
    plug('power', p.power),
    ...hostPort(p.host, p.volts, 'light_in'),
    ...(p.fanControl === 'header' ? [plug('in', 'fan4')] : []),
    ...sockets(p.fanPorts, 'fan4', 'fan'),
    ...sockets(p.lightPorts, lightConnector(p.volts), 'light'),
  ],
  'light-splitter': (p) => [plug('in', lightConnector(p.volts)), ...sockets(p.ways, lightConnector(p.volts))],
  'usb-hub': (p) => [
    plug('usb', 'usb2'),
    ...(p.power === 'bus' ? [] : [plug('power', p.power)]),
    ...sockets(p.ports, 'usb2'),
  ],
  adapter: adapterPorts,
  'usb-device': (p) => [plug('usb', p.ports === 2 ? 'usb2-pair' : 'usb2')],
}

const finish = (part: PartId, ports: readonly Bare[]): Port[] =>
  ports.map((port) => ({
    ref: `${part}.${port.name}`,
    part,
    name: port.name,
    gender: port.gender,
    connector: port.connector,
    pins: port.pins ?? pinsOf[port.connector],
  }))

/** The plugs and sockets of one part, in the order in which a person would name them. */
export const portsOf = (part: Part): Port[] =>
  finish(part.id, (bare[part.kind] as (part: Part) => Bare[])(part))

/** The ports of one USB header: `U1.a`, `U1.b`, …; the header itself (`U1`) takes a plug over both rows. */
export const usbPortNames = (header: { readonly id: string; readonly ports: number }): string[] =>
  Array.from({ length: header.ports }, (_, i) => `${header.id}.${String.fromCharCode(97 + i)}`)

/** What kind of header of the board a name stands for, or a row of one; undefined where the board has none of it. */
export function headerKindOf(board: Board, name: string): 'fan' | 'light' | 'usb' | undefined {
  if (board.fanHeaders.some((h) => h.id === name)) return 'fan'
  if (board.lightHeaders.some((h) => h.id === name)) return 'light'
  return board.usbHeaders.some((h) => name === h.id || name.startsWith(`${h.id}.`)) ? 'usb' : undefined
}

/** Every port of a build: supply, board and parts, in the plan's order. */
export function allPorts(plan: Pick<Plan, 'supply' | 'board' | 'parts'>): Port[] {
  const { supply, board } = plan
  return [
    ...finish(
      'supply',
      supply.leads.flatMap((lead) => sockets(lead.plugs, lead.kind, `${lead.id}.`)),
    ),
    ...finish('board', [
      ...board.fanHeaders.map((h) => socket(h.id, h.pins === 4 ? 'fan4' : 'fan3')),
      ...board.lightHeaders.map((h) => socket(h.id, lightConnector(h.volts))),
      ...board.usbHeaders.flatMap((h) => [
        socket(h.id, h.kind === 'usb3' ? 'usb3' : 'usb2-pair'),
        ...usbPortNames(h).map((name) => socket(name, 'usb2')),
      ]),
    ]),
    ...plan.parts.flatMap(portsOf),
  ]
}
