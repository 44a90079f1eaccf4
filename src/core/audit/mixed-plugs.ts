/** Fans with and without a control pin on one header: no mode suits both, and which of them suffers goes by the mode. */
import { type Driver, headerDriver, isLowered } from './drive.ts'
import { COMMON, type Rule } from './finding.ts'
import { canDo } from './other-header.ts'
import { driveRef } from './steering.ts'
import type { Wiring } from './wiring.ts'

/** Whether no mode of a header suits all its fans; a pump without control pin is right at full speed. */
export function isMixed(w: Wiring, driver: Driver): boolean {
  if (!driver.header) return false
  const fans = w.motorsOn(driver.port)
  const suffers = (part: string): boolean => driver.mode === 'dc' || w.parts.get(part)?.kind !== 'pump'
  return fans.some((m) => m.motor.pins === 4) && fans.some((m) => m.motor.pins < 4 && suffers(m.part))
}

export const mixedPlugs: Rule = {
  id: 'mixed-plugs-on-one-header',
  severity: 'untidy',
  source: COMMON,
  *find(w) {
    for (const header of w.plan.board.fanHeaders) {
      const driver = headerDriver(w, header)
      if (!isMixed(w, driver)) continue
      const fans = w.motorsOn(driver.port)
      const without = fans.filter((m) => m.motor.pins < 4)
      const dc = canDo(header, 'dc') && without.every((m) => isLowered(w, m, driver))
      yield {
        refs: [driver.port, driveRef(header.id), ...fans.map((m) => m.plug)],
        severity: driver.mode === 'pwm' ? 'may-not-work' : 'untidy',
        facts: {
          at: driver.port,
          with4: fans.filter((m) => m.motor.pins === 4).map((m) => m.part),
          without: without.map((m) => m.part),
          mode: driver.mode,
          taken: canDo(header, 'pwm') && canDo(header, 'dc') && !driver.setting.drive ? 'yes' : 'no',
          dc: dc ? 'yes' : 'no',
        },
        rests: [
          ...(driver.setting.drive ? [] : [`board.fan_headers.${header.id}.drive`]),
          ...fans.map((m) => `parts.${m.part}.motor.pins`),
        ],
      }
    }
  },
}
