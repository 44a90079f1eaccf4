/** Voltages: mixed up, and lost on the way. */
import { build } from '../../support/build.ts'
import { type RuleCase, rule, strips } from './rule-case.ts'

export const voltageCases: readonly RuleCase[] = [
  rule('light-5v-on-12v', 'a 5 V strip on a 12 V header, against a 5 V one', (bad) =>
    strips(1, { volts: 5, leds: 8 })
      .lightHeader('L1', { volts: bad ? 12 : 5 })
      .lead('S1.light', 'board.L1'),
  ),
  rule('light-12v-on-5v', 'a 12 V strip on a 5 V header, against a 12 V one', (bad) =>
    strips(1, { volts: 12, leds: 8 })
      .lightHeader('L1', { volts: bad ? 5 : 12 })
      .lead('S1.light', 'board.L1'),
  ),
  rule('light-drop', '3 A over 1 m of 26 AWG, against 0.5 m', (bad) =>
    // 3 A × 2 × 1 m × 133.9 mΩ/m = 0.80 V lost; over half a metre 0.40 V
    strips(1, { leds: 50, amps: 3 })
      .lightHeader('L1')
      .lead('S1.light', 'board.L1', { mm: bad ? 1000 : 500, awg: 26 }),
  ),
  rule('light-drop-low-rail', 'a rail at 4.75 V less 0.40 V, against less 0.16 V', (bad) =>
    strips(1, { leds: 50, amps: 3 })
      .lightHeader('L1')
      .lead('S1.light', 'board.L1', { mm: 500, awg: bad ? 26 : 22 }),
  ),
  rule('fan-drop', '2 A over 1 m of 28 AWG, against 0.5 m', (bad) =>
    // 2 A × 2 × 1 m × 212.9 mΩ/m = 0.85 V lost, 11.15 V left; over half a metre 0.43 V
    build()
      .header('SYS1', { amps: 3 })
      .plainFan('F1', { motor: { amps: 2, start_amps: 2 } })
      .lead('F1.motor', 'board.SYS1', { mm: bad ? 1000 : 500, awg: 28 }),
  ),
  rule('lead-over-gauge', '1.6 A through 28 AWG, against 26 AWG', (bad) =>
    strips(1, { leds: 30, amps: 1.6 })
      .lightHeader('L1')
      .lead('S1.light', 'board.L1', { mm: 100, awg: bad ? 28 : 26 }),
  ),
  rule('light-run-long', '1.2 m to the strip, against 0.9 m', (bad) =>
    strips(1, { leds: 10, amps: 0.4 })
      .lightHeader('L1')
      .lead('S1.light', 'board.L1', { mm: bad ? 1200 : 900 }),
  ),
  rule('supply-lacks-rail', 'a light hub behind a fan plug, against a peripheral plug', (bad) =>
    build()
      .supply('PA', { kind: 'peripheral' })
      .header('SYS1', { amps: 3 })
      .usbHeader('U1')
      .part('S1', { kind: 'strip', light: { leds: 8, amps: 0.4 } })
      .lightHub('H1', ['S1'])
      .lead('H1.usb', 'board.U1.a')
      .part('A1', { kind: 'adapter', from: bad ? 'fan4' : 'peripheral', to: 'sata' })
      .lead('A1.in', bad ? 'board.SYS1' : 'supply.PA.1')
      .lead('H1.power', 'A1.out'),
  ),
  rule('light-data-level', 'a header that sends at 3.3 V to LEDs at 5 V, against one at 5 V', (bad) =>
    build()
      .lightHeader('L1', { data_volts: bad ? 3.3 : 5 })
      .part('S1', { kind: 'strip', light: { volts: 5, leds: 10, amps: 0.4 } })
      .lead('S1.light', 'board.L1'),
  ),
]
