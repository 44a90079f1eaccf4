/**
 * What can bear on something that was seen to be wrong: the plugs behind it, and what shares a source, a lead or a
 * setting with them. Each list is worked out by following the leads of the plan by hand.
 */
import { describe, expect, test } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import { refOf } from '../../../src/core/faults/entry.ts'
import { parseFault } from '../../../src/core/faults/fault.ts'
import { nearTo, plugsBehind, regionOf, wholeBuild } from '../../../src/core/infer/region.ts'
import { observableOf } from '../../support/bench-look.ts'
import { build } from '../../support/build.ts'

/** Two halls that share nothing but the board, one supply lead and one USB header; a pump and a strip beside them. */
const machine = compile(
  build()
    .supply('SA')
    .supply('SB')
    .header('SYS1', { amps: 2 })
    .header('SYS2', { amps: 2 })
    .header('SYS3')
    .header('PUMP')
    .lightHeader('L1')
    .usbHeader('U1')
    .usbHeader('U2')
    .fan('F1..F6')
    .splitter('Y1', ['F1', 'F2', 'Y3.in'])
    .splitter('Y3', ['F3'])
    .splitter('Y2', ['F4', 'F5', 'F6'])
    .lightHub('H1', ['F1', 'F2', 'F3'], { ports: 5 })
    .lightHub('H2', ['F4', 'F5', 'F6'])
    .lead('Y1.in', 'board.SYS1')
    .lead('Y2.in', 'board.SYS2')
    .lead('H1.power', 'supply.SA.1')
    .lead('H2.power', 'supply.SA.2')
    .lead('H1.usb', 'board.U1.a')
    .lead('H2.usb', 'board.U1.b')
    .pump('P1', { motor: { feed: 'sata' }, light: { leds: 8 }, host: 'usb' })
    .lead('P1.motor', 'board.PUMP')
    .lead('P1.power', 'supply.SB.1')
    .lead('P1.usb', 'board.U2.a')
    .pump('P2', { light: { leds: 8 }, host: 'usb' })
    .lead('P2.light', 'H1.4')
    .lead('P2.usb', 'board.U2.b')
    .part('S1', { kind: 'strip', light: { leds: 20 } })
    .lead('S1.light', 'board.L1')
    .plan(),
)

const behind = (what: string): string[] =>
  [...new Set(plugsBehind(machine, observableOf(what)))].map((plug) => refOf(machine, plug)).sort()

describe('behind what was seen', () => {
  test('at a plug is that plug, volts on one of its pins included', () => {
    for (const what of ['seated F2.motor', 'goes F2.motor', 'volts F2.motor/12V'])
      expect(behind(what), what).toEqual(['F2.motor'])
  })

  test('of a motor is its lead, and the supply plug of one that has its own', () => {
    for (const what of ['spins', 'steady']) {
      expect(behind(`${what} F1`)).toEqual(['F1.motor'])
      expect(behind(`${what} P1`)).toEqual(['P1.motor', 'P1.power'])
    }
  })

  test('at a header is the plug in it and every motor below, down to where each is fed from', () => {
    for (const what of ['rpm board.SYS1', 'follows board.SYS1', 'alarm board.SYS1', 'volts board.SYS1/12V'])
      expect(behind(what), what).toEqual(['F1.motor', 'F2.motor', 'F3.motor', 'Y1.in', 'Y3.in'])
    expect(behind('rpm board.PUMP')).toEqual(['P1.motor', 'P1.power'])
    expect(behind('rpm Y3.1')).toEqual(['F3.motor'])
  })

  test('at the head of a chain of fans is each of them, however long it is', () => {
    const fans = Array.from({ length: 12 }, (_, i) => `F${i + 1}`)
    const chain = fans.slice(1).reduce(
      (b, fan, i) => b.lead(`${fan}.motor`, `F${i + 1}.motor_out`),
      build()
        .header('SYS1', { amps: 3 })
        .plainFan('F1..F12', { motor: { amps: 0.1, passes_on: true } })
        .lead('F1.motor', 'board.SYS1'),
    )
    const made = compile(chain.plan())
    const plugs = new Set(plugsBehind(made, { what: 'rpm', at: 'board.SYS1' }))
    expect([...plugs].map((plug) => refOf(made, plug))).toEqual(fans.map((fan) => `${fan}.motor`))
  })

  test('of lights is their lead, or the plugs of their own driver where they have none', () => {
    for (const what of ['lit', 'shows', 'flickers']) {
      expect(behind(`${what} F2`)).toEqual(['F2.light'])
      expect(behind(`${what} P1`)).toEqual(['P1.light', 'P1.usb'])
      expect(behind(`${what} P2`)).toEqual(['P2.light'])
    }
  })

  test('of a USB device is its USB lead and its supply, not what it lights', () => {
    expect(behind('listed H1')).toEqual(['H1.power', 'H1.usb'])
    expect(behind('listed P1')).toEqual(['P1.usb'])
  })

  test('of one port of a channel is what is plugged in there, of a channel its driver and what hangs on that', () => {
    expect(behind('answers H1.2')).toEqual(['F2.light'])
    expect(behind('answers H1.5')).toEqual([])
    expect(behind('effect board.L1')).toEqual(['S1.light'])
    expect(behind('effect H1')).toEqual([
      'F1.light',
      'F2.light',
      'F3.light',
      'H1.power',
      'H1.usb',
      'P2.light',
    ])
  })

  test('at an empty header, of a setting and of what is not there is nothing', () => {
    for (const what of ['rpm board.SYS3', 'setting channels/H1/profile', 'spins F9'])
      expect(behind(what), what).toEqual([])
  })
})

describe('the region', () => {
  const around = (...seen: string[]) => {
    const region = regionOf(
      machine,
      seen.flatMap((what) => plugsBehind(machine, observableOf(what))),
    )
    const refs = (ports: ReadonlySet<number>) => [...ports].map((port) => refOf(machine, port)).sort()
    return {
      parts: [...region.parts].map((part) => machine.parts[part]?.part.id).sort(),
      plugs: refs(region.plugs),
      sockets: refs(region.sockets),
    }
  }

  test('of a still fan is what feeds it, and what hangs on that', () => {
    expect(around('spins F1')).toEqual({
      parts: ['F1', 'F2', 'F3', 'Y1', 'Y3'],
      plugs: ['F1.motor', 'F2.motor', 'F3.motor', 'Y1.in', 'Y3.in'],
      sockets: ['Y1.1', 'Y1.2', 'Y1.3', 'Y3.1', 'board.SYS1'],
    })
  })

  test('of dark lights is their hub with its free port, its supply plug and its own USB port', () => {
    expect(around('lit F2')).toEqual({
      parts: ['F1', 'F2', 'F3', 'H1', 'P2'],
      plugs: ['F1.light', 'F2.light', 'F3.light', 'H1.power', 'H1.usb', 'P2.light'],
      sockets: ['H1.1', 'H1.2', 'H1.3', 'H1.4', 'H1.5', 'board.U1.a', 'supply.SA.1'],
    })
    expect(around('lit P1')).toEqual({
      parts: ['P1'],
      plugs: ['P1.light', 'P1.usb'],
      sockets: ['board.U2.a'],
    })
  })

  test('of two things is what bears on either', () => {
    const both = around('spins F1', 'lit F2')
    for (const key of ['parts', 'plugs', 'sockets'] as const)
      expect(both[key]).toEqual([...new Set([...around('spins F1')[key], ...around('lit F2')[key]])].sort())
  })

  test('of nothing is empty, of the whole build everything', () => {
    expect(around()).toEqual({ parts: [], plugs: [], sockets: [] })
    const whole = wholeBuild(machine)
    expect(whole.parts.size).toBe(machine.parts.length)
    expect([...whole.plugs, ...whole.sockets].sort((a, b) => a - b)).toEqual([...machine.ports.keys()])
  })
})

describe('a fault is near', () => {
  const near = (seen: string, fault: string): boolean =>
    nearTo(
      machine,
      regionOf(machine, plugsBehind(machine, observableOf(seen))),
    )(parseFault(fault) ?? expect.fail(fault))
  /** Which of these faults are near what was seen. */
  const nearOf = (seen: string, ...faults: string[]): string[] => faults.filter((fault) => near(seen, fault))

  test('to dark lights: their leads, hub, neighbours on it, supply, USB port and the settings of all these', () => {
    const inside = [
      'F2:lights-dead',
      'F2.light:loose',
      'H1:hung',
      'H1.2:dead',
      'H1.power:loose',
      'F1.light:open-DATA_BACK',
      'supply.SA:unplugged',
      'board.U1.a:dead',
      'ports/board.U1.a/enabled:off',
      'channels/H1/profile:count-low',
    ]
    expect(nearOf('lit F2', ...inside)).toEqual(inside)
    expect(
      nearOf(
        'lit F2',
        'F2.motor:loose',
        'Y1:dead',
        'board.SYS1:dead',
        'F5.light:loose',
        'H2:hung',
        'H2.1:dead',
        'H2.power:loose',
        'supply.SB:unplugged',
        'board.U1.b:dead',
        'ports/board.U1.b/enabled:off',
        'channels/H2/profile:count-low',
        'channels/L1/profile:count-low',
        'headers/SYS1/curve:flat-out',
        'F9:lights-dead',
      ),
    ).toEqual([])
  })

  test('to a still fan: its lead, splitter, neighbours on it, header and the settings of that', () => {
    const inside = ['F2:motor-dead', 'Y1:dead', 'Y1.2:dead', 'Y1.in:loose', 'F1.motor:loose']
    const header = ['board.SYS1:dead', 'headers/SYS1/curve:under-start', 'headers/SYS1/drive:wrong-mode']
    expect(nearOf('spins F2', ...inside, ...header)).toEqual([...inside, ...header])
    expect(
      nearOf(
        'spins F2',
        'F2.light:loose',
        'H1:hung',
        'Y2:dead',
        'F5.motor:loose',
        'board.SYS2:dead',
        'headers/SYS2/curve:under-start',
        'supply.SA:unplugged',
      ),
    ).toEqual([])
  })

  test('whatever was seen, where it is a setting of the host, which bears on the whole build', () => {
    for (const seen of ['spins F1', 'lit S1'])
      expect(nearOf(seen, 'host/program:not-running', 'host/global_effect:left-on')).toHaveLength(2)
  })

  test('where an exchanged plug reaches in from outside', () => {
    const swaps = ['F5.light:swapped-with-F2.light', 'F2.light:swapped-with-F5.light']
    expect(nearOf('lit F2', ...swaps, 'F5.light:swapped-with-F6.light')).toEqual(swaps)
  })
})
