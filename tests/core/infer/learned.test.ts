/** Under which words it is kept what turned up where: they must not change, or what a bench has learnt is lost. */
import { expect, test } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import { parseFault } from '../../../src/core/faults/fault.ts'
import { classOf } from '../../../src/core/infer/learned.ts'
import { build } from '../../support/build.ts'

const machine = compile(
  build()
    .supply('SA')
    .supply('SB', { kind: 'peripheral' })
    .header('SYS1')
    .header('SYS2', { pins: 3 })
    .lightHeader('L1')
    .lightHeader('R1', { volts: 12 })
    .usbHeader('U1')
    .usbHeader('U2', { kind: 'usb3' })
    .fan('F1..F2')
    .splitter('Y1', ['F1'])
    .lead('Y1.in', 'board.SYS1')
    .lightHub('H1', ['F1', 'F2'])
    .lead('H1.power', 'supply.SA.1')
    .lead('H1.usb', 'board.U1.a')
    .part('D1', { kind: 'usb-device', ports: 2 })
    .plan(),
)

test.each([
  ['F1:motor-dead', 'motor-dead|fan'],
  ['F1.motor:loose', 'loose|fan|fan'],
  ['F1.motor:open-TACH', 'open-|fan|fan'],
  ['F1.motor:swapped-with-F2.motor', 'swapped-with-|fan|fan'],
  ['F1.light:loose', 'loose|fan|light'],
  ['Y1.in:loose', 'loose|fan-splitter|fan'],
  ['H1:hung', 'hung|light-hub'],
  ['H1.2:dead', 'dead|light-hub|light'],
  ['H1.power:loose', 'loose|light-hub|supply'],
  ['H1.usb:loose', 'loose|light-hub|usb'],
  ['D1.usb:loose', 'loose|usb-device|usb'],
  ['board.SYS1:dead', 'dead|board|fan'],
  ['board.SYS2:dead', 'dead|board|fan'],
  ['board.L1:dead', 'dead|board|light'],
  ['board.R1:dead', 'dead|board|light'],
  ['board.U1.a:dead', 'dead|board|usb'],
  ['board.U2:dead', 'dead|board|usb'],
  ['supply.SA:unplugged', 'unplugged|supply'],
  ['supply.SA.1:dead', 'dead|supply|supply'],
  ['supply.SB.1:dead', 'dead|supply|supply'],
  ['headers/SYS1/drive:wrong-mode', 'wrong-mode|setting|drive'],
  ['channels/H1/colours:wrong', 'wrong|setting|colours'],
  ['ports/board.U1.a/enabled:off', 'off|setting|enabled'],
  ['host/program:not-running', 'not-running|setting|program'],
])('%s is kept as %s', (fault, kept) => {
  expect(classOf(machine, parseFault(fault) ?? expect.fail())).toBe(kept)
})
