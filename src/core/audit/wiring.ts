/**
 * A plan as the rules need it: what is pushed into what, where each conductor of a motor or a light comes from,
 * and what hangs on each socket. Built once an audit. What a part passes on inside comes from the part models
 * of the bench, so a new kind of part is known here without a word.
 */
import { modelOf } from '../bench/parts/models.ts'
import type { Light, Motor, Part, PartId } from '../plan/part.ts'
import type { FanHeader, Plan, PlannedLead, PortRef, SupplyLead } from '../plan/plan.ts'
import { allPorts, type Conductor, type Port } from '../plan/ports.ts'

export interface MotorAt {
  readonly part: PartId
  readonly motor: Motor
  /** `F1.motor`. */
  readonly plug: PortRef
  /** Where its 12 V comes in: the motor lead or a supply plug of its own. */
  readonly feed: PortRef
}
export interface LightAt {
  readonly part: PartId
  readonly light: Light
  readonly plug: PortRef
}
export interface Step {
  readonly lead: PlannedLead
  readonly socket: PortRef
}
/** The way of one conductor from a plug up to where it comes from. */
export interface Trace {
  readonly steps: readonly Step[]
  /** A header, a supply plug or an output that a part drives; an end in the air; a part that does not pass it on; a circle. */
  readonly end: 'source' | 'open' | 'stopped' | 'loop'
  /** The last plug or socket reached. */
  readonly at: PortRef
}
export interface Load {
  readonly motors: readonly MotorAt[]
  readonly lights: readonly LightAt[]
}

export interface Wiring {
  readonly plan: Plan
  readonly ports: ReadonlyMap<PortRef, Port>
  readonly parts: ReadonlyMap<PartId, Part>
  readonly portsOf: ReadonlyMap<PartId, readonly Port[]>
  readonly motors: readonly MotorAt[]
  readonly lights: readonly LightAt[]
  leadAt(plug: PortRef): PlannedLead | undefined
  plugIn(socket: PortRef): PortRef | undefined
  /** The port of the same part from which a socket gets a conductor. */
  inside(socket: PortRef, conductor: Conductor): PortRef | undefined
  trace(plug: PortRef, conductor: Conductor): Trace
  /** The fan header that a port is. */
  fanHeader(port: PortRef): FanHeader | undefined
  /** The supply lead that a socket is on. */
  supplyLead(socket: PortRef): SupplyLead | undefined
  /** What draws its supply through a socket. */
  load(socket: PortRef): Load
  /** Motors whose supply, control or tach runs through a socket. */
  motorsOn(socket: PortRef): readonly MotorAt[]
  /** Motors whose tach reaches a socket. */
  tachsOn(socket: PortRef): readonly MotorAt[]
}

const NOTHING: Load = { motors: [], lights: [] }

export const partOf = (ref: PortRef): PartId => ref.slice(0, ref.indexOf('.'))

/** The plan with what every rule asks of it: who hangs on what, along which leads, and what runs there. */
export function wire(plan: Plan): Wiring {
  const all = allPorts(plan)
  const ports = new Map(all.map((port) => [port.ref, port]))
  const parts = new Map(plan.parts.map((part) => [part.id, part]))
  const portsOf = new Map<PartId, Port[]>()
  for (const port of all) portsOf.set(port.part, [...(portsOf.get(port.part) ?? []), port])
  const leads = new Map(plan.leads.map((lead) => [lead.plug, lead]))
  const plugs = new Map(plan.leads.map((lead) => [lead.socket, lead.plug]))
  const headers = new Map(plan.board.fanHeaders.map((h) => [`board.${h.id}`, h]))
  const supply = new Map<PortRef, SupplyLead>(
    plan.supply.leads.flatMap((lead) =>
      Array.from({ length: lead.plugs }, (_, i) => [`supply.${lead.id}.${i + 1}`, lead] as const),
    ),
  )
  const inside: Inside = new Map()
  for (const part of plan.parts) addInside(part, inside)

  // Many rules ask for the same way; it is followed once.
  const traced = new Map<Conductor, Map<PortRef, Trace>>()
  const trace = (plug: PortRef, conductor: Conductor): Trace => {
    const known = traced.get(conductor) ?? new Map<PortRef, Trace>()
    traced.set(conductor, known)
    const before = known.get(plug)
    if (before) return before
    const found = follow(plug, conductor)
    known.set(plug, found)
    return found
  }
  const follow = (plug: PortRef, conductor: Conductor): Trace => {
    const steps: Step[] = []
    const through = inside.get(conductor)
    let at = plug
    for (;;) {
      const lead = leads.get(at)
      if (!lead) return { steps, end: 'open', at }
      const { socket } = lead
      if (steps.some((step) => step.socket === socket)) return { steps, end: 'loop', at: socket }
      steps.push({ lead, socket })
      const next = through?.get(socket)
      if (next === undefined) {
        const driven = !parts.has(partOf(socket)) || drives(parts.get(partOf(socket)), socket, conductor)
        return { steps, end: driven ? 'source' : 'stopped', at: socket }
      }
      at = next
    }
  }

  const motors: MotorAt[] = []
  const lights: LightAt[] = []
  for (const part of plan.parts) {
    if ((part.kind === 'fan' || part.kind === 'pump') && part.motor)
      motors.push({
        part: part.id,
        motor: part.motor,
        plug: `${part.id}.motor`,
        feed: `${part.id}.${part.motor.feed === 'lead' ? 'motor' : 'power'}`,
      })
    if ('lights' in part)
      for (const light of part.lights) lights.push({ part: part.id, light, plug: `${part.id}.${light.port}` })
  }

  const loads = new Map<PortRef, { motors: MotorAt[]; lights: LightAt[] }>()
  const loadAt = (socket: PortRef) => {
    const found = loads.get(socket) ?? { motors: [], lights: [] }
    loads.set(socket, found)
    return found
  }
  const on = new Map<PortRef, Set<MotorAt>>()
  const tachs = new Map<PortRef, MotorAt[]>()
  for (const motor of motors) {
    const power = trace(motor.feed, '12V').steps
    const control = trace(motor.plug, 'CONTROL').steps
    const tach = trace(motor.plug, 'TACH').steps
    for (const { socket } of power) loadAt(socket).motors.push(motor)
    for (const { socket } of [...power, ...control, ...tach])
      on.set(socket, (on.get(socket) ?? new Set()).add(motor))
    for (const { socket } of tach) tachs.set(socket, [...(tachs.get(socket) ?? []), motor])
  }
  for (const light of lights)
    for (const { socket } of trace(light.plug, light.light.volts === 5 ? '5V' : '12V').steps)
      loadAt(socket).lights.push(light)

  return {
    plan,
    ports,
    parts,
    portsOf,
    motors,
    lights,
    leadAt: (plug) => leads.get(plug),
    plugIn: (socket) => plugs.get(socket),
    inside: (socket, conductor) => inside.get(conductor)?.get(socket),
    trace,
    fanHeader: (port) => headers.get(port),
    supplyLead: (socket) => supply.get(socket),
    load: (socket) => loads.get(socket) ?? NOTHING,
    motorsOn: (socket) => [...(on.get(socket) ?? [])],
    tachsOn: (socket) => tachs.get(socket) ?? [],
  }
}

/** By conductor: from a socket to the port of the same part that it gets it from. */
type Inside = Map<Conductor, Map<PortRef, PortRef>>

function addInside(part: Part, inside: Inside): void {
  const model = modelOf(part)
  const add = (conductor: Conductor, socket: string, from: string): void => {
    const ways = inside.get(conductor) ?? new Map<PortRef, PortRef>()
    inside.set(conductor, ways.set(`${part.id}.${socket}`, `${part.id}.${from}`))
  }
  for (const { socket, from, conductors } of model.inside(part))
    for (const conductor of conductors) add(conductor, socket, from)
  const tach = model.tach?.(part)
  for (const socket of tach?.from ?? []) add('TACH', socket, `${tach?.out}`)
  const light = model.light?.(part)
  const data = !light
    ? undefined
    : light.does === 'splits'
      ? light.from
      : typeof light.host === 'string'
        ? undefined
        : light.host.from
  if (light && data !== undefined) for (const socket of light.sockets) add('DATA', socket, data)
  if ('lights' in part)
    for (const light of part.lights) if (light.passesOn) add('DATA', `${light.port}_out`, light.port)
}

/** Whether a part makes this conductor itself at one of its sockets. */
function drives(part: Part | undefined, socket: PortRef, conductor: Conductor): boolean {
  if (!part) return false
  const name = socket.slice(part.id.length + 1)
  switch (part.kind) {
    case 'controller':
      if (conductor === 'DATA') return name.startsWith('light') && part.host !== 'header'
      return (
        (conductor === 'CONTROL' || conductor === 'TACH') &&
        part.fanControl === 'own' &&
        name.startsWith('fan')
      )
    case 'light-hub':
      return conductor === 'DATA' && part.host !== 'header'
    default:
      return false
  }
}
