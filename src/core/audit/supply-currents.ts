/** Currents of the supply: each plug, rail and lead, the whole, and adapters that are weaker than they look. */
import { MIXED_SHARE } from '../electrics/led-current.ts'
import { isOver, rounded, SAGS_UP_TO } from '../electrics/overload.ts'
import { plugRailAmps } from '../electrics/supply-plugs.ts'
import type { PortRef } from '../plan/plan.ts'
import type { Hit, Rule } from './finding.ts'
import {
  LABELS,
  lightAmps,
  loadAmps,
  loadEach,
  loadOf,
  loadPaths,
  motorAmps,
  onRail,
  rests,
  sum,
} from './loads.ts'
import { type Load, partOf, type Wiring } from './wiring.ts'

function* plugOver(w: Wiring, kind: 'sata' | 'peripheral'): Generator<Hit> {
  const limit = plugRailAmps(kind)
  for (const socket of w.ports.values()) {
    if (socket.connector !== kind || socket.gender !== 'socket') continue
    for (const rail of [12, 5] as const) {
      const load = onRail(w.load(socket.ref), rail)
      const figure = loadAmps(load)
      if (!isOver(figure, limit)) continue
      yield {
        refs: [socket.ref, ...new Set([...load.motors, ...load.lights].map((x) => x.part))],
        // A rating stands for 30 °C of warming, which goes with the square of the current: a quarter over makes it 47 °C.
        severity:
          isOver(figure, limit * SAGS_UP_TO) && isOver(rail === 5 ? figure * MIXED_SHARE : figure, limit)
            ? 'will-damage'
            : 'may-not-work',
        figure,
        limit,
        facts: { at: socket.ref, rail: `${rail} V`, ...dimming(load, limit) },
        rests: rests(w, loadPaths(load), loadEach(load), { limit, limitPath: '' }),
      }
    }
  }
}

/** What lights take in mixed colours, and the brightness at which the limit is kept. */
function dimming({ motors, lights }: Load, limit: number) {
  const [fans, white] = [motorAmps(motors), lightAmps(lights)]
  if (lights.length === 0) return {}
  return {
    mixed: Math.round(rounded((fans + white * MIXED_SHARE) * 100)) / 100,
    ...(limit > fans ? { percent: Math.floor(rounded(((limit - fans) / white) * 100)) } : {}),
  }
}

function* supplyLeadOver(w: Wiring): Generator<Hit> {
  for (const lead of w.plan.supply.leads) {
    const sockets = Array.from({ length: lead.plugs }, (_, i) => `supply.${lead.id}.${i + 1}`)
    for (const [rail, limit, field] of [
      [12, lead.amps12, 'amps_12v'],
      [5, lead.amps5, 'amps_5v'],
    ] as const) {
      const load = onRail(loadOf(w, sockets), rail)
      const figure = loadAmps(load)
      if (!isOver(figure, limit)) continue
      const mixed = motorAmps(load.motors) + lightAmps(load.lights) * MIXED_SHARE
      const most = Math.max(...w.plan.supply.leads.map((l) => (rail === 5 ? l.amps5 : l.amps12)))
      const drawn = (socket: PortRef): number => loadAmps(onRail(w.load(socket), rail))
      const alone = sockets.flatMap((socket) => {
        const part = partOf(w.plugIn(socket) ?? socket)
        return isOver(drawn(socket), most) ? [part] : []
      })
      // what one plug carries alone is told of the plug
      const [only, ...others] = sockets.filter((socket) => drawn(socket) > 0)
      const limitPath = `supply.leads.${lead.id}.${field}`
      yield {
        refs: [`supply.${lead.id}`, ...new Set([...load.motors, ...load.lights].map((x) => x.part))],
        severity:
          isOver(figure, limit * SAGS_UP_TO) && isOver(mixed, limit) ? 'will-not-work' : 'may-not-work',
        figure,
        limit,
        facts: {
          lead: lead.id,
          rail: `${rail} V`,
          ...dimming(load, limit),
          ...(alone.length > 0 ? { alone } : {}),
          ...(only && others.length === 0 ? { at: only } : {}),
        },
        rests: rests(w, loadPaths(load), loadEach(load), { limit, limitPath }),
      }
    }
  }
}

export const supplyCurrents: readonly Rule[] = [
  {
    id: 'sata-plug-over-current',
    severity: 'will-damage',
    unit: 'A',
    source: 'SATA power: three pins of 1.5 A a rail (question-and-answer thread citing the specification)',
    find: (w) => plugOver(w, 'sata'),
  },
  {
    id: 'peripheral-plug-over-current',
    severity: 'will-damage',
    unit: 'A',
    source: 'peripheral plug: 11 A a contact (encyclopedia page; PC repair handbook)',
    find: (w) => plugOver(w, 'peripheral'),
  },
  {
    id: 'supply-lead-over-current',
    severity: 'will-not-work',
    unit: 'A',
    source: LABELS,
    find: supplyLeadOver,
  },
  {
    id: 'supply-over-power',
    severity: 'will-not-work',
    unit: 'W',
    source: 'P = U·I; limit as the plan gives it',
    *find({ plan, motors, lights }) {
      const { watts } = plan.supply
      const figure =
        sum(motors.map((m) => m.motor.amps * 12)) + sum(lights.map((l) => l.light.amps * l.light.volts))
      if (watts !== undefined && isOver(figure, watts)) yield { refs: ['supply'], figure, limit: watts }
    },
  },
  {
    id: 'adapter-moulded',
    severity: 'may-not-work',
    source: 'X-ray study of cast adapters; drive maker’s support page',
    *find({ plan }) {
      for (const part of plan.parts)
        if (part.kind === 'adapter' && part.moulded && part.from === 'peripheral' && part.to === 'sata')
          yield { refs: [part.id], facts: { part: part.id } }
    },
  },
  {
    id: 'sata-feeds-peripheral',
    severity: 'untidy',
    unit: 'A',
    source: 'guide on SATA-to-peripheral adapters: the SATA end is the limit',
    *find({ plan }) {
      for (const part of plan.parts)
        if (part.kind === 'adapter' && part.from === 'sata' && part.to === 'peripheral' && part.outs > 1)
          yield {
            refs: [part.id],
            figure: plugRailAmps('peripheral'),
            limit: plugRailAmps('sata'),
            facts: { part: part.id },
          }
    },
  },
]
