/** Parts that take a USB port, what they draw and which hubs stand before them; shared by the rules on USB. */
import type { Part, UsbHub } from '../plan/part.ts'
import type { PortRef } from '../plan/plan.ts'
import { partOf, type Wiring } from './wiring.ts'

export const HANDBOOK = 'USB handbook, power chapter'

export const TOPOLOGY = 'USB 2.0 specification, bus topology (from memory)'

/** Milliamps that a part takes at its own USB plug, without what hangs on it. */
export const ownMa = (part: Part): number | undefined => {
  switch (part.kind) {
    case 'usb-hub':
      return part.ownMilliamps
    case 'usb-device':
      return part.usbMilliamps
    case 'light-hub':
    case 'controller':
    case 'pump':
      return part.host === 'usb' ? part.usbMilliamps : undefined
    default:
      return undefined
  }
}

export const takers = (w: Wiring): Part[] => w.plan.parts.filter((part) => ownMa(part) !== undefined)

export const isBusHub = (part: Part | undefined): part is UsbHub =>
  part?.kind === 'usb-hub' && part.power === 'bus'

/** Parts by the socket that their 5 V runs through, as bus power. */
export function drawnAt(w: Wiring): Map<PortRef, Part[]> {
  const found = new Map<PortRef, Part[]>()
  for (const part of takers(w))
    for (const { socket } of w.trace(`${part.id}.usb`, '5V').steps)
      found.set(socket, [...(found.get(socket) ?? []), part])
  return found
}

export const ma = (parts: readonly Part[]): number => parts.reduce((sum, part) => sum + (ownMa(part) ?? 0), 0)

export const maPaths = (parts: readonly Part[]): string[] =>
  parts.map((p) => `parts.${p.id}.${p.kind === 'usb-hub' ? 'own_milliamps' : 'usb_milliamps'}`)

export const hubsAbove = (w: Wiring, part: Part): Part[] =>
  w.trace(`${part.id}.usb`, 'USB').steps.flatMap(({ socket }) => {
    const owner = w.parts.get(partOf(socket))
    return owner?.kind === 'usb-hub' ? [owner] : []
  })
