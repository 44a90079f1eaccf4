/** The list of all that can be looked at, written out by hand for one small build. */
import { expect, it } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import { everything } from '../../../src/core/bench/everything.ts'
import { observableKey } from '../../../src/core/bench/observable.ts'
import { build } from '../../support/build.ts'

const keysOf = (b: ReturnType<typeof build>): string[] => everything(compile(b.plan())).map(observableKey)

it('what can be looked at on a fan on a board and a light hub, all of it and nothing twice', () => {
  const keys = keysOf(
    build()
      .supply('SA', { plugs: 1 })
      .header('SYS1')
      .usbHeader('U1', { ports: 1 })
      .fan('F1')
      .lead('F1.motor', 'board.SYS1')
      .lightHub('H1', ['F1'])
      .lead('H1.power', 'supply.SA.1')
      .lead('H1.usb', 'board.U1')
      .set('SYS1', { curve: [[0, 50]] })
      .channel('H1', { profile: [8] })
      .settings({ ports: { 'board.U1': { enabled: true } } }),
  )
  expect([...keys].sort()).toEqual(
    [
      ...['spins F1', 'steady F1', 'lit F1', 'flickers F1', 'shows F1', 'listed H1'],
      ...['rpm board.SYS1', 'follows board.SYS1', 'alarm board.SYS1'],
      ...['effect H1', 'answers H1.1'],
      ...['F1.motor', 'F1.light', 'H1.power', 'H1.usb'].flatMap((plug) => [`seated ${plug}`, `goes ${plug}`]),
      ...['F1.motor', 'F1.light'].map((plug) => `when-moved ${plug}`),
      'seated supply.SA',
      // Every contact of a rail: 12 V on fan and SATA plugs, 5 V on light, SATA and USB plugs, on both sides.
      ...['supply.SA.1', 'H1.power'].flatMap((port) => [`volts ${port}/12V`, `volts ${port}/5V`]),
      ...['board.SYS1', 'F1.motor'].map((port) => `volts ${port}/12V`),
      ...['H1.1', 'F1.light', 'board.U1', 'board.U1.a', 'H1.usb'].map((port) => `volts ${port}/5V`),
      ...['drive', 'curve', 'delay', 'pulses', 'alarm_below'].map((key) => `setting headers/SYS1/${key}`),
      ...['profile', 'colours'].map((key) => `setting channels/H1/${key}`),
      ...['setting host/program', 'setting host/global_effect', 'setting ports/board.U1/enabled'],
    ].sort(),
  )
})

it('a lead that lies loose in the plan has no seat to look at, and a part’s own fan port no alarm', () => {
  const keys = keysOf(
    build().header('SYS1').plainFan('F1..F2').splitter('Y1', ['F1']).lead('Y1.in', 'board.SYS1'),
  )
  const of = (what: string): string[] => keys.filter((k) => k.startsWith(`${what} `))
  expect(of('seated')).toEqual(['seated F1.motor', 'seated Y1.in'])
  expect(of('spins')).toEqual(['spins F1', 'spins F2'])
  expect(of('rpm').sort()).toEqual(['rpm Y1.1', 'rpm board.SYS1'])
  expect(of('alarm')).toEqual(['alarm board.SYS1'])
})

it('a hub that shows the same on all ports has no port that could be lit alone', () => {
  const keys = keysOf(
    build().supply('SA').usbHeader('U1').fan('F1..F2').lightHub('H1', ['F1', 'F2'], { chain: 'parallel' }),
  )
  expect(keys.filter((k) => k.startsWith('answers '))).toEqual([])
  expect(keys).toContain('effect H1')
})
