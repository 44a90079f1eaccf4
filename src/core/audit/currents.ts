/**
 * Currents: what hangs on each header, hub, plug and supply lead against what it bears, steady and in the second in
 * which all fans start. Figures are the labels' sums; LEDs at full white.
 */
import { FAN_START_AMPS, FAN_STEADY_AMPS, PLANNED_SHARE, START_SURGE } from '../electrics/fan-current.ts'
import { MIXED_SHARE } from '../electrics/led-current.ts'
import { isOver, SAGS_UP_TO } from '../electrics/overload.ts'
import { plugRailAmps } from '../electrics/supply-plugs.ts'
import type { PortRef } from '../plan/plan.ts'
import { COMMON, type Family, type Hit, type Severity } from './finding.ts'
import type { LightAt, Load, MotorAt, Wiring } from './wiring.ts'

const sum = (of: readonly number[]): number => of.reduce((a, b) => a + b, 0)
const LABELS = 'sum of the labels; limit as the plan gives it'

/** A group of sockets that share one limit. */
interface Limited {
  readonly ref: string
  readonly sockets: readonly PortRef[]
  readonly limit: number
  readonly limitPath: string
  /** Nothing dies when it is overloaded; it trips. */
  readonly trips: boolean
}

const loadOf = (w: Wiring, sockets: readonly PortRef[]): Load => ({
  motors: sockets.flatMap((s) => w.load(s).motors),
  lights: sockets.flatMap((s) => w.load(s).lights),
})
const motorAmps = (of: readonly MotorAt[]): number => sum(of.map((m) => m.motor.amps))
const startAmps = (of: readonly MotorAt[]): number => sum(of.map((m) => m.motor.startAmps))
const lightAmps = (of: readonly LightAt[]): number => sum(of.map((l) => l.light.amps))
const motorPaths = (of: readonly MotorAt[], field: string): string[] =>
  of.map((m) => `parts.${m.part}.motor.${field}`)
export const lightPath = (l: LightAt, field: string): string => `parts.${l.part}.${l.light.port}.${field}`
const lightPaths = (of: readonly LightAt[]): string[] => of.map((l) => lightPath(l, 'amps'))

const overload = (figure: number, { limit, trips }: Limited): Severity =>
  !isOver(figure, limit * SAGS_UP_TO) ? 'may-not-work' : trips ? 'will-not-work' : 'will-damage'

/** Only what is assumed counts as assumed if the known part alone would not break the limit. */
function rests(
  w: Wiring,
  paths: readonly string[],
  amps: readonly number[],
  { limit, limitPath }: Limited,
): string[] {
  if (w.plan.assumed.has(limitPath)) return [limitPath, ...paths]
  const known = sum(amps.filter((_, i) => !w.plan.assumed.has(paths[i] ?? '')))
  return isOver(known, limit) ? [] : [...paths]
}

function* motorOver(w: Wiring, groups: Iterable<Limited>): Generator<Hit> {
  for (const group of groups) {
    const { motors } = loadOf(w, group.sockets)
    const figure = motorAmps(motors)
    if (!isOver(figure, group.limit)) continue
    const amps = motors.map((m) => m.motor.amps)
    yield {
      refs: [group.ref, ...motors.map((m) => m.plug)],
      severity: overload(figure, group),
      figure,
      limit: group.limit,
      facts: { at: group.ref, fans: motors.map((m) => m.part) },
      rests: rests(w, motorPaths(motors, 'amps'), amps, group),
    }
  }
}

function* motorSurge(w: Wiring, groups: Iterable<Limited>): Generator<Hit> {
  for (const group of groups) {
    const { motors } = loadOf(w, group.sockets)
    const figure = startAmps(motors)
    if (!isOver(figure, group.limit) || isOver(motorAmps(motors), group.limit)) continue
    const surge = group.limit * START_SURGE
    const amps = motors.map((m) => m.motor.startAmps)
    const resting = rests(w, motorPaths(motors, 'start_amps'), amps, group)
    const sure = !resting.some((path) => w.plan.assumed.has(path))
    yield {
      refs: [group.ref, ...motors.map((m) => m.plug)],
      severity: sure && isOver(figure, surge) ? 'may-not-work' : 'untidy',
      figure,
      limit: group.limit,
      facts: { at: group.ref, fans: motors.map((m) => m.part), surge: Math.round(surge * 100) / 100 },
      rests: resting,
    }
  }
}

function* lightOver(w: Wiring, groups: Iterable<Limited>): Generator<Hit> {
  for (const group of groups) {
    const { lights } = loadOf(w, group.sockets)
    const figure = lightAmps(lights)
    if (!isOver(figure, group.limit)) continue
    const mixed = figure * MIXED_SHARE
    const amps = lights.map((l) => l.light.amps)
    yield {
      refs: [group.ref, ...lights.map((l) => l.plug)],
      severity: isOver(mixed, group.limit) ? 'will-not-work' : 'may-not-work',
      figure,
      limit: group.limit,
      facts: {
        at: group.ref,
        parts: lights.map((l) => l.part),
        mixed: Math.round(mixed * 100) / 100,
        percent: Math.floor((group.limit / figure) * 100),
      },
      rests: rests(w, lightPaths(lights), amps, group),
    }
  }
}

const fanHeaders = (w: Wiring): Limited[] =>
  w.plan.board.fanHeaders.map((h) => ({
    ref: `board.${h.id}`,
    sockets: [`board.${h.id}`],
    limit: h.amps,
    limitPath: `board.fan_headers.${h.id}.amps`,
    trips: h.protected,
  }))
const lightHeaders = (w: Wiring): Limited[] =>
  w.plan.board.lightHeaders.map((h) => ({
    ref: `board.${h.id}`,
    sockets: [`board.${h.id}`],
    limit: h.amps,
    limitPath: `board.light_headers.${h.id}.amps`,
    trips: true,
  }))

/** The sockets of a part with a prefix, together or one by one. */
function* ofParts(
  w: Wiring,
  kind: 'fan-hub' | 'light-hub' | 'controller' | 'light-splitter',
  prefix: string,
  limit: string,
  value: (part: never) => number,
  each: boolean,
): Generator<Limited> {
  for (const part of w.plan.parts) {
    if (part.kind !== kind) continue
    const sockets = (w.portsOf.get(part.id) ?? [])
      .filter((p) => p.gender === 'socket' && p.name.startsWith(prefix))
      .map((p) => p.ref)
    const group = { limit: value(part as never), limitPath: `parts.${part.id}.${limit}`, trips: true }
    if (each) for (const socket of sockets) yield { ...group, ref: socket, sockets: [socket] }
    else yield { ...group, ref: part.id, sockets }
  }
}
type FanHubFigures = { amps: number; portAmps: number }
type ControllerFigures = { fanAmps: number; fanPortAmps: number; lightAmps: number; lightPortAmps: number }
const all = (p: FanHubFigures): number => p.amps
const port = (p: FanHubFigures): number => p.portAmps

function* plugOver(w: Wiring, kind: 'sata' | 'peripheral'): Generator<Hit> {
  const limit = plugRailAmps(kind)
  for (const socket of w.ports.values()) {
    if (socket.connector !== kind || socket.gender !== 'socket') continue
    const { motors, lights } = w.load(socket.ref)
    const at = (volts: number) => lights.filter((l) => l.light.volts === volts)
    for (const [rail, figure] of [
      ['12 V', motorAmps(motors) + lightAmps(at(12))],
      ['5 V', lightAmps(at(5))],
    ] as const) {
      if (!isOver(figure, limit)) continue
      const five = rail === '5 V'
      const paths = five ? lightPaths(at(5)) : [...motorPaths(motors, 'amps'), ...lightPaths(at(12))]
      const amps = five
        ? at(5).map((l) => l.light.amps)
        : [...motors.map((m) => m.motor.amps), ...at(12).map((l) => l.light.amps)]
      const group = { ref: socket.ref, sockets: [], limit, limitPath: '', trips: false }
      yield {
        refs: [
          socket.ref,
          ...new Set([...(five ? [] : motors.map((m) => m.part)), ...at(five ? 5 : 12).map((l) => l.part)]),
        ],
        severity: five && !isOver(figure * MIXED_SHARE, limit) ? 'may-not-work' : 'will-damage',
        figure,
        limit,
        facts: { at: socket.ref, rail },
        rests: rests(w, paths, amps, group),
      }
    }
  }
}

function* supplyLeadOver(w: Wiring): Generator<Hit> {
  for (const lead of w.plan.supply.leads) {
    const sockets = Array.from({ length: lead.plugs }, (_, i) => `supply.${lead.id}.${i + 1}`)
    const { motors, lights } = loadOf(w, sockets)
    const at = (volts: number) => lights.filter((l) => l.light.volts === volts)
    for (const [rail, limit, field, ms, ls] of [
      ['12 V', lead.amps12, 'amps_12v', motors, at(12)],
      ['5 V', lead.amps5, 'amps_5v', [], at(5)],
    ] as const) {
      const figure = motorAmps(ms) + lightAmps(ls)
      if (!isOver(figure, limit)) continue
      const group = {
        ref: lead.id,
        sockets,
        limit,
        limitPath: `supply.leads.${lead.id}.${field}`,
        trips: true,
      }
      yield {
        refs: [`supply.${lead.id}`, ...new Set([...ms, ...ls].map((x) => x.part))],
        severity: isOver(figure, limit * SAGS_UP_TO) ? 'will-not-work' : 'may-not-work',
        figure,
        limit,
        facts: { lead: lead.id, rail },
        rests: rests(
          w,
          [...motorPaths(ms, 'amps'), ...lightPaths(ls)],
          [...ms.map((m) => m.motor.amps), ...ls.map((l) => l.light.amps)],
          group,
        ),
      }
    }
  }
}

export const currents: Family = {
  family: 'currents',
  rules: [
    {
      id: 'header-over-current',
      severity: 'will-damage',
      unit: 'A',
      source: LABELS,
      find: (w) => motorOver(w, fanHeaders(w)),
    },
    {
      id: 'header-over-margin',
      severity: 'untidy',
      unit: 'A',
      source: COMMON,
      *find(w) {
        for (const group of fanHeaders(w)) {
          const { motors } = loadOf(w, group.sockets)
          const figure = motorAmps(motors)
          const limit = group.limit * PLANNED_SHARE
          if (motors.length > 1 && isOver(figure, limit) && !isOver(figure, group.limit))
            yield {
              refs: [group.ref, ...motors.map((m) => m.plug)],
              figure,
              limit,
              facts: { at: group.ref, fans: motors.map((m) => m.part), full: group.limit },
            }
        }
      },
    },
    {
      id: 'header-start-surge',
      severity: 'untidy',
      unit: 'A',
      source:
        'public 4-wire fan specification 2.1.2: 2.2 A for a second against 1.5 A steady (deduced for the source)',
      find: (w) => motorSurge(w, fanHeaders(w)),
    },
    {
      id: 'fan-hub-over-current',
      severity: 'will-not-work',
      unit: 'A',
      source: LABELS,
      find: (w) => motorOver(w, ofParts(w, 'fan-hub', '', 'amps', all, false)),
    },
    {
      id: 'fan-hub-port-over-current',
      severity: 'will-not-work',
      unit: 'A',
      source: LABELS,
      find: (w) => motorOver(w, ofParts(w, 'fan-hub', '', 'port_amps', port, true)),
    },
    {
      id: 'fan-hub-start-surge',
      severity: 'untidy',
      unit: 'A',
      source: 'public 4-wire fan specification 2.1.2 (deduced for the source)',
      find: (w) => motorSurge(w, ofParts(w, 'fan-hub', '', 'amps', all, false)),
    },
    {
      id: 'controller-fans-over-current',
      severity: 'will-not-work',
      unit: 'A',
      source: LABELS,
      find: (w) =>
        motorOver(
          w,
          ofParts(w, 'controller', 'fan', 'fan_amps', (p: ControllerFigures) => p.fanAmps, false),
        ),
    },
    {
      id: 'controller-fan-port-over-current',
      severity: 'will-not-work',
      unit: 'A',
      source: LABELS,
      find: (w) =>
        motorOver(
          w,
          ofParts(w, 'controller', 'fan', 'fan_port_amps', (p: ControllerFigures) => p.fanPortAmps, true),
        ),
    },
    {
      id: 'controller-start-surge',
      severity: 'untidy',
      unit: 'A',
      source: 'public 4-wire fan specification 2.1.2 (deduced for the source)',
      find: (w) =>
        motorSurge(
          w,
          ofParts(w, 'controller', 'fan', 'fan_amps', (p: ControllerFigures) => p.fanAmps, false),
        ),
    },
    {
      id: 'light-header-over-current',
      severity: 'may-not-work',
      unit: 'A',
      source: 'LEDs at full white (LED strip best-practice pages: 60 mA each); limit as the plan gives it',
      find: (w) => lightOver(w, lightHeaders(w)),
    },
    {
      id: 'light-hub-over-current',
      severity: 'may-not-work',
      unit: 'A',
      source: LABELS,
      find: (w) => lightOver(w, ofParts(w, 'light-hub', '', 'amps', all, false)),
    },
    {
      id: 'light-hub-port-over-current',
      severity: 'may-not-work',
      unit: 'A',
      source: LABELS,
      find: (w) => lightOver(w, ofParts(w, 'light-hub', '', 'port_amps', port, true)),
    },
    {
      id: 'controller-lights-over-current',
      severity: 'may-not-work',
      unit: 'A',
      source: LABELS,
      find: (w) =>
        lightOver(
          w,
          ofParts(w, 'controller', 'light', 'light_amps', (p: ControllerFigures) => p.lightAmps, false),
        ),
    },
    {
      id: 'controller-light-port-over-current',
      severity: 'may-not-work',
      unit: 'A',
      source: LABELS,
      find: (w) =>
        lightOver(
          w,
          ofParts(
            w,
            'controller',
            'light',
            'light_port_amps',
            (p: ControllerFigures) => p.lightPortAmps,
            true,
          ),
        ),
    },
    {
      id: 'light-splitter-over-current',
      severity: 'may-not-work',
      unit: 'A',
      source: LABELS,
      find: (w) => lightOver(w, ofParts(w, 'light-splitter', '', 'amps', all, false)),
    },
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
      id: 'fan-over-specification',
      severity: 'may-not-work',
      unit: 'A',
      source: 'public 4-wire fan specification 2.1.2: 1.5 A steady, 2.2 A at the start',
      *find({ motors, plan }) {
        for (const { motor, plug, part } of motors) {
          if (motor.feed !== 'lead') continue
          const start = !isOver(motor.amps, FAN_STEADY_AMPS)
          const [figure, limit, field] = start
            ? [motor.startAmps, FAN_START_AMPS, 'start_amps']
            : [motor.amps, FAN_STEADY_AMPS, 'amps']
          if (isOver(figure, limit) && !plan.assumed.has(`parts.${part}.motor.${field}`))
            yield { refs: [plug], figure, limit, facts: { fan: part, when: start ? 'start' : 'steady' } }
        }
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
  ],
}
