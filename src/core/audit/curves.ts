/** Curves: whether a fan starts where its curve rests, and whether a pump is left alone. */
import { isRising, restDuty } from '../electrics/fan-curve.ts'
import { dcDuty, dcVolts } from '../electrics/fan-speed.ts'
import { curveStarts, isStill, neverStarts, pwmStarts, stepUnder } from './curve-start.ts'
import { headerDriver, isControlled, isLowered, settingOf } from './drive.ts'
import { COMMON, type Rule } from './finding.ts'
import { curveRef, driven, FAN_SPEC, rpmUnder, watched } from './steering.ts'

export const curves: readonly Rule[] = [
  {
    id: 'curve-under-start-duty',
    severity: 'may-not-work',
    unit: '%',
    source: `${FAN_SPEC} 3.2 and 3.4`,
    *find(w) {
      for (const { motor, driver, curve, start } of pwmStarts(w)) {
        if (neverStarts(curve, start.limit)) continue
        const figure = stepUnder(curve, start.limit)
        if (figure !== undefined)
          yield {
            refs: [curveRef(driver.key), motor.plug, driver.port],
            figure,
            ...start,
            facts: { fan: motor.part, at: driver.port, from: restDuty(curve) > 0 ? 'rest' : 'zero' },
          }
      }
    },
  },
  ...curveStarts,
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
          .filter((m) => !isStill(w, m, headerDriver(w, header)))
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
        const needs = dcDuty(motor.motor.startVolts)
        const step = neverStarts(curve, needs) ? undefined : stepUnder(curve, needs)
        if (step !== undefined)
          yield {
            refs: [curveRef(driver.key), motor.plug, driver.port],
            figure: dcVolts(step),
            limit: motor.motor.startVolts,
            facts: { fan: motor.part, at: driver.port, from: restDuty(curve) > 0 ? 'rest' : 'zero' },
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
      for (const header of w.plan.board.fanHeaders) {
        if (header.role !== 'pump' || settingOf(w, header.id).curve) continue
        const at = `board.${header.id}`
        const fans = driven(w).flatMap(([motor, driver]) =>
          driver.port === at && w.parts.get(motor.part)?.kind === 'fan' ? [motor] : [],
        )
        if (fans.length > 0)
          yield { refs: [...fans.map((m) => m.plug), at], facts: { fans: fans.map((m) => m.part), at } }
      }
    },
  },
]
