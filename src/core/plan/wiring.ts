/**
 * The leads of a plan: each from a plug to a socket that it goes into, no port taken twice. What people really do
 * although they should not (a 5 V light in a 12 V socket, a 3-pin fan on a 4-pin header) is wiring; only what does
 * not go in at all is refused.
 */
import * as z from 'zod'
import { measure, text } from './fields.ts'
import { listed } from './nearest.ts'
import { given } from './parts/form.ts'
import type { Board, Connector, PartId, Place, PlannedLead, PortRef } from './plan.ts'
import type { Port } from './ports.ts'
import { type Notebook, remark, report, shown } from './problem.ts'
import { expandReference, isRange } from './ranges.ts'
import { noSuchPort, type PortBook } from './reference.ts'
import { section } from './section.ts'
import type { Node } from './tree.ts'

const mm = measure('length, mm', 'length', { min: 1, max: 20_000 })

export const leadSchema = z.strictObject({
  from: text('the port at one end, such as F1.motor'),
  to: text('the port at the other end, such as board.SYS1'),
  mm: mm.optional(),
  length: mm.optional(),
  awg: measure('gauge', 'gauge', { min: 10, max: 36, whole: true }).optional(),
  note: text('anything worth knowing').optional(),
})

const FAMILY: Readonly<Record<Connector, string>> = {
  fan3: 'fan',
  fan4: 'fan',
  light5: 'light',
  light12: 'light',
  sata: 'SATA power',
  peripheral: 'peripheral power',
  usb2: 'USB 2 (one row)',
  'usb2-pair': 'USB 2 (both rows)',
  usb3: 'USB 3',
}

export const familyOf = (connector: Connector): string => FAMILY[connector]

export interface WiringInput {
  readonly ports: PortBook
  readonly parts: readonly PartId[]
  readonly board: Board
  /** Parts whose own entry is wrong, of whose ports nothing is known. */
  readonly failed: ReadonlySet<string>
}

interface Written {
  readonly from: string
  readonly to: string
  readonly mm?: number
  readonly awg?: number
  readonly place: Place
  readonly toPlace: Place
}

const FORM = 'PORT -> PORT, such as F1.motor -> board.SYS1'

function writtenLead(book: Notebook, node: Node): Written | undefined {
  if (node.is === 'scalar' && typeof node.value === 'string') {
    const ends = node.value.split(/->|→/)
    const [from = '', to = ''] = ends.map((end) => end.trim())
    if (ends.length === 2 && /^\S+$/.test(from) && /^\S+$/.test(to))
      return { from, to, place: node.place, toPlace: node.place }
    const todo = ends.length > 2 ? 'write each lead as an entry of its own' : 'write it in this form'
    report(book, node.place, shown(node.value), FORM, todo)
    return undefined
  }
  if (node.is !== 'map') {
    report(book, node.place, node.is === 'list' ? 'a list' : shown(node.value), FORM, 'write it in this form')
    return undefined
  }
  const { value: lead } = section(book, node, leadSchema)
  if (!lead) return undefined
  if (lead.mm !== undefined && lead.length !== undefined)
    report(book, node.place, 'both mm and length', 'one of the two', 'take one of them out')
  return {
    from: lead.from,
    to: lead.to,
    ...given('mm', lead.mm ?? lead.length),
    ...given('awg', lead.awg),
    place: node.place,
    toPlace: node.entries.get('to')?.value.place ?? node.place,
  }
}

/** One end spelled out; undefined where its range is none. */
function spelled(book: Notebook, ref: string, place: Place): string[] | undefined {
  const refs = expandReference(ref)
  if (!refs)
    report(
      book,
      place,
      shown(ref),
      'a range such as F1..F3.motor or Y1.1..3',
      'write first and last with .. between',
    )
  return refs
}

function pairs(book: Notebook, lead: Written): [string, string][] {
  const from = spelled(book, lead.from, lead.place)
  const to = spelled(book, lead.to, lead.toPlace)
  if (!from || !to) return []
  if (from.length !== to.length) {
    const found = `${from.length} ${isRange(lead.from) ? 'ports' : 'port'} to ${to.length}`
    report(book, lead.place, found, 'as many on the left as on the right', 'count both ranges')
    return []
  }
  return from.map((ref, i) => [ref, to[i] ?? ''])
}

interface Joint {
  readonly plug: Port
  readonly socket: Port
}

/** A USB plug for one row named on a header that has only one row is meant for that row. */
function onlyRow(plug: Port, socket: Port, input: WiringInput): Port {
  if (plug.connector !== 'usb2' || socket.part !== 'board') return socket
  const header = input.board.usbHeaders.find((h) => h.id === socket.name)
  return (header?.ports === 1 ? input.ports.byRef.get(`board.${header.id}.a`) : undefined) ?? socket
}

const describe = (port: Port): string => `${port.ref} (${familyOf(port.connector)} ${port.gender})`

/** Sockets of the kind that a plug needs. */
const socketsFor = (plug: Port, input: WiringInput): string[] =>
  [...input.ports.byRef.values()]
    .filter(
      (p) =>
        p.gender === 'socket' && p.part !== plug.part && familyOf(p.connector) === familyOf(plug.connector),
    )
    .map((p) => p.ref)

function joint(book: Notebook, a: Port, b: Port, lead: Written, input: WiringInput): Joint | undefined {
  if (a.gender === b.gender) {
    const todo =
      a.gender === 'plug'
        ? 'name the socket that this plug goes into'
        : 'name the plug that goes into this socket'
    report(book, lead.place, `${describe(a)} and ${describe(b)}`, 'one plug and one socket', todo)
    return undefined
  }
  const plug = a.gender === 'plug' ? a : b
  const socket = onlyRow(plug, a.gender === 'plug' ? b : a, input)
  if (plug.part === socket.part) {
    report(
      book,
      lead.place,
      `${plug.part} plugged into itself`,
      'a socket of another part',
      'name the part that it really goes to',
    )
    return undefined
  }
  if (familyOf(plug.connector) === familyOf(socket.connector)) {
    const header = input.board.usbHeaders.find(
      (h) => socket.part === 'board' && socket.name.startsWith(`${h.id}.`),
    )
    if (header?.kind === 'usb3')
      remark(
        book,
        lead.place,
        `${plug.ref}, a USB 2 plug, in ${socket.ref}, a USB 3 header`,
        'an adapter from usb3 to usb2 between them',
        'add the adapter as a part, so that it can be checked too',
      )
    return { plug, socket }
  }
  const rows = input.board.usbHeaders.find(
    (h) => socket.part === 'board' && (socket.name === h.id || socket.name.startsWith(`${h.id}.`)),
  )
  if (rows && plug.connector === 'usb2' && socket.connector !== 'usb2') {
    const names = [...input.ports.byRef.keys()].filter((ref) => ref.startsWith(`board.${rows.id}.`))
    report(
      book,
      lead.toPlace,
      `${socket.ref} for a plug of one row`,
      `the row: ${names.join(' or ')}`,
      `write ${names[0] ?? 'the row'}`,
    )
    return undefined
  }
  if (rows && plug.connector === 'usb2-pair' && rows.kind === 'usb2') {
    report(
      book,
      lead.toPlace,
      `${socket.ref} for a plug of both rows`,
      `board.${rows.id}`,
      `write board.${rows.id}`,
    )
    return undefined
  }
  const fitting = socketsFor(plug, input)
  report(
    book,
    lead.place,
    `${describe(plug)} in ${describe(socket)}`,
    `a ${familyOf(plug.connector)} socket${fitting.length > 0 ? `, such as ${listed(fitting, 4)}` : ''}`,
    'name the socket that it goes into, or put an adapter between',
  )
  return undefined
}

/** Sockets that are the same metal: a USB header and its rows. */
const sameMetal = (socket: Port, input: WiringInput): PortRef[] => {
  if (socket.part !== 'board') return [socket.ref]
  const header = input.board.usbHeaders.find(
    (h) => socket.name === h.id || socket.name.startsWith(`${h.id}.`),
  )
  if (!header) return [socket.ref]
  if (socket.name !== header.id) return [socket.ref, `board.${header.id}`]
  return [...input.ports.byRef.keys()].filter((ref) => ref === socket.ref || ref.startsWith(`${socket.ref}.`))
}

/** All leads of a plan, shorthands spelled out, in written order. */
export function readLeads(book: Notebook, nodes: readonly Node[], input: WiringInput): PlannedLead[] {
  const leads: PlannedLead[] = []
  const taken = new Map<PortRef, Place>()

  const find = (ref: string, place: Place): Port | undefined => {
    const port = input.ports.byRef.get(ref)
    if (port || input.failed.has(ref.split('.')[0] ?? '')) return port
    const { found, expected, todo } = noSuchPort(ref, input.ports, input.parts)
    report(book, place, found, expected, todo)
    return undefined
  }

  const free = (ref: PortRef, others: readonly PortRef[], place: Place): boolean => {
    const clash = others.find((other) => taken.has(other))
    const earlier = clash === undefined ? undefined : taken.get(clash)
    if (!earlier) return true
    const first = clash === ref ? '' : ` through ${clash}`
    report(
      book,
      place,
      `${ref} a second time`,
      `one lead a port (line ${earlier.line} has it already${first})`,
      'change one of the two leads, or put a splitter between',
    )
    return false
  }

  for (const node of nodes) {
    const written = writtenLead(book, node)
    if (!written) continue
    for (const [from, to] of pairs(book, written)) {
      const a = find(from, written.place)
      const b = find(to, written.toPlace)
      const made = a && b && joint(book, a, b, written, input)
      if (!made) continue
      const { plug, socket } = made
      const plugFree = free(plug.ref, [plug.ref], written.place)
      const socketFree = free(socket.ref, sameMetal(socket, input), written.place)
      if (plugFree) taken.set(plug.ref, written.place)
      if (socketFree) taken.set(socket.ref, written.place)
      if (!plugFree || !socketFree) continue
      book.places.set(`leads.${leads.length}`, written.place)
      leads.push({
        plug: plug.ref,
        socket: socket.ref,
        ...given('mm', written.mm),
        ...given('awg', written.awg),
        place: written.place,
      })
    }
  }
  return leads
}
