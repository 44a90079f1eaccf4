/** Builds with leads of known length and gauge, loaded so that volts fall short somewhere, but for the last. */
import { type Build, build, type Keys } from '../support/build.ts'

const run = (mm: number, awg: number): Keys => ({ mm, awg })
const strip = (amps: number, light: Keys = {}): Keys => ({
  kind: 'strip',
  light: { leds: 20, amps, ...light },
})
const motor = (amps: number, more: Keys = {}): Keys => ({ motor: { amps, start_amps: amps, ...more } })

export const networks: Readonly<Record<string, Build>> = {
  'one strip on a lead of its own': build()
    .lightHeader('L1')
    .part('S1', strip(3))
    .lead('S1.light', 'board.L1', run(1000, 26)),
  'a strip whose part says the lead': build()
    .lightHeader('L1')
    .part('S1', strip(2.4, run(1100, 26)))
    .lead('S1.light', 'board.L1'),
  'one fan that draws much': build()
    .header('SYS1', { amps: 3 })
    .plainFan('F1', motor(2))
    .lead('F1.motor', 'board.SYS1', run(900, 28)),
  'a splitter with leads of unlike length': build()
    .lightHeader('L1')
    .part('S1', strip(0.8))
    .part('S2', strip(1.1))
    .part('S3', strip(0.6))
    .part('X1', { kind: 'light-splitter', ways: 3 })
    .lead('X1.in', 'board.L1', run(300, 22))
    .lead('S1.light', 'X1.1', run(250, 26))
    .lead('S2.light', 'X1.2', run(1200, 28))
    .lead('S3.light', 'X1.3', run(700, 28)),
  'four lit fans whose lights are chained': ['F1', 'F2', 'F3', 'F4'].reduce(
    (made, id, i) =>
      made
        .fan(id, { motor: undefined, light: { amps: 0.4 + i / 10, passes_on: true } })
        .lead(`${id}.light`, i === 0 ? 'board.L1' : `F${i}.light_out`, run(i === 0 ? 500 : 200, 28)),
    build().lightHeader('L1'),
  ),
  'five fans whose motors are chained': ['F1', 'F2', 'F3', 'F4', 'F5'].reduce(
    (made, id, i) =>
      made
        .plainFan(id, motor(0.3, { passes_on: true }))
        .lead(`${id}.motor`, i === 0 ? 'board.SYS1' : `F${i}.motor_out`, run(500, 28)),
    build().header('SYS1', { amps: 3 }),
  ),
  'a strip in six stretches, evenly lit': [1, 2, 3, 4, 5, 6].reduce(
    (made, n) =>
      made
        .part(`S${n}`, strip(0.45, { passes_on: true }))
        .lead(`S${n}.light`, n === 1 ? 'board.L1' : `S${n - 1}.light_out`, run(200, 24)),
    build().lightHeader('L1'),
  ),
  'three fans on one supply lead, by plugs of their own': ['F1', 'F2', 'F3'].reduce(
    (made, id, i) =>
      made
        .plainFan(id, motor(1.4, { feed: 'sata' }))
        .header(`SYS${i + 1}`)
        .lead(`${id}.motor`, `board.SYS${i + 1}`)
        .lead(`${id}.power`, `supply.SA.${i + 1}`, run(900 + 200 * i, 28)),
    build().supply('SA', run(650, 18)),
  ),
  'a light hub and a fan hub on one supply lead, which share its ground wires': build()
    .supply('SA', run(900, 20))
    .usbHeader('U1')
    .header('SYS1')
    .part('S1', strip(1.5))
    .part('S2', strip(1.2))
    .lightHub('H1', ['S1', 'S2'], { chain: 'parallel' })
    .lead('H1.usb', 'board.U1.a')
    .lead('H1.power', 'supply.SA.1', run(300, 22))
    .plainFan('F1', motor(1.9))
    .plainFan('F2', motor(1.9))
    .fanHub('K1', ['F1', 'F2'], { port_amps: 2 })
    .lead('K1.in', 'board.SYS1')
    .lead('K1.power', 'supply.SA.2', run(400, 22)),
  'a controller, fans and lights over one ground': build()
    .supply('SA', run(600, 18))
    .usbHeader('U1')
    .fan('F1', { ...motor(0.9), light: { amps: 0.9, mm: 500, awg: 28 } })
    .fan('F2', { ...motor(0.9), light: { amps: 0.7, mm: 900, awg: 28 } })
    .fan('F3', { ...motor(0.9), light: { amps: 0.5 } })
    .controller('C1', ['F1', 'F2', 'F3'])
    .lead('C1.usb', 'board.U1.a')
    .lead('C1.power', 'supply.SA.1', run(500, 24)),
  'a hub behind an adapter on a peripheral lead': build()
    .supply('PA', { kind: 'peripheral', plugs: 2, ...run(800, 18) })
    .usbHeader('U1')
    .part('A1', { kind: 'adapter', from: 'peripheral', to: 'sata' })
    .lead('A1.in', 'supply.PA.1', run(150, 20))
    .part('S1', strip(1.9, run(400, 26)))
    .part('S2', strip(1.9, run(600, 26)))
    .lightHub('H1', ['S1', 'S2'], { chain: 'parallel' })
    .lead('H1.usb', 'board.U1.a')
    .lead('H1.power', 'A1.out', run(350, 22)),
  '12 V lights and fans on one lead': build()
    .supply('SA', run(900, 22))
    .lightHeader('L1', { volts: 12 })
    .header('SYS1')
    .part('S1', strip(2, { volts: 12 }))
    .lightHub('H1', ['S1'], { volts: 12, host: 'header', chain: 'parallel' })
    .lead('H1.in', 'board.L1')
    .lead('H1.power', 'supply.SA.1')
    .plainFan('F1', motor(1))
    .fanHub('K1', ['F1'])
    .lead('K1.in', 'board.SYS1')
    .lead('K1.power', 'supply.SA.2', run(1500, 28)),
  'a lead that is thick and short enough': build()
    .lightHeader('L1')
    .part('S1', strip(1))
    .lead('S1.light', 'board.L1', run(300, 22)),
}

/** Lights behind a splitter and in a chain on the board; a controller, a light hub and a fan hub on one supply lead. */
export function everyWay(
  loads: readonly (readonly [hundredths: number, Keys])[],
  leads: readonly Keys[],
): Build {
  const lit = (n: number, more: Keys = {}): Keys => strip(loads[n]![0] / 100, { ...loads[n]![1], ...more })
  return build()
    .supply('SA', leads[0])
    .usbHeader('U1')
    .header('SYS1')
    .lightHeader('L1')
    .part('X1', { kind: 'light-splitter', ways: 2 })
    .lead('X1.in', 'board.L1', leads[1])
    .part('S0', lit(0, { passes_on: true }))
    .lead('S0.light', 'X1.1')
    .part('S1', lit(1))
    .lead('S1.light', 'S0.light_out')
    .part('S2', lit(2))
    .lead('S2.light', 'X1.2')
    .part('S3', lit(3))
    .lightHub('H1', ['S3'])
    .lead('H1.usb', 'board.U1.a')
    .lead('H1.power', 'supply.SA.1', leads[2])
    .fan('F4', { ...motor(loads[4]![0] / 50), light: { amps: loads[4]![0] / 100, ...loads[4]![1] } })
    .controller('C1', ['F4'])
    .lead('C1.usb', 'board.U1.b')
    .lead('C1.power', 'supply.SA.2', leads[3])
    .plainFan('F5', motor(loads[5]![0] / 50))
    .part('K1', { kind: 'fan-hub', ports: 1, power: 'sata' })
    .lead('F5.motor', 'K1.1', leads[4])
    .lead('K1.in', 'board.SYS1')
    .lead('K1.power', 'supply.SA.3', leads[5])
}
