/** Whether two ports can be joined: one plug, one socket, of the same kind, and which row of a USB header is meant. */
import type { Written } from './lead-line.ts'
import { listed } from './nearest.ts'
import type { Connector, PartId } from './part.ts'
import type { Board, PortRef } from './plan.ts'
import type { Port } from './ports.ts'
import { type Notebook, report } from './problem.ts'
import type { PortBook } from './reference.ts'

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

export interface Joint {
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

/** The joint that a lead makes; undefined where it cannot be made. */
export function joint(
  book: Notebook,
  a: Port,
  b: Port,
  lead: Written,
  input: WiringInput,
): Joint | undefined {
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
  if (familyOf(plug.connector) === familyOf(socket.connector)) return { plug, socket }
  const rows = input.board.usbHeaders.find(
    (h) => socket.part === 'board' && (socket.name === h.id || socket.name.startsWith(`${h.id}.`)),
  )
  if (rows && plug.connector === 'usb2' && socket.connector !== 'usb2') {
    const names = [...input.ports.byRef.keys()].filter((ref) => ref.startsWith(`board.${rows.id}.`))
    const bare = rows.kind === 'usb3'
    report(
      book,
      lead.toPlace,
      `${socket.ref} for a plug of one row`,
      bare ? 'an adapter from usb3 to usb2 between them' : `the row: ${names.join(' or ')}`,
      bare ? 'add the adapter as a part, its plug in this header' : `write ${names[0] ?? 'the row'}`,
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
export const sameMetal = (socket: Port, input: WiringInput): PortRef[] => {
  if (socket.part !== 'board') return [socket.ref]
  const header = input.board.usbHeaders.find(
    (h) => socket.name === h.id || socket.name.startsWith(`${h.id}.`),
  )
  if (!header) return [socket.ref]
  if (socket.name !== header.id) return [socket.ref, `board.${header.id}`]
  return [...input.ports.byRef.keys()].filter((ref) => ref === socket.ref || ref.startsWith(`${socket.ref}.`))
}
