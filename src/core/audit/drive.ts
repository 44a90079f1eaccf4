/** What steers a motor: the header or controller port it listens to, in which mode, and with which curve. */
import type { FanHeader, HeaderSetting, PortRef } from '../plan/plan.ts'
import { type MotorAt, partOf, type Wiring } from './wiring.ts'

export interface Driver {
  /** `board.SYS1` or `C1.fan2`. */
  readonly port: PortRef
  /** The place in the settings: `SYS1` or `C1.fan2`. */
  readonly key: string
  readonly header: FanHeader | undefined
  readonly setting: HeaderSetting
  readonly mode: 'pwm' | 'dc'
}

export const settingOf = (w: Wiring, key: string): HeaderSetting => w.plan.settings.headers[key] ?? {}

/** `auto` goes by the plug that sits in the header. */
export function modeOf(w: Wiring, header: FanHeader): 'pwm' | 'dc' {
  if (header.pins === 3) return 'dc'
  if (header.drive !== 'auto') return header.drive
  const { drive } = settingOf(w, header.id)
  if (drive) return drive
  const plug = w.plugIn(`board.${header.id}`)
  return plug !== undefined && w.ports.get(plug)?.connector === 'fan3' ? 'dc' : 'pwm'
}

export const headerDriver = (w: Wiring, header: FanHeader): Driver => ({
  port: `board.${header.id}`,
  key: header.id,
  header,
  setting: settingOf(w, header.id),
  mode: modeOf(w, header),
})

/** What the motor's control wire, or failing that its supply, leads to; undefined where nothing steers it. */
export function driverOf(w: Wiring, motor: MotorAt): Driver | undefined {
  const control = w.trace(motor.plug, 'CONTROL')
  if (control.end === 'source') {
    const header = w.fanHeader(control.at)
    if (header) return headerDriver(w, header)
    if (partOf(control.at) === 'board' || partOf(control.at) === 'supply') return undefined
    return {
      port: control.at,
      key: control.at,
      header: undefined,
      setting: settingOf(w, control.at),
      mode: 'pwm',
    }
  }
  const power = w.trace(motor.feed, '12V')
  const header = w.fanHeader(power.at)
  return header && headerDriver(w, header)
}

/** Whether the control signal of a driver really arrives at the motor's own pin. */
export const isControlled = (w: Wiring, motor: MotorAt): boolean =>
  motor.motor.pins === 4 && w.trace(motor.plug, 'CONTROL').end === 'source'

/** Whether the supply that a driver lowers is the one that the motor gets. */
export const isLowered = (w: Wiring, motor: MotorAt, driver: Driver): boolean =>
  w.trace(motor.feed, '12V').at === driver.port
