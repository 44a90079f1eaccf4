/** Alarms: what the board will say of the CPU and pump header at power-on, and of a slow fan. */
import { dutyAt, restDuty } from '../electrics/fan-curve.ts'
import { isOver } from '../electrics/overload.ts'
import { headerDriver, settingOf } from './drive.ts'
import { COMMON, type Hit, type Rule } from './finding.ts'
import { rpmUnder, watched } from './steering.ts'
import type { Wiring } from './wiring.ts'

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

export const alarms: readonly Rule[] = [
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
    id: 'alarm-without-tach',
    severity: 'may-not-work',
    unit: 'rpm',
    source: 'kernel driver pages on fan limits: an alarm under the limit',
    *find(w) {
      for (const header of w.plan.board.fanHeaders) {
        const ref = `board.${header.id}`
        const { alarmBelow } = settingOf(w, header.id)
        const pulses = w.tachsOn(ref).some((m) => m.motor.tach === 'pulses')
        if (alarmBelow && w.plugIn(ref) !== undefined && !pulses)
          yield {
            refs: [`headers/${header.id}/alarm_below`, ref],
            figure: 0,
            limit: alarmBelow,
            facts: { at: ref },
          }
      }
    },
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
]
