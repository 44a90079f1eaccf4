/** Modes: PWM and DC against what fan, header, splitter and hub understand. */
import { isOver } from '../electrics/overload.ts'
import type { FanHeader } from '../plan/plan.ts'
import { driverOf, headerDriver, isLowered, settingOf } from './drive.ts'
import { COMMON, type Rule } from './finding.ts'
import { isMixed, mixedPlugs } from './mixed-plugs.ts'
import { canDo, freeHeader } from './other-header.ts'
import { driven, driveRef, FAN_SPEC } from './steering.ts'
import { type MotorAt, partOf, type Wiring } from './wiring.ts'

/** What can be done where PWM is wanted of a header: `set` it, or a `free` header that offers it. */
const towardPwm = (w: Wiring, header: FanHeader | undefined, fans: readonly MotorAt[]) => {
  const set = header !== undefined && canDo(header, 'pwm')
  const lowered = header ? fans.filter((m) => w.trace(m.feed, '12V').at === `board.${header.id}`) : []
  const amps = lowered.reduce((sum, m) => sum + m.motor.amps, 0)
  return {
    set: set ? 'yes' : 'no',
    free: set ? '' : freeHeader(w, { mode: 'pwm', amps }),
    plug: (header && w.plugIn(`board.${header.id}`)) ?? '',
  }
}

export const driveModes: readonly Rule[] = [
  {
    id: 'three-pin-on-pwm',
    severity: 'may-not-work',
    source: `${FAN_SPEC} 3.3; PC fan wiring pages: a fan without control pin is slowed by its supply alone`,
    *find(w) {
      // a pump is meant to run at full speed; mixed plugs are told as one
      for (const [motor, driver] of driven(w))
        if (
          motor.motor.pins < 4 &&
          driver.mode === 'pwm' &&
          w.parts.get(motor.part)?.kind !== 'pump' &&
          !isMixed(w, driver)
        )
          yield {
            refs: [motor.plug, driver.port, driveRef(driver.key)],
            facts: {
              fan: motor.part,
              at: driver.port,
              pins: motor.motor.pins,
              lowers: isLowered(w, motor, driver) && driver.header?.drive !== 'pwm' ? 'yes' : 'no',
            },
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
        // a fan on an adapter of the supply has no header to follow: a choice, not a slip
        const chosen = w.trace(motor.feed, '12V').at.startsWith('supply.') && stop.kind === 'adapter'
        const lowers = driver?.header && canDo(driver.header, 'dc') && isLowered(w, motor, driver)
        yield {
          refs: [motor.plug, trace.at],
          severity: chosen ? 'untidy' : 'may-not-work',
          facts: {
            fan: motor.part,
            part: stop.id,
            from: chosen ? 'supply' : 'header',
            dc: lowers ? 'yes' : 'no',
            free: chosen ? freeHeader(w, { mode: 'pwm', amps: motor.motor.amps }) : '',
          },
        }
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
        const fans =
          listens && !w.leadAt(`${part.id}.in`)
            ? w.motors.filter((m) =>
                w.trace(m.plug, 'CONTROL').steps.some((s) => partOf(s.socket) === part.id),
              )
            : []
        if (fans.length > 0)
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
        if (
          motor.motor.pins === 4 &&
          driver.mode === 'dc' &&
          isLowered(w, motor, driver) &&
          !isMixed(w, driver)
        )
          yield {
            refs: [motor.plug, driver.port, driveRef(driver.key)],
            facts: {
              fan: motor.part,
              at: driver.port,
              ...towardPwm(w, driver.header, w.motorsOn(driver.port)),
            },
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
        const fans = w.motorsOn(driver.port).filter((m) => m.motor.pins === 4 && !isLowered(w, m, driver))
        if (fans.length > 0)
          yield {
            refs: [driver.port, driveRef(header.id), ...fans.map((m) => m.plug)],
            facts: { at: driver.port, fans: fans.map((m) => m.part), ...towardPwm(w, header, fans) },
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
      // a fan port of a controller steers by the control wire, whatever is set
      for (const [key, { drive }] of Object.entries(w.plan.settings.headers))
        if (drive === 'dc' && w.parts.get(partOf(key))?.kind === 'controller')
          yield { refs: [driveRef(key), key], facts: { at: key, set: drive, can: 'pwm' } }
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
  mixedPlugs,
]
