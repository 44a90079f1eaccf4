/** Currents: over their limit and at it. */
import { build } from '../../support/build.ts'
import {
  adapterFed,
  ids,
  lit,
  motor,
  onController,
  oneFan,
  onFanHub,
  onSplitter,
  type RuleCase,
  rule,
  strips,
  withWatts,
} from './rule-case.ts'

export const currentCases: readonly RuleCase[] = [
  rule('header-over-current', 'four 0.3 A fans on 1 A, against three', (bad) =>
    onSplitter(bad ? 4 : 3, { amps: 1 }, motor({ amps: 0.3 })),
  ),
  rule('header-over-margin', '0.9 A of 1 A, against 0.8 A', (bad) =>
    onSplitter(2, { amps: 1 }, motor({ amps: bad ? 0.45 : 0.4 })),
  ),
  rule('header-start-surge', 'three starts of 0.5 A on 1 A, against two', (bad) =>
    onSplitter(bad ? 3 : 2, { amps: 1 }, motor({ amps: 0.2, start_amps: 0.5 })),
  ),
  rule('fan-hub-over-current', 'ten fans of 0.5 A on a hub of 4.5 A, against nine', (bad) =>
    onFanHub(bad ? 10 : 9, { amps: 4.5 }, motor({ amps: 0.5, start_amps: 0.5 })),
  ),
  rule('fan-hub-port-over-current', 'a 1.2 A fan on a port of 1 A, against 0.9 A', (bad) =>
    onFanHub(1, { amps: 4.5, port_amps: 1 }, motor({ amps: bad ? 1.2 : 0.9, start_amps: 1.2 })),
  ),
  rule('fan-hub-start-surge', 'eight starts of 0.6 A on 4.5 A, against seven', (bad) =>
    onFanHub(bad ? 8 : 7, { amps: 4.5 }, motor({ amps: 0.3, start_amps: 0.6 })),
  ),
  rule('controller-fans-over-current', 'six fans of 0.4 A on 2 A, against five', (bad) =>
    onController(bad ? 6 : 5, { fan_amps: 2 }, motor({ amps: 0.4, start_amps: 0.4 })),
  ),
  rule('controller-fan-port-over-current', '0.7 A on a port of 0.5 A, against 0.5 A', (bad) =>
    onController(1, { fan_port_amps: 0.5 }, motor({ amps: bad ? 0.7 : 0.5, start_amps: 0.8 })),
  ),
  rule('controller-start-surge', 'three starts of 0.8 A on 2 A, against two', (bad) =>
    onController(bad ? 3 : 2, { fan_amps: 2 }, motor({ amps: 0.3, start_amps: 0.8 })),
  ),
  rule('light-header-over-current', 'sixty LEDs on a 3 A header, against fifty', (bad) =>
    strips(1, { volts: 5, leds: bad ? 60 : 50, amps: bad ? 3.6 : 3 })
      .lightHeader('L1', { amps: 3 })
      .lead('S1.light', 'board.L1'),
  ),
  rule('light-hub-over-current', 'four fans of 0.8 A on a hub of 3 A, against three', (bad) =>
    lit(bad ? 4 : 3, { amps: 3 }, { amps: 0.8 }),
  ),
  rule('light-hub-port-over-current', '1.2 A of lights on a port of 1 A, against 0.9 A', (bad) =>
    lit(1, { port_amps: 1 }, { amps: bad ? 1.2 : 0.9 }),
  ),
  rule('controller-lights-over-current', 'four fans of 0.6 A on 2 A, against three', (bad) =>
    onController(bad ? 4 : 3, { light_amps: 2 }, { light: { amps: 0.6 } }),
  ),
  rule('controller-light-port-over-current', '0.9 A of lights on a port of 0.8 A, against 0.8 A', (bad) =>
    onController(1, { light_port_amps: 0.8 }, { light: { amps: bad ? 0.9 : 0.8 } }),
  ),
  rule('light-splitter-over-current', 'two strips of 1.2 A on a splitter of 2 A, against 0.9 A', (bad) =>
    strips(2, { leds: 20, amps: bad ? 1.2 : 0.9 })
      .lightHeader('L1')
      .lightSplitter('LS1', ['S1', 'S2'], { amps: 2 })
      .lead('LS1.in', 'board.L1'),
  ),
  rule('sata-plug-over-current', 'ten fans of 0.5 A behind one SATA plug, against nine', (bad) =>
    onFanHub(bad ? 10 : 9, { amps: 8 }, motor({ amps: 0.5 })),
  ),
  rule(
    'peripheral-plug-over-current',
    'twelve fans of 1 A behind one peripheral plug, against eleven',
    (bad) => {
      const n = bad ? 12 : 11
      const made = build().supply('PA', { kind: 'peripheral' }).header('SYS1')
      for (const id of ids(n)) made.plainFan(id, motor({ amps: 1, start_amps: 1 }))
      return made
        .fanHub('FH1', ids(n), { power: 'peripheral', amps: 20 })
        .lead('FH1.power', 'supply.PA.1')
        .lead('FH1.in', 'board.SYS1')
    },
  ),
  rule(
    'supply-lead-over-current',
    'two hubs of 3 A on a lead of 5 A, against one on each of two leads',
    (bad) => {
      const made = build()
        .supply('SA', { amps_12v: 5 })
        .supply('SB', { amps_12v: 5 })
        .header('SYS1')
        .header('SYS2')
      for (const id of ids(6)) made.plainFan(id, motor({ amps: 1, start_amps: 1 }))
      return made
        .fanHub('FH1', ['F1', 'F2', 'F3'])
        .fanHub('FH2', ['F4', 'F5', 'F6'])
        .lead('FH1.power', 'supply.SA.1')
        .lead('FH2.power', bad ? 'supply.SA.2' : 'supply.SB.1')
        .lead('FH1.in', 'board.SYS1')
        .lead('FH2.in', 'board.SYS2')
    },
  ),
  rule('supply-over-power', 'seven 1 A fans on a supply of 80 W, against 90 W', (bad) =>
    withWatts(bad ? 80 : 90),
  ),
  rule('fan-over-specification', 'a fan of 1.8 A, against 1.4 A', (bad) =>
    oneFan({ amps: 3 }, motor({ amps: bad ? 1.8 : 1.4, start_amps: 2 })),
  ),
  rule('adapter-moulded', 'a cast adapter, against a crimped one', (bad) =>
    adapterFed({ from: 'peripheral', to: 'sata', moulded: bad }),
  ),
  rule('sata-feeds-peripheral', 'two peripheral plugs from one SATA plug, against one', (bad) =>
    build()
      .supply('SA')
      .header('SYS1')
      .plainFan('F1')
      .fanHub('FH1', ['F1'], { power: 'peripheral' })
      .lead('FH1.in', 'board.SYS1')
      .part('A1', { kind: 'adapter', from: 'sata', to: 'peripheral', outs: bad ? 2 : 1 })
      .lead('A1.in', 'supply.SA.1')
      .lead('FH1.power', bad ? 'A1.out1' : 'A1.out'),
  ),
  rule('locked-rotor-over-limit', '0.75 A running and one fan at 0.6 A when held, against 0.4 A', (bad) =>
    onSplitter(3, { amps: 1 }, motor({ locked_amps: bad ? 0.6 : 0.4 })),
  ),
]
