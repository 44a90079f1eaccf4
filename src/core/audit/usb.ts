/** USB: ports, current and depth on the way from each lighting or fan controller to the board. */
import { isOver } from '../electrics/overload.ts'
import {
  busHubPorts,
  hubsBetweenAtMost,
  MOST_TIERS,
  portMa,
  tierOf,
  UNIT_LOAD_MA,
} from '../electrics/usb-budget.ts'
import type { Part, PortRef, UsbHub } from '../plan/plan.ts'
import type { Family } from './finding.ts'
import { partOf, type Wiring } from './wiring.ts'

const HANDBOOK = 'USB handbook, power chapter'
const TOPOLOGY = 'USB 2.0 specification, bus topology (from memory)'

/** Milliamps that a part takes at its own USB plug, without what hangs on it. */
const ownMa = (part: Part): number | undefined => {
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

const isBusHub = (part: Part | undefined): part is UsbHub => part?.kind === 'usb-hub' && part.power === 'bus'

/** Parts by the socket that their 5 V runs through, as bus power. */
function drawnAt(w: Wiring): Map<PortRef, Part[]> {
  const found = new Map<PortRef, Part[]>()
  for (const part of takers(w))
    for (const { socket } of w.trace(`${part.id}.usb`, '5V').steps)
      found.set(socket, [...(found.get(socket) ?? []), part])
  return found
}

const ma = (parts: readonly Part[]): number => parts.reduce((sum, part) => sum + (ownMa(part) ?? 0), 0)
const maPaths = (parts: readonly Part[]): string[] =>
  parts.map((p) => `parts.${p.id}.${p.kind === 'usb-hub' ? 'own_milliamps' : 'usb_milliamps'}`)

const hubsAbove = (w: Wiring, part: Part): Part[] =>
  w.trace(`${part.id}.usb`, 'USB').steps.flatMap(({ socket }) => {
    const owner = w.parts.get(partOf(socket))
    return owner?.kind === 'usb-hub' ? [owner] : []
  })

export const usb: Family = {
  family: 'usb',
  rules: [
    {
      id: 'usb-header-over-current',
      severity: 'may-not-work',
      unit: 'mA',
      source: `${HANDBOOK}; limit as the plan gives it`,
      *find(w) {
        const drawn = drawnAt(w)
        for (const header of w.plan.board.usbHeaders) {
          const rows = [...w.ports.values()].filter((p) => p.ref.startsWith(`board.${header.id}.`))
          const both = drawn.get(`board.${header.id}`) ?? []
          const groups = [
            [`board.${header.id}`, both, header.milliamps * header.ports] as const,
            ...rows.map((r) => [r.ref, drawn.get(r.ref) ?? [], header.milliamps] as const),
          ]
          for (const [ref, parts, limit] of groups) {
            const figure = ma(parts)
            if (isOver(figure, limit))
              yield {
                refs: [ref, ...parts.map((p) => p.id)],
                severity: isOver(figure, limit * 1.25) ? 'will-not-work' : 'may-not-work',
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
          if (isOver(figure, portMa('usb2')))
            yield {
              refs: [hub.id, ...on.map((p) => p.id)],
              figure,
              limit: portMa('usb2'),
              facts: { part: hub.id, parts: on.map((p) => p.id) },
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
      id: 'usb-too-deep',
      severity: 'will-not-work',
      unit: 'tiers',
      source: TOPOLOGY,
      *find(w) {
        for (const part of takers(w)) {
          const hubs = hubsAbove(w, part)
          if (hubs.length > hubsBetweenAtMost())
            yield {
              refs: [`${part.id}.usb`, ...hubs.map((h) => h.id)],
              figure: tierOf(hubs.length),
              limit: MOST_TIERS,
              facts: { part: part.id, hubs: hubs.map((h) => h.id) },
            }
        }
      },
    },
    {
      id: 'usb-passive-split',
      severity: 'will-not-work',
      unit: 'ports',
      source: 'desktop-board manual, USB 2.0 header table: one pair of data wires a port (deduced)',
      *find(w) {
        for (const part of w.plan.parts) {
          if (part.kind !== 'adapter' || part.from !== 'usb2') continue
          const outs = (w.portsOf.get(part.id) ?? []).filter((p) => p.gender === 'socket')
          const rows = part.to === 'usb2-pair' ? 2 : part.to === 'usb2' ? outs.length : 0
          if (rows > 1)
            yield {
              refs: [part.id, ...outs.map((p) => p.ref)],
              figure: rows,
              limit: 1,
              facts: { part: part.id },
            }
        }
      },
    },
    {
      id: 'usb-header-over-split',
      severity: 'will-not-work',
      unit: 'ports',
      source: 'desktop-board manual, USB 2.0 header table: two ports a header (deduced)',
      *find(w) {
        for (const part of w.plan.parts) {
          if (part.kind !== 'adapter' || (part.from !== 'usb2-pair' && part.from !== 'usb3')) continue
          const outs = (w.portsOf.get(part.id) ?? []).filter((p) => p.gender === 'socket')
          const rows = outs.length * (part.to === 'usb2-pair' ? 2 : part.to === 'usb2' ? 1 : 0)
          if (rows > 2)
            yield {
              refs: [part.id, ...outs.map((p) => p.ref)],
              figure: rows,
              limit: 2,
              facts: { part: part.id },
            }
        }
      },
    },
    {
      id: 'usb-3-header-bare',
      severity: 'may-not-work',
      source: 'pinout reference: 19 pins against 9; an adapter brings the two USB 2 pairs out',
      *find(w) {
        for (const header of w.plan.board.usbHeaders) {
          if (header.kind !== 'usb3') continue
          for (const { plug, socket } of w.plan.leads)
            if (socket.startsWith(`board.${header.id}`) && w.ports.get(plug)?.connector === 'usb2')
              yield { refs: [plug, socket], facts: { plug, at: `board.${header.id}` } }
        }
      },
    },
    {
      id: 'usb-port-off',
      severity: 'will-not-work',
      source: 'the plan’s own settings',
      *find(w) {
        for (const [port, { enabled }] of Object.entries(w.plan.settings.ports)) {
          if (enabled) continue
          const cut = takers(w).filter((p) =>
            w
              .trace(`${p.id}.usb`, 'USB')
              .steps.some((s) => s.socket === port || s.socket.startsWith(`${port}.`)),
          )
          if (cut.length > 0)
            yield {
              refs: [`ports/${port}/enabled`, port, ...cut.map((p) => p.id)],
              facts: { at: port, parts: cut.map((p) => p.id) },
            }
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
          if (isOver(figure, limit))
            yield { refs: [`${part.id}.usb`], figure, limit, facts: { part: part.id } }
        }
      },
    },
    {
      id: 'usb-lead-missing',
      severity: 'may-not-work',
      source: `${HANDBOOK}: what is not plugged in is not listed`,
      *find(w) {
        for (const part of takers(w))
          if ((part.kind === 'usb-hub' || part.kind === 'usb-device') && !w.leadAt(`${part.id}.usb`))
            yield {
              refs: [`${part.id}.usb`],
              severity: part.kind === 'usb-hub' ? 'will-not-work' : 'untidy',
              facts: { part: part.id },
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
  ],
}
