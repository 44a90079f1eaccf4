/** Control: the wrong kind, the wrong rest, the wrong header. */
import { build } from '../../support/build.ts'
import { motor, oneFan, onFanHub, onSplitter, type RuleCase, rule } from './rule-case.ts'

const curve = (rest: number, top = 100) => [
  [30, rest],
  [70, top],
]

export const controlCases: readonly RuleCase[] = [
  rule('three-pin-on-pwm', 'a 3-pin fan on a header set to PWM, against DC', (bad) =>
    oneFan({}, motor({ pins: 3 })).set('SYS1', { drive: bad ? 'pwm' : 'dc' }),
  ),
  rule('control-not-passed', 'a splitter of three wires, against four', (bad) =>
    onSplitter(2, { drive: 'pwm' }, {}, { passes_control: !bad }),
  ),
  rule('hub-without-control-lead', 'a fed hub without its control lead, against with it', (bad) => {
    const made = build()
      .supply('SA')
      .header('SYS1')
      .plainFan('F1')
      .fanHub('FH1', ['F1'])
      .lead('FH1.power', 'supply.SA.1')
    return bad ? made : made.lead('FH1.in', 'board.SYS1')
  }),
  rule('four-pin-on-dc', 'a 4-pin fan on a DC header, against PWM', (bad) =>
    oneFan({ drive: bad ? 'dc' : 'pwm' }),
  ),
  rule('dc-into-powered-hub', 'a header in DC before a fed hub, against PWM', (bad) =>
    onFanHub(2, {}).set('SYS1', { drive: bad ? 'dc' : 'pwm' }),
  ),
  rule('drive-not-offered', 'PWM asked of a DC header, against DC', (bad) =>
    oneFan({ drive: 'dc' }).set('SYS1', { drive: bad ? 'pwm' : 'dc' }),
  ),
  rule('curve-under-start-duty', 'a rest at 20 % for a fan that starts at 30 %, against 35 %', (bad) =>
    oneFan({ drive: 'pwm' }, motor({ below_min: 'stops', start_duty: 30 })).set('SYS1', {
      curve: curve(bad ? 20 : 35),
    }),
  ),
  rule('curve-never-starts', 'a curve from 0 to 25 % for a fan that starts at 30 %, against to 35 %', (bad) =>
    oneFan({ drive: 'pwm' }, motor({ below_min: 'stops', start_duty: 30 })).set('SYS1', {
      curve: curve(0, bad ? 25 : 35),
    }),
  ),
  rule('dc-never-starts', '6 V at most for a fan that starts at 8 V, against 9.6 V', (bad) =>
    oneFan({ drive: 'dc' }, motor({ start_volts: 8 })).set('SYS1', { curve: curve(40, bad ? 50 : 80) }),
  ),
  rule('curve-rests-at-zero', 'a rest at 0 %, against 35 %', (bad) =>
    oneFan({ drive: 'pwm' }, motor({ below_min: 'stops-at-zero' })).set('SYS1', {
      curve: curve(bad ? 0 : 35),
    }),
  ),
  rule('dc-under-start-volts', '4.8 V for a fan that starts at 7 V, against 7.2 V', (bad) =>
    oneFan({ drive: 'dc' }, motor({ pins: 3, start_volts: 7 })).set('SYS1', { curve: curve(bad ? 40 : 60) }),
  ),
  rule('curve-falls', 'a curve that falls with the heat, against one that rises', (bad) =>
    oneFan({ drive: 'pwm' }).set('SYS1', { curve: bad ? curve(80, 60) : curve(60, 80) }),
  ),
  rule('curve-never-full', 'a curve that ends at 50 %, against 80 %', (bad) =>
    oneFan({ drive: 'pwm' }).set('SYS1', { curve: curve(40, bad ? 50 : 80) }),
  ),
  rule('pump-slowed', 'a pump that follows a curve, against one held at 100 %', (bad) =>
    build()
      .header('PUMP1', { role: 'pump', drive: 'pwm' })
      .pump('P1')
      .lead('P1.motor', 'board.PUMP1')
      .set('PUMP1', { curve: curve(bad ? 50 : 100) }),
  ),
  rule('pump-uncurved', 'a pump on a plain fan header without settings, against a pump header', (bad) =>
    build()
      .header('SYS1', { role: bad ? 'fan' : 'pump', drive: 'pwm' })
      .pump('P1')
      .lead('P1.motor', 'board.SYS1'),
  ),
  rule('fan-on-pump-header', 'a fan on the pump header, against a fan header', (bad) =>
    oneFan({ role: bad ? 'pump' : 'fan' }),
  ),
  rule('cpu-header-empty', 'nothing on the CPU header, against the cooler’s fan', (bad) =>
    build()
      .header('CPU', { role: 'cpu' })
      .header('SYS1')
      .plainFan('F1')
      .lead('F1.motor', bad ? 'board.SYS1' : 'board.CPU'),
  ),
  rule('cpu-header-no-tach', 'a CPU fan whose splitter keeps the tach, against one that returns it', (bad) =>
    build()
      .header('CPU', { role: 'cpu' })
      .plainFan('F1')
      .plainFan('F2')
      .splitter('Y1', ['F1', 'F2'], { tach_from: bad ? 'none' : 1 })
      .lead('Y1.in', 'board.CPU'),
  ),
  rule('alarm-above-speed', 'an alarm under 700 rpm for a fan at 600, against 500', (bad) =>
    oneFan({ drive: 'pwm' }).set('SYS1', { curve: curve(40), alarm_below: bad ? 700 : 500 }),
  ),
  rule(
    'alarm-without-tach',
    'an alarm on a header whose splitter keeps the tach, against one that returns it',
    (bad) => onSplitter(2, {}, {}, { tach_from: bad ? 'none' : 1 }).set('SYS1', { alarm_below: 200 }),
  ),
  rule('alarm-off', 'no alarm on the CPU header, against 200 rpm', (bad) =>
    oneFan({ role: 'cpu' }, {}, 'CPU').set('CPU', { alarm_below: bad ? 0 : 200 }),
  ),
  rule('unlike-fans-on-one-header', '1000 and 2000 rpm on one header, against 1000 and 1400', (bad) =>
    build()
      .header('SYS1')
      .plainFan('F1', motor({ rpm: [300, 1000] }))
      .plainFan('F2', motor({ rpm: [300, bad ? 2000 : 1400] }))
      .splitter('Y1', ['F1', 'F2'])
      .lead('Y1.in', 'board.SYS1'),
  ),
  rule('mixed-plugs-on-one-header', 'a 3-pin and a 4-pin fan on one header, against two of 4 pins', (bad) =>
    build()
      .header('SYS1')
      .plainFan('F1')
      .plainFan('F2', motor({ pins: bad ? 3 : 4 }))
      .splitter('Y1', ['F1', 'F2'])
      .lead('Y1.in', 'board.SYS1'),
  ),
]
