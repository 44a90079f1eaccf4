/** Light data: gaps, counts, orders, hosts. */
import { build, type Keys } from '../../support/build.ts'
import { lit, onController, type RuleCase, rule, strips } from './rule-case.ts'

/** Three lit fans on the ports named, of a hub with six. */
const onPorts = (ports: readonly number[], hub: Keys = {}) => {
  const made = build().supply('SA').header('SYS1', { amps: 5 }).usbHeader('U1')
  ports.forEach((port, i) => {
    made.fan(`F${i + 1}`).lead(`F${i + 1}.light`, `H1.${port}`)
  })
  return made
    .splitter(
      'Y1',
      ports.map((_, i) => `F${i + 1}`),
    )
    .lead('Y1.in', 'board.SYS1')
    .part('H1', { kind: 'light-hub', ports: 6, chain: 'series', power: 'sata', host: 'usb', ...hub })
    .lead('H1.power', 'supply.SA.1')
    .lead('H1.usb', 'board.U1.a')
}
/** Two strips on a splitter on a board header. */
const twoStrips = (first: Keys, second: Keys) =>
  build()
    .lightHeader('L1', { amps: 5 })
    .part('S1', { kind: 'strip', light: first })
    .part('S2', { kind: 'strip', light: second })
    .lightSplitter('LS1', ['S1', 'S2'], { amps: 5 })
    .lead('LS1.in', 'board.L1')

export const lightCases: readonly RuleCase[] = [
  rule('series-gap', 'ports 1, 2 and 4 of a hub in series, against 1, 2 and 3', (bad) =>
    onPorts([1, 2, bad ? 4 : 3]),
  ),
  rule('series-no-return', 'a strip without a return wire before a fan, against one with', (bad) =>
    build()
      .supply('SA')
      .usbHeader('U1')
      .part('S1', { kind: 'strip', light: { leds: 10, amps: 0.4, returns: !bad } })
      .part('S2', { kind: 'strip', light: { leds: 10, amps: 0.4 } })
      .lightHub('H1', ['S1', 'S2'])
      .lead('H1.power', 'supply.SA.1')
      .lead('H1.usb', 'board.U1.a'),
  ),
  rule('splitter-in-series', 'a light splitter on a hub in series, against one in parallel', (bad) =>
    strips(2, { leds: 10, amps: 0.4 })
      .supply('SA')
      .usbHeader('U1')
      .lightSplitter('LS1', ['S1', 'S2'])
      .part('H1', {
        kind: 'light-hub',
        ports: 2,
        chain: bad ? 'series' : 'parallel',
        power: 'sata',
        host: 'usb',
      })
      .lead('LS1.in', 'H1.1')
      .lead('H1.power', 'supply.SA.1')
      .lead('H1.usb', 'board.U1.a'),
  ),
  rule('channel-over-leds', 'three fans of eight on a channel of 20, against 24', (bad) =>
    lit(3, { max_leds: bad ? 20 : 24 }),
  ),
  rule('frames-too-slow', '1200 LEDs in one chain, against 1000', (bad) =>
    strips(1, { leds: bad ? 1200 : 1000, amps: 1 })
      .lightHeader('L1')
      .lead('S1.light', 'board.L1'),
  ),
  rule('profile-short', '20 LEDs told where 24 are fitted, against 24', (bad) =>
    lit(3).channel('H1', { profile: [8, 8, bad ? 4 : 8] }),
  ),
  rule('profile-long', '30 LEDs told where 24 are fitted, against 24', (bad) =>
    lit(3).channel('H1', { profile: [8, 8, bad ? 14 : 8] }),
  ),
  rule('profile-order', '12 and 8 told of a chain of 8 and 12, against 8 and 12', (bad) =>
    build()
      .supply('SA')
      .usbHeader('U1')
      .part('S1', { kind: 'strip', light: { leds: 8, amps: 0.3, returns: true } })
      .part('S2', { kind: 'strip', light: { leds: 12, amps: 0.4 } })
      .lightHub('H1', ['S1', 'S2'])
      .lead('H1.power', 'supply.SA.1')
      .lead('H1.usb', 'board.U1.a')
      .channel('H1', { profile: bad ? [12, 8] : [8, 12] }),
  ),
  rule('colours-mismatch', 'RGB sent to GRB lights, against GRB', (bad) =>
    lit(2, {}, { colours: 'GRB' }).channel('H1', { colours: bad ? 'RGB' : 'GRB' }),
  ),
  rule('unlike-leds-on-channel', 'GRB and RGBW on one channel, against two GRB', (bad) =>
    twoStrips({ leds: 8, amps: 0.4, colours: 'GRB' }, { leds: 8, amps: 0.4, colours: bad ? 'RGBW' : 'GRB' }),
  ),
  rule('host-lead-missing', 'a hub without its USB lead, against with it', (bad) => {
    const made = build()
      .supply('SA')
      .usbHeader('U1')
      .part('S1', { kind: 'strip', light: { leds: 8 } })
    made.lightHub('H1', ['S1']).lead('H1.power', 'supply.SA.1')
    return bad ? made : made.lead('H1.usb', 'board.U1.a')
  }),
  rule('nobody-drives', 'a hub with no host at all, against one on a light header', (bad) => {
    const made = build()
      .supply('SA')
      .lightHeader('L1')
      .part('S1', { kind: 'strip', light: { leds: 8 } })
      .lightHub('H1', ['S1'], { host: bad ? 'none' : 'header', before_host: 'stored-pattern' })
      .lead('H1.power', 'supply.SA.1')
    return bad ? made : made.lead('H1.in', 'board.L1')
  }),
  rule('program-absent', 'no lighting program, against a running one', (bad) =>
    lit(2).host({ program: bad ? 'absent' : 'running' }),
  ),
  rule('global-effect-on', 'a global effect over set channels, against none', (bad) =>
    lit(2)
      .channel('H1', { profile: [8, 8] })
      .host({ global_effect: bad ? 'on' : 'off' }),
  ),
  rule(
    'two-hosts',
    'a pump with its own USB host whose light lead hangs on a header too, against free',
    (bad) => {
      const made = build()
        .header('PUMP1', { role: 'pump' })
        .usbHeader('U1')
        .lightHeader('L1')
        .pump('P1', { host: 'usb', light: { leds: 8, amps: 0.3 } })
        .lead('P1.motor', 'board.PUMP1')
        .lead('P1.usb', 'board.U1.a')
      return bad ? made.lead('P1.light', 'board.L1') : made
    },
  ),
  rule(
    'channel-told-elsewhere',
    'a profile for a hub that listens to a header, against for the header',
    (bad) =>
      strips(1, { leds: 8 })
        .supply('SA')
        .lightHeader('L1')
        .lightHub('H1', ['S1'], { host: 'header' })
        .lead('H1.power', 'supply.SA.1')
        .lead('H1.in', 'board.L1')
        .channel(bad ? 'H1' : 'L1', { profile: [8] }),
  ),
  rule('branches-unlike', 'branches of 8 and 12 LEDs on one stream, against 8 and 8', (bad) =>
    twoStrips({ leds: 8, amps: 0.4 }, { leds: bad ? 12 : 8, amps: 0.4 }),
  ),
  rule(
    'chain-out-of-place',
    'a chain that runs F1, F2, F3 where the places run otherwise, against alike',
    (bad) => lit(3).lightOrder(...(bad ? ['F1', 'F3', 'F2'] : ['F1', 'F2', 'F3'])),
  ),
  rule('light-order-incomplete', 'a lit fan missing from the order of places, against all named', (bad) =>
    lit(3).lightOrder(...(bad ? ['F1', 'F2'] : ['F1', 'F2', 'F3'])),
  ),
  rule('light-plug-open', 'a light lead that goes nowhere, against one on the controller', (bad) => {
    const made = onController(1, { light_ports: 2 }).fan('F9').lead('F9.motor', 'board.SYS1').header('SYS1')
    return bad ? made : made.lead('F9.light', 'C1.light2')
  }),
  rule('light-order-jumps', 'front, rear and front again, against front, front and rear', (bad) => {
    const at = bad ? ['front-top', 'rear', 'front-bottom'] : ['front-top', 'front-bottom', 'rear']
    const made = lit(3)
    for (const [i, where] of at.entries()) made.fan(`F${i + 1}`, { at: where })
    return made.lightOrder('F1', 'F2', 'F3')
  }),
]
