/** Currents of fans: headers, fan hubs and controllers, steady and in the second in which all fans start. */
import { FAN_START_AMPS, FAN_STEADY_AMPS, PLANNED_SHARE, START_SURGE } from '../electrics/fan-current.ts'
import { isOver, SAGS_UP_TO } from '../electrics/overload.ts'
import { COMMON, type Hit, type Rule } from './finding.ts'
import {
  all,
  type ControllerFigures,
  LABELS,
  type Limited,
  loadOf,
  motorAmps,
  motorPaths,
  ofParts,
  overload,
  port,
  rests,
  startAmps,
} from './loads.ts'
import { freeHeader } from './other-header.ts'
import type { MotorAt, Wiring } from './wiring.ts'

const hundredths = (amps: number): number => Math.round(amps * 100) / 100

/** What fans take at the start over what a source gives for a second; 0 where that is kept, or rests on assumed values. */
function startOver(w: Wiring, group: Limited, motors: readonly MotorAt[]): number {
  const paths = [group.limitPath, ...motorPaths(motors, 'start_amps')]
  const over = startAmps(motors) - group.limit * START_SURGE
  return over > 0 && !paths.some((path) => w.plan.assumed.has(path)) ? hundredths(over) : 0
}

/** @param also the limit at the start is the group's too, so the remedy must keep both */
function* motorOver(w: Wiring, groups: Iterable<Limited>, also = false): Generator<Hit> {
  for (const group of groups) {
    const { motors } = loadOf(w, group.sockets)
    const figure = motorAmps(motors)
    if (!isOver(figure, group.limit)) continue
    const amps = motors.map((m) => m.motor.amps)
    const start = also ? startOver(w, group, motors) : 0
    const wanted = Math.max(figure, startAmps(motors) / START_SURGE)
    yield {
      refs: [group.ref, ...motors.map((m) => m.plug)],
      severity: overload(figure, group),
      figure,
      limit: group.limit,
      facts: {
        at: group.ref,
        fans: motors.map((m) => m.part),
        // a single one cannot be split up: it goes elsewhere whole
        plug: motors.length === 1 ? (motors[0]?.plug ?? '') : '',
        free: motors.length === 1 ? freeHeader(w, { amps: wanted }) : '',
        ...(start > 0 ? { start } : {}),
      },
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
    // A second is short: without protection only what is far above the surge is taken to harm.
    const harms = !group.trips && isOver(figure, surge * SAGS_UP_TO)
    yield {
      refs: [group.ref, ...motors.map((m) => m.plug)],
      severity: !sure || !isOver(figure, surge) ? 'untidy' : harms ? 'will-damage' : 'may-not-work',
      figure,
      limit: group.limit,
      facts: {
        at: group.ref,
        fans: motors.map((m) => m.part),
        surge: hundredths(surge),
        guarded: group.trips ? 'yes' : 'no',
      },
      rests: resting,
    }
  }
}

/** One fan held fast while the others run, where the plan says what that one then draws. */
function* rotorLocked(w: Wiring, groups: Iterable<Limited>): Generator<Hit> {
  for (const group of groups) {
    const { motors } = loadOf(w, group.sockets)
    const steady = motorAmps(motors)
    if (isOver(steady, group.limit)) continue
    const added = ({ motor }: MotorAt): number => (motor.lockedAmps ?? motor.amps) - motor.amps
    const worst = motors.reduce<MotorAt | undefined>(
      (most, m) => (added(m) > (most ? added(most) : 0) ? m : most),
      undefined,
    )
    if (!worst || !isOver(steady + added(worst), group.limit)) continue
    const amps = motors.map((m) => m.motor.amps + (m === worst ? added(m) : 0))
    yield {
      refs: [group.ref, worst.plug],
      figure: steady + added(worst),
      limit: group.limit,
      facts: { at: group.ref, fan: worst.part, locked: worst.motor.lockedAmps ?? 0 },
      rests: rests(w, motorPaths(motors, 'amps'), amps, group),
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

export const fanCurrents: readonly Rule[] = [
  {
    id: 'header-over-current',
    severity: 'will-damage',
    unit: 'A',
    source: LABELS,
    find: (w) => motorOver(w, fanHeaders(w), true),
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
    find: (w) => motorOver(w, ofParts(w, 'fan-hub', '', 'amps', all, false), true),
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
        true,
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
    id: 'locked-rotor-over-limit',
    severity: 'may-not-work',
    unit: 'A',
    source: 'fan motor driver data sheets, locked rotor protection; limit as the plan gives it',
    *find(w) {
      yield* rotorLocked(w, fanHeaders(w))
      yield* rotorLocked(w, ofParts(w, 'fan-hub', '', 'amps', all, false))
      yield* rotorLocked(
        w,
        ofParts(w, 'controller', 'fan', 'fan_amps', (p: ControllerFigures) => p.fanAmps, false),
      )
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
]
