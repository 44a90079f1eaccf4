/** USB: ports, current, depth. */
import { type Build, build, type Keys } from '../../support/build.ts'
import { type RuleCase, rule } from './rule-case.ts'

const device = (milliamps: number, ports = 1): Keys => ({
  kind: 'usb-device',
  ports,
  usb_milliamps: milliamps,
})
/** A hub on U1.a with devices on its ports. */
const onHub = (hub: Keys, devices: readonly number[]): Build => {
  const made = build()
    .supply('SA')
    .usbHeader('U1')
    .part('UH1', { kind: 'usb-hub', ports: 6, ...hub })
    .lead('UH1.usb', 'board.U1.a')
  if (hub.power === 'sata') made.lead('UH1.power', 'supply.SA.1')
  devices.forEach((ma, i) => {
    made.part(`D${i + 1}`, device(ma)).lead(`D${i + 1}.usb`, `UH1.${i + 1}`)
  })
  return made
}
/** Hubs one behind the other, and a device behind the last. */
const deep = (hubs: number): Build => {
  const made = build().supply('SA').supply('SB').supply('SC').usbHeader('U1')
  for (let i = 1; i <= hubs; i++)
    made
      .part(`UH${i}`, { kind: 'usb-hub', ports: 2, power: 'sata' })
      .lead(`UH${i}.usb`, i === 1 ? 'board.U1.a' : `UH${i - 1}.1`)
      .lead(`UH${i}.power`, `supply.S${'ABC'[Math.floor((i - 1) / 3)]}.${((i - 1) % 3) + 1}`)
  return made.part('D1', device(100)).lead('D1.usb', `UH${hubs}.1`)
}

export const usbCases: readonly RuleCase[] = [
  rule('usb-header-over-current', '600 mA from a port of 500 mA, against 500 mA', (bad) =>
    build()
      .usbHeader('U1', { milliamps: 500 })
      .part('D1', device(bad ? 600 : 500))
      .lead('D1.usb', 'board.U1.a'),
  ),
  rule('usb-hub-port-over-current', '300 mA on a port of a bus-powered hub, against 100 mA', (bad) =>
    onHub({ power: 'bus' }, [bad ? 300 : 100]),
  ),
  rule('usb-bus-hub-over-budget', 'five devices of 100 mA on a bus-powered hub, against four', (bad) =>
    onHub({ power: 'bus' }, bad ? [100, 100, 100, 100, 100] : [100, 100, 100, 100]),
  ),
  rule(
    'usb-bus-hubs-chained',
    'a bus-powered hub behind another, against behind one with its own supply',
    (bad) =>
      onHub({ power: bad ? 'bus' : 'sata' }, [])
        .part('UH2', { kind: 'usb-hub', ports: 2, power: 'bus' })
        .lead('UH2.usb', 'UH1.1')
        .part('D1', device(50))
        .lead('D1.usb', 'UH2.1'),
  ),
  rule('usb-bus-hub-ports', 'five ports in use of a bus-powered hub, against four', (bad) =>
    onHub({ power: 'bus' }, bad ? [10, 10, 10, 10, 10] : [10, 10, 10, 10]),
  ),
  rule('usb-too-deep', 'a device behind six hubs, against five', (bad) => deep(bad ? 6 : 5)),
  rule('usb-passive-split', 'one row split into two, against an extension', (bad) =>
    build()
      .usbHeader('U1')
      .part('A1', { kind: 'adapter', from: 'usb2', to: 'usb2', outs: bad ? 2 : 1 })
      .lead('A1.in', 'board.U1.a')
      .part('D1', device(100))
      .lead('D1.usb', bad ? 'A1.out1' : 'A1.out'),
  ),
  rule('usb-header-over-split', 'a header split into three, against two', (bad) =>
    build()
      .usbHeader('U1')
      .part('A1', { kind: 'adapter', from: 'usb2-pair', to: 'usb2', outs: bad ? 3 : 2 })
      .lead('A1.in', 'board.U1')
      .part('D1', device(100))
      .lead('D1.usb', 'A1.out1'),
  ),
  rule('usb-3-header-bare', 'a 9-pin plug on a 19-pin header, against through an adapter', (bad) => {
    const made = build().usbHeader('U3', { kind: 'usb3', ports: 2 }).part('D1', device(100))
    return bad
      ? made.lead('D1.usb', 'board.U3.a')
      : made
          .part('A1', { kind: 'adapter', from: 'usb3', to: 'usb2' })
          .lead('A1.in', 'board.U3')
          .lead('D1.usb', 'A1.out')
  }),
  rule('usb-port-off', 'a device on a port turned off, against the other row', (bad) =>
    build()
      .usbHeader('U1')
      .part('D1', device(100))
      .lead('D1.usb', bad ? 'board.U1.a' : 'board.U1.b')
      .settings({ ports: { 'board.U1.a': { enabled: false } } }),
  ),
  rule('usb-device-over-port', 'a device of 800 mA, against 500 mA', (bad) =>
    build()
      .usbHeader('U1', { milliamps: 900 })
      .part('D1', device(bad ? 800 : 500))
      .lead('D1.usb', 'board.U1.a'),
  ),
  rule('usb-lead-missing', 'a hub with a device but without its own lead, against with it', (bad) => {
    const made = build()
      .usbHeader('U1')
      .part('UH1', { kind: 'usb-hub', ports: 2, power: 'bus' })
      .part('D1', device(50))
      .lead('D1.usb', 'UH1.1')
    return bad ? made : made.lead('UH1.usb', 'board.U1.a')
  }),
  rule('usb-hub-under-unit-load', 'ports of 50 mA, against 100 mA', (bad) =>
    onHub({ power: 'bus', port_milliamps: bad ? 50 : 100 }, [20]),
  ),
  rule('usb-ports-short', 'three readers for a header of two ports, against two', (bad) => {
    const made = build().usbHeader('U1')
    for (const n of bad ? [1, 2, 3] : [1, 2]) made.part(`D${n}`, device(100))
    return made.lead('D1.usb', 'board.U1.a').lead('D2.usb', 'board.U1.b')
  }),
  rule('usb-row-missing', 'a front panel of two ports on a header of one, against two', (bad) =>
    build()
      .usbHeader('U1', { ports: bad ? 1 : 2 })
      .part('front-panel', device(500, 2))
      .lead('front-panel.usb', 'board.U1'),
  ),
  rule('usb-port-set-twice', 'a header on and one of its rows off, against both off', (bad) =>
    build()
      .usbHeader('U1')
      .part('D1', device(100))
      .lead('D1.usb', 'board.U1.a')
      .settings({ ports: { 'board.U1': { enabled: bad }, 'board.U1.a': { enabled: false } } }),
  ),
]
