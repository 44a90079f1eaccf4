/** Curves that never give a fan what it needs to start from rest, and steps of a curve that are under it. */
import { type CurvePoint, restDuty } from '../electrics/fan-curve.ts'
import { dcDuty, dcVolts, lowestDuty } from '../electrics/fan-speed.ts'
import { isOver } from '../electrics/overload.ts'
import type { Motor } from '../plan/part.ts'
import { type Driver, isControlled, isLowered } from './drive.ts'
import type { Rule } from './finding.ts'
import { curveRef, driven, FAN_SPEC } from './steering.ts'
import type { MotorAt, Wiring } from './wiring.ts'

type Curve = readonly CurvePoint[]

const topDuty = (curve: Curve): number => Math.max(...curve.map(([, duty]) => duty))

/** Whether a curve, at its hottest, still gives less than a start needs. @param needs percent */
export const neverStarts = (curve: Curve, needs: number): boolean => isOver(needs, topDuty(curve))

/**
 * The step of a curve, above zero, at which a fan does not start from rest: where the curve rests, or failing that
 * the highest; undefined where there is none. @param needs percent
 */
export function stepUnder(curve: Curve, needs: number): number | undefined {
  const rest = restDuty(curve)
  const under = curve.map(([, duty]) => duty).filter((duty) => duty > 0 && isOver(needs, duty))
  return under.length === 0 ? undefined : rest > 0 ? rest : Math.max(...under)
}

/** Percent that a fan needs to start; one that stops needs its lowest duty at least. */
const startDutyOf = (motor: Motor): number =>
  Math.max(motor.startDuty, motor.belowMin === 'stops' ? lowestDuty(motor) : 0)

/**
 * What a motor that is controlled by PWM needs to start, and the assumed values that rests on; undefined where it turns
 * whatever is set. It is taken to keep its lowest speed, as the bench has it; but who writes a start duty may mean that it stops.
 */
function pwmStart(
  w: Wiring,
  { part, motor }: MotorAt,
): { readonly limit: number; readonly rests: readonly string[] } | undefined {
  const path = `parts.${part}.motor`
  const written = w.plan.assumed.has(`${path}.below_min`) && !w.plan.assumed.has(`${path}.start_duty`)
  if (motor.belowMin !== 'stops' && !written) return undefined
  return {
    limit: startDutyOf(motor),
    rests: [`${path}.start_duty`, ...(written ? [`${path}.below_min`] : [])],
  }
}

/** Percent of the driver under which a motor stays still; undefined where it turns whatever is set. */
function needsOf(w: Wiring, motor: MotorAt, driver: Driver): number | undefined {
  if (driver.mode === 'dc') return isLowered(w, motor, driver) ? dcDuty(motor.motor.startVolts) : undefined
  return isControlled(w, motor) && motor.motor.belowMin === 'stops' ? startDutyOf(motor.motor) : undefined
}

/** Whether a motor stands still at every temperature of its curve. */
export function isStill(w: Wiring, motor: MotorAt, driver: Driver): boolean {
  const { curve } = driver.setting
  const needs = needsOf(w, motor, driver)
  return curve !== undefined && needs !== undefined && neverStarts(curve, needs)
}

/** Every motor that a curve steers by PWM and that has to start from rest, with what it needs for that. */
export function* pwmStarts(w: Wiring) {
  for (const [motor, driver] of driven(w)) {
    const { curve } = driver.setting
    if (!curve || driver.mode !== 'pwm' || !isControlled(w, motor)) continue
    const start = pwmStart(w, motor)
    if (start) yield { motor, driver, curve, start }
  }
}

export const curveStarts: readonly Rule[] = [
  {
    id: 'curve-never-starts',
    severity: 'will-not-work',
    unit: '%',
    source: `${FAN_SPEC} 3.2 and 3.4`,
    *find(w) {
      for (const { motor, driver, curve, start } of pwmStarts(w))
        if (neverStarts(curve, start.limit))
          yield {
            refs: [curveRef(driver.key), motor.plug, driver.port],
            figure: topDuty(curve),
            ...start,
            facts: { fan: motor.part, at: driver.port },
          }
    },
  },
  {
    id: 'dc-never-starts',
    severity: 'will-not-work',
    unit: 'V',
    source: 'hobby wiring page on DC mode; 7 V is the usual safe start (common practice, no source)',
    *find(w) {
      for (const [motor, driver] of driven(w)) {
        const { curve } = driver.setting
        if (curve && driver.mode === 'dc' && isStill(w, motor, driver))
          yield {
            refs: [curveRef(driver.key), motor.plug, driver.port],
            figure: dcVolts(topDuty(curve)),
            limit: motor.motor.startVolts,
            facts: { fan: motor.part, at: driver.port },
            rests: [`parts.${motor.part}.motor.start_volts`],
          }
      }
    },
  },
]
