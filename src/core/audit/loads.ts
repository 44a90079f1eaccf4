/**
 * What hangs on a group of sockets that share one limit, and how bad it is when that limit is broken.
 */
import { isOver, SAGS_UP_TO } from '../electrics/overload.ts'
import type { PortRef } from '../plan/plan.ts'
import type { Severity } from './finding.ts'
import type { LightAt, Load, MotorAt, Wiring } from './wiring.ts'

export const sum = (of: readonly number[]): number => of.reduce((a, b) => a + b, 0)

export const LABELS = 'sum of the labels; limit as the plan gives it'

/** A group of sockets that share one limit. */
export interface Limited {
  readonly ref: string
  readonly sockets: readonly PortRef[]
  readonly limit: number
  readonly limitPath: string
  /** Nothing dies when it is overloaded; it trips. */
  readonly trips: boolean
}

export const loadOf = (w: Wiring, sockets: readonly PortRef[]): Load => ({
  motors: sockets.flatMap((s) => w.load(s).motors),
  lights: sockets.flatMap((s) => w.load(s).lights),
})

export const motorAmps = (of: readonly MotorAt[]): number => sum(of.map((m) => m.motor.amps))

export const startAmps = (of: readonly MotorAt[]): number => sum(of.map((m) => m.motor.startAmps))

export const lightAmps = (of: readonly LightAt[]): number => sum(of.map((l) => l.light.amps))

export const motorPaths = (of: readonly MotorAt[], field: string): string[] =>
  of.map((m) => `parts.${m.part}.motor.${field}`)

const lightPath = (l: LightAt, field: string): string => `parts.${l.part}.${l.light.port}.${field}`

export const lightPaths = (of: readonly LightAt[]): string[] => of.map((l) => lightPath(l, 'amps'))

/** What of a load draws on one rail. */
export const onRail = ({ motors, lights }: Load, rail: 5 | 12): Load => ({
  motors: rail === 12 ? motors : [],
  lights: lights.filter((l) => l.light.volts === rail),
})

/** Amps of each motor and light, whatever their rails. */
export const loadEach = ({ motors, lights }: Load): number[] => [
  ...motors.map((m) => m.motor.amps),
  ...lights.map((l) => l.light.amps),
]

export const loadAmps = (load: Load): number => sum(loadEach(load))

/** Places of the plan that each of these amps stands at. */
export const loadPaths = ({ motors, lights }: Load): string[] => [
  ...motorPaths(motors, 'amps'),
  ...lightPaths(lights),
]

export const overload = (figure: number, { limit, trips }: Limited): Severity =>
  !isOver(figure, limit * SAGS_UP_TO) ? 'may-not-work' : trips ? 'will-not-work' : 'will-damage'

/** Only what is assumed counts as assumed if the known part alone would not break the limit. */
export function rests(
  w: Wiring,
  paths: readonly string[],
  amps: readonly number[],
  { limit, limitPath }: Pick<Limited, 'limit' | 'limitPath'>,
): string[] {
  if (w.plan.assumed.has(limitPath)) return [limitPath, ...paths]
  const known = sum(amps.filter((_, i) => !w.plan.assumed.has(paths[i] ?? '')))
  return isOver(known, limit) ? [] : [...paths]
}

/** The sockets of a part with a prefix, together or one by one. */
export function* ofParts(
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

export type FanHubFigures = { amps: number; portAmps: number }

export type ControllerFigures = {
  fanAmps: number
  fanPortAmps: number
  lightAmps: number
  lightPortAmps: number
}

export const all = (p: FanHubFigures): number => p.amps

export const port = (p: FanHubFigures): number => p.portAmps
