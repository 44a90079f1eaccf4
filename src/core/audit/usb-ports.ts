/** Ports and depth of USB: what cannot be split, is turned off, too deep or not plugged in. */
import { hubsBetweenAtMost, MOST_TIERS, tierOf } from '../electrics/usb-budget.ts'
import type { Rule } from './finding.ts'
import { HANDBOOK, hubsAbove, TOPOLOGY, takers } from './usb-takers.ts'
import { partOf } from './wiring.ts'

export const usbPorts: readonly Rule[] = [
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
    id: 'usb-ports-short',
    severity: 'will-not-work',
    unit: 'ports',
    source: 'desktop-board manual, USB 2.0 header table: two ports a header (deduced)',
    *find(w) {
      const { usbHeaders } = w.plan.board
      const hubs = w.plan.parts.filter((p) => p.kind === 'usb-hub')
      const offered = [...usbHeaders, ...hubs].reduce((sum, from) => sum + from.ports, 0)
      const needed = takers(w).reduce((sum, part) => sum + (part.kind === 'usb-device' ? part.ports : 1), 0)
      if (usbHeaders.length > 0 && needed > offered)
        yield {
          refs: [...takers(w).map((p) => `${p.id}.usb`), ...usbHeaders.map((h) => `board.${h.id}`)],
          figure: needed,
          limit: offered,
          facts: { parts: takers(w).map((p) => p.id) },
        }
    },
  },
  {
    id: 'usb-row-missing',
    severity: 'may-not-work',
    unit: 'ports',
    source: 'desktop-board manual, USB 2.0 header table: one row of pins a port (deduced)',
    *find(w) {
      for (const { plug, socket } of w.plan.leads) {
        const part = w.parts.get(partOf(plug))
        const header = w.plan.board.usbHeaders.find((h) => socket === `board.${h.id}`)
        if (part?.kind === 'usb-device' && header && part.ports > header.ports)
          yield {
            refs: [plug, socket],
            figure: part.ports,
            limit: header.ports,
            facts: { part: part.id, at: socket },
          }
      }
    },
  },
  {
    id: 'usb-port-set-twice',
    severity: 'may-not-work',
    source: 'the plan’s own settings',
    *find(w) {
      const { ports } = w.plan.settings
      for (const [port, { enabled }] of Object.entries(ports))
        for (const [row, other] of Object.entries(ports))
          if (row.startsWith(`${port}.`) && other.enabled !== enabled)
            yield {
              refs: [`ports/${port}/enabled`, `ports/${row}/enabled`],
              facts: { one: port, other: row, off: enabled ? row : port },
            }
    },
  },
]
