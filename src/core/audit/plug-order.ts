/**
 * The order in which the leads of a plan are plugged, and looked at before the first power-on: fans and lights go into
 * their hubs first, hubs into headers next, USB then, and supply plugs last, so that nothing has power while hands are
 * in the case.
 */
import type { Connector } from '../plan/part.ts'
import type { Plan, PlannedLead } from '../plan/plan.ts'
import type { Conductor } from '../plan/ports.ts'
import { wire } from './wiring.ts'

export type Line = 'supply' | 'motor' | 'light' | 'usb'

export const lineOf = (connector: Connector | undefined): Line => {
  switch (connector) {
    case 'fan3':
    case 'fan4':
      return 'motor'
    case 'light5':
    case 'light12':
      return 'light'
    case 'sata':
    case 'peripheral':
      return 'supply'
    default:
      return 'usb'
  }
}

export interface OrderedLead {
  readonly lead: PlannedLead
  readonly line: Line
}

/** In the order in which they are plugged. */
export const LINES: readonly Line[] = ['motor', 'light', 'usb', 'supply']

/** The conductor that leads inward. */
const INWARD: Readonly<Record<Line, Conductor>> = {
  motor: 'CONTROL',
  light: 'DATA',
  usb: 'USB',
  supply: 'GND',
}

/** By kind, from the leaves inward, then as in the plan. */
export function plugOrder(plan: Plan): readonly OrderedLead[] {
  const w = wire(plan)
  return plan.leads
    .map((lead, i) => {
      const line = lineOf(w.ports.get(lead.plug)?.connector)
      return { lead, i, line, depth: w.trace(lead.plug, INWARD[line]).steps.length }
    })
    .sort((a, b) => LINES.indexOf(a.line) - LINES.indexOf(b.line) || b.depth - a.depth || a.i - b.i)
    .map(({ lead, line }) => ({ lead, line }))
}
