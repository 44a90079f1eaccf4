/**
 * Control: whether a fan gets the kind of control it understands, whether it starts where its curve rests, and what
 * the board will say of the CPU and pump header at power-on.
 */
import { dutyAt, isRising, restDuty } from '../electrics/fan-curve.ts'
import { dcVolts, lowestDuty, rpmAtDuty, rpmAtVolts } from '../electrics/fan-speed.ts'
import { isOver } from '../electrics/overload.ts'
import type { FanHeader } from '../plan/plan.ts'
import { type Driver, driverOf, headerDriver, isControlled, isLowered, settingOf } from './drive.ts'
import { COMMON, type Family, type Hit } from './finding.ts'
import { type MotorAt, partOf, type Wiring } from './wiring.ts'

const FAN_SPEC = 'public 4-wire fan specification'
const curveRef = (key: string): string => `headers/${key}/curve`
const driveRef = (key: string): string => `headers/${key}/drive`

function* driven(w: Wiring): Generator<readonly [MotorAt, Driver]> {
  for (const motor of w.motors) {
    const driver = driverOf(w, motor)
    if (driver) yield [motor, driver]
  }
}

/** RPM that a motor holds at a duty of its driver, once it turns. */
const rpmUnder = (w: Wiring, motor: MotorAt, driver: Driver, duty: number): number =>
  driver.mode === 'dc' && isLowered(w, motor, driver)
    ? rpmAtVolts(motor.motor, dcVolts(duty))
    : isControlled(w, motor) && driver.mode === 'pwm'
      ? rpmAtDuty(motor.motor, duty)
      : motor.motor.rpm[1]

const watched = (header: FanHeader): boolean => header.role === 'cpu'

export const control: Family = {
  family: 'control',
  rules: [
    {
      id: 'three-pin-on-pwm',
      severity: 'may-not-work',
      source: `${FAN_SPEC} 3.3; PC fan wiring pages: a fan without control pin is slowed by its supply alone`,
      *find(w) {
        for (const [motor, driver] of driven(w))
          if (motor.motor.pins < 4 && driver.mode === 'pwm')
            yield {
              refs: [motor.plug, driver.port, driveRef(driver.key)],
              facts: { fan: motor.part, at: driver.port, pins: motor.motor.pins },
              rests: [`parts.${motor.part}.motor.pins`],
            }
      },
    },
    {
      id: 'control-not-passed',
      severity: 'may-not-work',
      source: `${FAN_SPEC} 3.3: an open control pin means full speed`,
      *find(w) {
        for (const motor of w.motors) {
          if (motor.motor.pins !== 4) continue
          const trace = w.trace(motor.plug, 'CONTROL')
          const stop = w.parts.get(partOf(trace.at))
          if (trace.end !== 'stopped' || !stop || stop.kind === 'controller') continue
          const driver = driverOf(w, motor)
          if (driver?.mode === 'dc') continue
          yield { refs: [motor.plug, trace.at], facts: { fan: motor.part, part: stop.id } }
        }
      },
    },
    {
      id: 'hub-without-control-lead',
      severity: 'may-not-work',
      source: `${FAN_SPEC} 3.3: an open control pin means full speed`,
      *find(w) {
        for (const part of w.plan.parts) {
          const listens =
            (part.kind === 'fan-hub' && part.power !== 'header') ||
            (part.kind === 'controller' && part.fanControl === 'header' && part.fanPorts > 0)
          const fans = listens
            ? w.motors.filter((m) =>
                w.trace(m.plug, 'CONTROL').steps.some((s) => partOf(s.socket) === part.id),
              )
            : []
          if (fans.length > 0 && !w.leadAt(`${part.id}.in`))
            yield {
              refs: [`${part.id}.in`, ...fans.map((m) => m.plug)],
              facts: { part: part.id, fans: fans.map((m) => m.part) },
            }
        }
      },
    },
    {
      id: 'four-pin-on-dc',
      severity: 'untidy',
      source: COMMON,
      *find(w) {
        for (const [motor, driver] of driven(w))
          if (motor.motor.pins === 4 && driver.mode === 'dc' && isLowered(w, motor, driver))
            yield {
              refs: [motor.plug, driver.port, driveRef(driver.key)],
              facts: { fan: motor.part, at: driver.port },
              rests: [`parts.${motor.part}.motor.pins`],
            }
      },
    },
    {
      id: 'dc-into-powered-hub',
      severity: 'may-not-work',
      source: `${FAN_SPEC} 2.3.1: a hub with its own supply follows the control pin alone`,
      *find(w) {
        for (const header of w.plan.board.fanHeaders) {
          const driver = headerDriver(w, header)
          if (driver.mode !== 'dc') continue
          const fans = w.motorsOn(driver.port).filter((m) => !isLowered(w, m, driver))
          if (fans.length > 0 && header.pins === 4)
            yield {
              refs: [driver.port, driveRef(header.id), ...fans.map((m) => m.plug)],
              facts: { at: driver.port, fans: fans.map((m) => m.part) },
            }
        }
      },
    },
    {
      id: 'drive-not-offered',
      severity: 'will-not-work',
      source: 'what the header can do, as the plan gives it',
      *find(w) {
        for (const header of w.plan.board.fanHeaders) {
          const { drive } = settingOf(w, header.id)
          const can = header.pins === 3 ? 'dc' : header.drive
          if (drive && can !== 'auto' && drive !== can)
            yield {
              refs: [driveRef(header.id), `board.${header.id}`],
              facts: { at: `board.${header.id}`, set: drive, can },
            }
        }
      },
    },
    {
      id: 'curve-under-start-duty',
      severity: 'may-not-work',
      unit: '%',
      source: `${FAN_SPEC} 3.2 and 3.4`,
      *find(w) {
        for (const [motor, driver] of driven(w)) {
          const { curve } = driver.setting
          if (!curve || driver.mode !== 'pwm' || !isControlled(w, motor)) continue
          const rest = restDuty(curve)
          const limit = Math.max(
            motor.motor.startDuty,
            motor.motor.belowMin === 'stops' ? lowestDuty(motor.motor) : 0,
          )
          if (rest > 0 && isOver(limit, rest) && rpmAtDuty(motor.motor, rest, 'rest') === 0)
            yield {
              refs: [curveRef(driver.key), motor.plug, driver.port],
              figure: rest,
              limit,
              facts: { fan: motor.part, at: driver.port },
              rests: [`parts.${motor.part}.motor.start_duty`, `parts.${motor.part}.motor.below_min`],
            }
        }
      },
    },
    {
      id: 'curve-rests-at-zero',
      severity: 'untidy',
      unit: '%',
      source: `${FAN_SPEC} 3.4: at 0 % two of three kinds of fan stand still`,
      *find(w) {
        for (const header of w.plan.board.fanHeaders) {
          const { curve } = settingOf(w, header.id)
          const fans = w
            .motorsOn(`board.${header.id}`)
            .filter((m) => rpmUnder(w, m, headerDriver(w, header), 0) === 0)
          if (curve && restDuty(curve) <= 0 && fans.length > 0)
            yield {
              refs: [curveRef(header.id), `board.${header.id}`, ...fans.map((m) => m.plug)],
              severity: watched(header) ? 'may-not-work' : 'untidy',
              figure: 0,
              facts: { at: `board.${header.id}`, fans: fans.map((m) => m.part) },
            }
        }
      },
    },
    {
      id: 'dc-under-start-volts',
      severity: 'may-not-work',
      unit: 'V',
      source: 'hobby wiring page on DC mode; 7 V is the usual safe start (common practice, no source)',
      *find(w) {
        for (const [motor, driver] of driven(w)) {
          const { curve } = driver.setting
          if (!curve || driver.mode !== 'dc' || !isLowered(w, motor, driver)) continue
          const volts = dcVolts(restDuty(curve))
          if (volts > 0 && isOver(motor.motor.startVolts, volts))
            yield {
              refs: [curveRef(driver.key), motor.plug, driver.port],
              figure: volts,
              limit: motor.motor.startVolts,
              facts: { fan: motor.part, at: driver.port },
              rests: [`parts.${motor.part}.motor.start_volts`],
            }
        }
      },
    },
    {
      id: 'curve-falls',
      severity: 'may-not-work',
      source: COMMON,
      *find(w) {
        for (const [key, { curve }] of Object.entries(w.plan.settings.headers))
          if (curve && !isRising(curve)) yield { refs: [curveRef(key)], facts: { at: key } }
      },
    },
    {
      id: 'curve-never-full',
      severity: 'untidy',
      unit: '%',
      source: COMMON,
      *find(w) {
        for (const [key, { curve }] of Object.entries(w.plan.settings.headers)) {
          const top = curve ? Math.max(...curve.map(([, duty]) => duty)) : 100
          if (top < 60) yield { refs: [curveRef(key)], figure: top, limit: 60, facts: { at: key } }
        }
      },
    },
    {
      id: 'pump-slowed',
      severity: 'may-not-work',
      unit: '%',
      source: COMMON,
      *find(w) {
        for (const [motor, driver] of driven(w)) {
          if (w.parts.get(motor.part)?.kind !== 'pump') continue
          const { curve } = driver.setting
          const least = curve ? restDuty(curve) : 100
          const slows = rpmUnder(w, motor, driver, least) < motor.motor.rpm[1]
          if (least < 100 && slows)
            yield {
              refs: [curveRef(driver.key), motor.plug],
              figure: least,
              limit: 100,
              facts: { pump: motor.part, at: driver.port },
            }
        }
      },
    },
    {
      id: 'pump-uncurved',
      severity: 'untidy',
      source: COMMON,
      *find(w) {
        for (const [motor, driver] of driven(w)) {
          const { header, setting } = driver
          if (w.parts.get(motor.part)?.kind !== 'pump' || !header || header.role === 'pump' || setting.curve)
            continue
          if (isControlled(w, motor) || driver.mode === 'dc')
            yield { refs: [motor.plug, driver.port], facts: { pump: motor.part, at: driver.port } }
        }
      },
    },
    {
      id: 'fan-on-pump-header',
      severity: 'untidy',
      source: COMMON,
      *find(w) {
        for (const [motor, driver] of driven(w))
          if (
            driver.header?.role === 'pump' &&
            w.parts.get(motor.part)?.kind === 'fan' &&
            !driver.setting.curve
          )
            yield { refs: [motor.plug, driver.port], facts: { fan: motor.part, at: driver.port } }
      },
    },
    {
      id: 'cpu-header-empty',
      severity: 'may-not-work',
      source: 'general repair pages on the CPU fan message at start-up',
      *find(w) {
        for (const header of w.plan.board.fanHeaders)
          if (watched(header) && w.plugIn(`board.${header.id}`) === undefined)
            yield { refs: [`board.${header.id}`], facts: { at: `board.${header.id}` } }
      },
    },
    {
      id: 'cpu-header-no-tach',
      severity: 'may-not-work',
      source: 'general repair pages on the CPU fan message at start-up',
      *find(w) {
        for (const header of w.plan.board.fanHeaders) {
          const ref = `board.${header.id}`
          const pulses = w.tachsOn(ref).some((m) => m.motor.tach === 'pulses')
          if (watched(header) && w.plugIn(ref) !== undefined && !pulses)
            yield { refs: [ref], facts: { at: ref } }
        }
      },
    },
    {
      id: 'alarm-above-speed',
      severity: 'may-not-work',
      unit: 'rpm',
      source: 'kernel driver pages on fan limits: an alarm under the limit',
      find: alarmAboveSpeed,
    },
    {
      id: 'alarm-off',
      severity: 'untidy',
      source: COMMON,
      *find(w) {
        for (const header of w.plan.board.fanHeaders)
          if (header.role !== 'fan' && settingOf(w, header.id).alarmBelow === 0)
            yield {
              refs: [`headers/${header.id}/alarm_below`, `board.${header.id}`],
              facts: { at: `board.${header.id}` },
            }
      },
    },
    {
      id: 'unlike-fans-on-one-header',
      severity: 'untidy',
      unit: 'rpm',
      source: COMMON,
      *find(w) {
        for (const header of w.plan.board.fanHeaders) {
          const fans = w.motorsOn(`board.${header.id}`)
          const tops = fans.map((m) => m.motor.rpm[1])
          const [figure, limit] = [Math.max(...tops), Math.min(...tops) * 1.5]
          if (fans.length > 1 && isOver(figure, limit))
            yield {
              refs: [`board.${header.id}`, ...fans.map((m) => m.plug)],
              figure,
              limit: Math.min(...tops),
              facts: { at: `board.${header.id}`, fans: fans.map((m) => m.part) },
              rests: fans.map((m) => `parts.${m.part}.motor.rpm`),
            }
        }
      },
    },
    {
      id: 'mixed-plugs-on-one-header',
      severity: 'untidy',
      source: COMMON,
      *find(w) {
        for (const header of w.plan.board.fanHeaders) {
          const ref = `board.${header.id}`
          const fans = w.motorsOn(ref)
          const with4 = fans.filter((m) => m.motor.pins === 4)
          if (with4.length > 0 && with4.length < fans.length)
            yield {
              refs: [ref, ...fans.map((m) => m.plug)],
              facts: {
                at: ref,
                with4: with4.map((m) => m.part),
                without: fans.filter((m) => m.motor.pins < 4).map((m) => m.part),
              },
            }
        }
      },
    },
  ],
}

/** The header's reading at the lowest duty of its curve, or at the present one, against the alarm. */
function* alarmAboveSpeed(w: Wiring): Generator<Hit> {
  for (const header of w.plan.board.fanHeaders) {
    const driver = headerDriver(w, header)
    const { alarmBelow, curve, pulses } = driver.setting
    const [fan] = w.tachsOn(driver.port)
    if (!alarmBelow || !fan || fan.motor.tach !== 'pulses') continue
    const duty = curve ? Math.min(restDuty(curve), dutyAt(curve, w.plan.settings.celsius)) : 100
    const rpm = rpmUnder(w, fan, driver, duty)
    const figure = (rpm * fan.motor.pulses) / (pulses ?? 2)
    if (isOver(alarmBelow, figure))
      yield {
        refs: [`headers/${header.id}/alarm_below`, driver.port, fan.plug],
        figure,
        limit: alarmBelow,
        facts: { at: driver.port, fan: fan.part },
        rests: [`parts.${fan.part}.motor.rpm`],
      }
  }
}
