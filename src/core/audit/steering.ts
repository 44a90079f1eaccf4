/** Which motors are steered by what, and how fast they then turn; shared by the rules on control. */
import { dcVolts, rpmAtDuty, rpmAtVolts } from '../electrics/fan-speed.ts'
import type { FanHeader } from '../plan/plan.ts'
import { type Driver, driverOf, isControlled, isLowered } from './drive.ts'
import type { MotorAt, Wiring } from './wiring.ts'

export const FAN_SPEC = 'public 4-wire fan specification'

export const curveRef = (key: string): string => `headers/${key}/curve`

export const driveRef = (key: string): string => `headers/${key}/drive`

/** Many rules ask; found once an audit. */
const known = new WeakMap<Wiring, readonly (readonly [MotorAt, Driver])[]>()

/** Every motor that something steers, with what steers it. */
export function driven(w: Wiring): readonly (readonly [MotorAt, Driver])[] {
  const before = known.get(w)
  if (before) return before
  const found = w.motors.flatMap((motor) => {
    const driver = driverOf(w, motor)
    return driver ? [[motor, driver] as const] : []
  })
  known.set(w, found)
  return found
}

/** RPM that a motor holds at a duty of its driver, once it turns. */
export const rpmUnder = (w: Wiring, motor: MotorAt, driver: Driver, duty: number): number =>
  driver.mode === 'dc' && isLowered(w, motor, driver)
    ? rpmAtVolts(motor.motor, dcVolts(duty))
    : isControlled(w, motor) && driver.mode === 'pwm'
      ? rpmAtDuty(motor.motor, duty)
      : motor.motor.rpm[1]

export const watched = (header: FanHeader): boolean => header.role === 'cpu'
