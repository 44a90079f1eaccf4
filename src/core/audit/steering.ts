/** Which motors are steered by what, and how fast they then turn; shared by the rules on control. */
import { dcVolts, rpmAtDuty, rpmAtVolts } from '../electrics/fan-speed.ts'
import type { FanHeader } from '../plan/plan.ts'
import { type Driver, driverOf, isControlled, isLowered } from './drive.ts'
import type { MotorAt, Wiring } from './wiring.ts'

export const FAN_SPEC = 'public 4-wire fan specification'

export const curveRef = (key: string): string => `headers/${key}/curve`

export const driveRef = (key: string): string => `headers/${key}/drive`

export function* driven(w: Wiring): Generator<readonly [MotorAt, Driver]> {
  for (const motor of w.motors) {
    const driver = driverOf(w, motor)
    if (driver) yield [motor, driver]
  }
}

/** RPM that a motor holds at a duty of its driver, once it turns. */
export const rpmUnder = (w: Wiring, motor: MotorAt, driver: Driver, duty: number): number =>
  driver.mode === 'dc' && isLowered(w, motor, driver)
    ? rpmAtVolts(motor.motor, dcVolts(duty))
    : isControlled(w, motor) && driver.mode === 'pwm'
      ? rpmAtDuty(motor.motor, duty)
      : motor.motor.rpm[1]

export const watched = (header: FanHeader): boolean => header.role === 'cpu'
