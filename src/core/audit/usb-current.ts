/** Current over USB: headers, hubs and devices against what a port gives. */

import { isOver, SAGS_UP_TO } from '../electrics/overload.ts'
import { busHubPorts, portMa, UNIT_LOAD_MA } from '../electrics/usb-budget.ts'
import { usbPortNames } from '../plan/ports.ts'
import type { Rule } from './finding.ts'
import { drawnAt, HANDBOOK, hubsAbove, isBusHub, ma, maPaths, ownMa, takers } from './usb-takers.ts'

export const usbCurrent: readonly Rule[] = [
  {
    id: 'usb-header-over-current',
    severity: 'may-not-work',
    unit: 'mA',
    source: `${HANDBOOK}; limit as the plan gives it`,
    *find(w) {
      const drawn = drawnAt(w)
      for (const header of w.plan.board.usbHeaders) {
        const rows = usbPortNames(header).map((name) => `board.${name}`)
        const both = drawn.get(`board.${header.id}`) ?? []
        const groups = [
          [`board.${header.id}`, both, header.milliamps * header.ports] as const,
          ...rows.map((r) => [r, drawn.get(r) ?? [], header.milliamps] as const),
        ]
        for (const [ref, parts, limit] of groups) {
          const figure = ma(parts)
          if (isOver(figure, limit))
            yield {
              refs: [ref, ...parts.map((p) => p.id)],
              severity: isOver(figure, limit * SAGS_UP_TO) ? 'will-not-work' : 'may-not-work',
              figure,
              limit,
              facts: { at: ref, parts: parts.map((p) => p.id) },
              rests: [`board.usb_headers.${header.id}.milliamps`, ...maPaths(parts)],
            }
        }
      }
    },
  },
  {
    id: 'usb-hub-port-over-current',
    severity: 'will-not-work',
    unit: 'mA',
    source: `${HANDBOOK}: 100 mA a port of a bus-powered hub, 500 mA of one with its own supply`,
    *find(w) {
      const drawn = drawnAt(w)
      for (const hub of w.plan.parts) {
        if (hub.kind !== 'usb-hub') continue
        for (let i = 1; i <= hub.ports; i++) {
          const socket = `${hub.id}.${i}`
          // what a bus-powered hub takes from the bus runs through here too; a fed hub's ports come from its own plug
          const parts = takers(w).filter((p) => w.trace(`${p.id}.usb`, '5V').steps[0]?.socket === socket)
          const figure = ma(isBusHub(hub) ? (drawn.get(socket) ?? []) : parts)
          if (isOver(figure, hub.portMilliamps))
            yield {
              refs: [socket, ...parts.map((p) => p.id)],
              figure,
              limit: hub.portMilliamps,
              facts: { at: socket, parts: parts.map((p) => p.id) },
              rests: [`parts.${hub.id}.port_milliamps`, ...maPaths(parts)],
            }
        }
      }
    },
  },
  {
    id: 'usb-bus-hub-over-budget',
    severity: 'will-not-work',
    unit: 'mA',
    source: `${HANDBOOK}: 500 mA in all for a bus-powered hub with all that hangs on it`,
    *find(w) {
      const drawn = drawnAt(w)
      for (const hub of w.plan.parts) {
        if (!isBusHub(hub)) continue
        const on = Array.from({ length: hub.ports }, (_, i) => drawn.get(`${hub.id}.${i + 1}`) ?? []).flat()
        const figure = hub.ownMilliamps + ma(on)
        const port = w.trace(`${hub.id}.usb`, '5V').steps.at(-1)?.socket
        if (isOver(figure, portMa('usb2')))
          yield {
            refs: [hub.id, ...on.map((p) => p.id)],
            figure,
            limit: portMa('usb2'),
            facts: { part: hub.id, parts: on.map((p) => p.id), ...(port ? { at: port } : {}) },
            rests: [`parts.${hub.id}.own_milliamps`, ...maPaths(on)],
          }
      }
    },
  },
  {
    id: 'usb-bus-hubs-chained',
    severity: 'may-not-work',
    source: `${HANDBOOK}: no bus-powered hub behind another`,
    *find(w) {
      for (const part of w.plan.parts) {
        const [above] = hubsAbove(w, part)
        if (isBusHub(part) && isBusHub(above))
          yield { refs: [`${part.id}.usb`, above.id], facts: { part: part.id, above: above.id } }
      }
    },
  },
  {
    id: 'usb-bus-hub-ports',
    severity: 'may-not-work',
    unit: 'ports',
    source: `${HANDBOOK}: five unit loads less the hub's own`,
    *find(w) {
      for (const part of w.plan.parts) {
        if (!isBusHub(part)) continue
        const figure = Array.from({ length: part.ports }, (_, i) => w.plugIn(`${part.id}.${i + 1}`)).filter(
          Boolean,
        ).length
        if (figure > busHubPorts())
          yield { refs: [part.id], figure, limit: busHubPorts(), facts: { part: part.id } }
      }
    },
  },
  {
    id: 'usb-device-over-port',
    severity: 'may-not-work',
    unit: 'mA',
    source: `${HANDBOOK}: 500 mA for one configured device`,
    *find(w) {
      for (const part of takers(w)) {
        const figure = ownMa(part) ?? 0
        const limit = portMa('usb2') * (part.kind === 'usb-device' ? part.ports : 1)
        if (isOver(figure, limit)) yield { refs: [`${part.id}.usb`], figure, limit, facts: { part: part.id } }
      }
    },
  },
  {
    id: 'usb-hub-under-unit-load',
    severity: 'untidy',
    unit: 'mA',
    source: `${HANDBOOK}: a port gives at least one unit load`,
    *find(w) {
      for (const part of w.plan.parts)
        if (part.kind === 'usb-hub' && isOver(UNIT_LOAD_MA.usb2, part.portMilliamps))
          yield {
            refs: [part.id],
            figure: part.portMilliamps,
            limit: UNIT_LOAD_MA.usb2,
            facts: { part: part.id },
          }
    },
  },
]
