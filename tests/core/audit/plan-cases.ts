/** Plan sense, and what the plan does not say. */
import { type Build, build } from '../../support/build.ts'
import { lit, motor, oneFan, onFanHub, type RuleCase, rule, strips } from './rule-case.ts'

export const planCases: readonly RuleCase[] = [
  rule('part-alone', 'a fan with no lead at all, against on a header', (bad) => {
    const made = build().header('SYS1').plainFan('F1')
    return bad ? made : made.lead('F1.motor', 'board.SYS1')
  }),
  rule('motor-plug-open', 'a lit fan whose motor lead goes nowhere, against on a header', (bad) => {
    const made = build().header('SYS1').lightHeader('L1').fan('F1').lead('F1.light', 'board.L1')
    return bad ? made : made.lead('F1.motor', 'board.SYS1')
  }),
  rule('power-plug-open', 'a fan hub without supply, against with it', (bad) => {
    const made = build()
      .supply('SA')
      .header('SYS1')
      .plainFan('F1')
      .fanHub('FH1', ['F1'])
      .lead('FH1.in', 'board.SYS1')
    return bad ? made : made.lead('FH1.power', 'supply.SA.1')
  }),
  rule('upstream-open', 'a splitter with fans whose own lead goes nowhere, against on a header', (bad) => {
    const made = build().header('SYS1').plainFan('F1').splitter('Y1', ['F1'])
    return bad ? made : made.lead('Y1.in', 'board.SYS1')
  }),
  rule('nothing-on-it', 'a splitter that feeds nothing, against a fan', (bad) => {
    const made = build()
      .header('SYS1')
      .part('Y1', { kind: 'fan-splitter', ways: 2 })
      .lead('Y1.in', 'board.SYS1')
      .plainFan('F1')
    return bad ? made : made.lead('F1.motor', 'Y1.1')
  }),
  rule('names-alike', 'FO1 and F01, against F1 and F2', (bad) => {
    const [one, two] = bad ? ['FO1', 'F01'] : ['F1', 'F2']
    return build()
      .header('SYS1')
      .header('SYS2')
      .plainFan(one as string)
      .plainFan(two as string)
      .lead(`${one}.motor`, 'board.SYS1')
      .lead(`${two}.motor`, 'board.SYS2')
  }),
  rule('setting-for-empty-header', 'a curve for an empty header, against for the used one', (bad) =>
    oneFan({})
      .header('SYS2')
      .set(bad ? 'SYS2' : 'SYS1', { drive: 'pwm' }),
  ),
  rule('setting-for-dark-channel', 'a profile for an empty light header, against for the used one', (bad) =>
    strips(1, { leds: 8 })
      .lightHeader('L1')
      .lightHeader('L2')
      .lead('S1.light', 'board.L1')
      .channel(bad ? 'L2' : 'L1', { profile: [8] }),
  ),
  rule('setting-not-followed', 'a curve for a port that follows a header, against for the header', (bad) =>
    build()
      .supply('SA')
      .header('SYS1')
      .usbHeader('U1')
      .fan('F1')
      .controller('C1', ['F1'], { fan_control: 'header' })
      .lead('C1.power', 'supply.SA.1')
      .lead('C1.usb', 'board.U1.a')
      .lead('C1.in', 'board.SYS1')
      .set(bad ? 'C1.fan1' : 'SYS1', { drive: 'pwm' }),
  ),
  rule('leads-one-label', 'two hubs at one place, against at two', (bad) =>
    onFanHub(1, { at: 'rear' })
      .plainFan('F9')
      .header('SYS9')
      .fanHub('FH9', ['F9'], { at: bad ? 'rear' : 'floor' })
      .lead('FH9.power', 'supply.SA.2')
      .lead('FH9.in', 'board.SYS9'),
  ),
]

const hubbed = (keys: Parameters<typeof onFanHub>[1]): Build => onFanHub(1, keys)

export const unknownCases: readonly RuleCase[] = [
  rule('unknown-motor-amps', 'a fan without its current, against 0.2 A', (bad) =>
    oneFan({}, motor({ amps: bad ? 'unknown' : 0.2 })),
  ),
  rule('unknown-header-amps', 'a header without its limit, against 1 A', (bad) =>
    oneFan({ amps: bad ? 'unknown' : 1 }),
  ),
  rule('unknown-light-header-amps', 'a light header without its limit, against 3 A', (bad) =>
    strips(1, { leds: 8, amps: 0.3 })
      .lightHeader('L1', { amps: bad ? 'unknown' : 3 })
      .lead('S1.light', 'board.L1'),
  ),
  rule('unknown-leds', 'a strip without a count, against 8', (bad) =>
    strips(1, { leds: bad ? 'unknown' : 8, amps: 0.3 })
      .lightHeader('L1')
      .lead('S1.light', 'board.L1'),
  ),
  rule('unknown-light-volts', 'a strip and a header of which nobody knows the voltage, against 5 V', (bad) =>
    strips(1, { leds: 8, amps: 0.3, volts: bad ? 'unknown' : 5 })
      .lightHeader('L1', { volts: bad ? 'unknown' : 5 })
      .lead('S1.light', 'board.L1'),
  ),
  rule('unknown-light-amps', 'a strip without its current, against 0.3 A', (bad) =>
    strips(1, { leds: 8, amps: bad ? 'unknown' : 0.3 })
      .lightHeader('L1')
      .lead('S1.light', 'board.L1'),
  ),
  rule('unknown-hub-amps', 'a hub without its limit, against 4 A', (bad) =>
    hubbed({ amps: bad ? 'unknown' : 4 }),
  ),
  rule('unknown-usb-current', 'a hub whose USB current nobody knows, against 100 mA', (bad) =>
    lit(1, { usb_milliamps: bad ? 'unknown' : 100 }),
  ),
  rule('unknown-fan-kind', 'a rest under the start for a fan of unknown kind, against a known one', (bad) =>
    oneFan({ drive: 'pwm' }, motor(bad ? {} : { below_min: 'keeps' })).set('SYS1', {
      curve: [
        [30, 15],
        [70, 100],
      ],
    }),
  ),
  rule('unknown-profile', 'a channel that is told no count, against one that is', (bad) => {
    const made = lit(2)
    return bad ? made : made.channel('H1', { profile: [8, 8] })
  }),
  rule('unknown-lengths', '2.4 A of lights on leads of unknown length, against 300 mm', (bad) =>
    strips(1, { leds: 40, amps: 2.4 })
      .lightHeader('L1')
      .lead('S1.light', 'board.L1', bad ? {} : { mm: 300 }),
  ),
  rule('unknown-flow', 'a fan that blows who knows where, against in', (bad) =>
    oneFan({}, bad ? { at: 'side' } : { flow: 'in' }),
  ),
]
