/** The bench against published figures: each value stands beside its source, none comes from this program. */
import { describe, expect, it } from 'vitest'
import { plannedMoment } from '../../src/core/bench/run.ts'
import { reading } from '../../src/core/bench/tach.ts'
import { benchOf } from '../support/bench-look.ts'
import { build, type Keys } from '../support/build.ts'

function shownRpm(duty: number, header: Keys = {}, motor: Keys = {}, set: Keys = {}): number {
  const bench = benchOf(
    build()
      .header('SYS1', { drive: 'pwm', ...header })
      .plainFan('F1', { motor })
      .lead('F1.motor', 'board.SYS1')
      .set('SYS1', { curve: [[0, duty]], ...set })
      .plan(),
  ).build
  const shown = reading(plannedMoment(bench), bench.portAt.get('board.SYS1') ?? -1)
  if (typeof shown !== 'number') throw new Error('no figure')
  return shown
}

describe('public four-wire fan specification', () => {
  it('3.3: percent of the top speed follows the duty within ten points', () => {
    for (let duty = 30; duty <= 100; duty += 5) {
      const percent = (shownRpm(duty, {}, { rpm: [450, 1500] }) / 1500) * 100
      expect(Math.abs(percent - duty)).toBeLessThanOrEqual(10)
    }
  })

  it('3.2: the lowest speed is 30 % of the top or less, and 3.4: one kind keeps it at 0 %', () => {
    expect(shownRpm(0, {}, { rpm: [450, 1500], below_min: 'keeps' })).toBe(450)
    expect(shownRpm(0, {}, { rpm: [450, 1500], below_min: 'stops-at-zero' })).toBe(0)
    expect(shownRpm(10, {}, { rpm: [450, 1500], below_min: 'stops-at-zero' })).toBe(450)
    expect(shownRpm(10, {}, { rpm: [450, 1500], below_min: 'stops' })).toBe(0)
  })

  it('3.3: an open control wire means the top speed', () => {
    const b = benchOf(
      build()
        .header('SYS1', { drive: 'pwm' })
        .plainFan('F1')
        .lead('F1.motor', 'board.SYS1')
        .set('SYS1', { curve: [[0, 30]] })
        .plan(),
    )
    expect(b.fault('F1.motor:open-CONTROL').see('spins F1')).toBe('full')
  })
})

describe('kernel hardware-monitoring interface', () => {
  it('fanY_pulses: without such a setting two pulses a turn are assumed', () => {
    // 1500 rpm and one pulse a turn give 25 Hz; 25 × 60 ÷ 2 = 750.
    expect(shownRpm(100, {}, { pulses: 1 })).toBe(750)
    expect(shownRpm(100, {}, { pulses: 1 }, { pulses: 1 })).toBe(1500)
    // Four pulses a turn counted as two: 3000.
    expect(shownRpm(100, {}, { pulses: 4 })).toBe(3000)
  })

  it('sensor tools, note on fan divisors: with a divisor of 8 nothing under 664 RPM is counted', () => {
    const at = (duty: number) =>
      benchOf(
        build()
          .header('SYS1', { drive: 'pwm' })
          .plainFan('F1', { motor: { rpm: [300, 1000] } })
          .lead('F1.motor', 'board.SYS1')
          .set('SYS1', { curve: [[0, duty]] })
          .plan(),
      )
        .fault('board.SYS1:counts-coarsely')
        .see('rpm board.SYS1')
    // 660 and 670 rpm.
    expect([at(66), at(67)]).toEqual(['zero', 'plausible'])
  })
})

describe('DC drive, OEM board manual (0, 6 to 12 V) and hobby wiring page (stalls below about 5 V)', () => {
  it('a fan that starts at 5 V turns at 6 V and not at 4.8 V', () => {
    const motor = { pins: 3, start_volts: 5, rpm: [450, 1500] }
    expect(shownRpm(50, { drive: 'dc' }, motor)).toBe(750)
    expect(shownRpm(40, { drive: 'dc' }, motor)).toBe(0)
  })

  it('connector guide: a three-wire fan on a header that drives by PWM gets 12 V at any duty', () => {
    expect(shownRpm(30, { drive: 'pwm' }, { pins: 3 })).toBe(1500)
  })
})

describe('USB 2.0 power rules (handbook, bus-powered hubs)', () => {
  const behind = (power: 'bus' | 'sata', milliamps: number) => {
    const b = build()
      .supply('SA')
      .usbHeader('U1')
      .part('N1', { kind: 'usb-hub', ports: 4, power })
      .lead('N1.usb', 'board.U1.a')
      .part('H1', {
        kind: 'light-hub',
        ports: 1,
        chain: 'series',
        power: 'sata',
        host: 'usb',
        usb_milliamps: milliamps,
      })
      .lead('H1.usb', 'N1.1')
      .lead('H1.power', 'supply.SA.1')
    if (power === 'sata') b.lead('N1.power', 'supply.SA.2')
    return benchOf(b.plan()).see('listed H1')
  }

  it('a bus-powered hub feeds parts of one unit load (100 mA) only', () => {
    expect([behind('bus', 100), behind('bus', 200)]).toEqual(['yes', 'no'])
  })

  it('a self-powered hub gives 500 mA on every port', () => {
    expect([behind('sata', 500), behind('sata', 700)]).toEqual(['yes', 'no'])
  })
})

describe('ATX12V design guide 2.0, table 2: 5 % at the load', () => {
  it('a rail that sags by 12 % is low, as a reading of 10.56 V is under 11.40 V', () => {
    const b = benchOf(
      build()
        .header('SYS1', { drive: 'pwm', amps: 1 })
        .plainFan('F1..F2', { motor: { amps: 0.6, start_amps: 0.6 } })
        .splitter('Y1', ['F1', 'F2'])
        .lead('Y1.in', 'board.SYS1')
        .plan(),
    )
    expect(b.see('volts F1.motor/12V')).toBe('low')
  })
})

describe('WS2812B data sheet, general description: each LED keeps its 24 bits and hands the rest on', () => {
  it('an LED that is dead leaves those before it right and those after it without data', () => {
    const b = benchOf(
      build()
        .lightHeader('L1')
        .part('S1', { kind: 'strip', light: { leds: 30, amps: 1, passes_on: true } })
        .part('S2', { kind: 'strip', light: { leds: 30, amps: 1 } })
        .lead('S1.light', 'board.L1')
        .lead('S2.light', 'S1.light_out')
        .channel('L1', { profile: [60] })
        .plan(),
    )
    expect(b.fault('S1:led-dead-15').seeAll('lit', 'S1', 'S2')).toEqual(['part', 'dark'])
    // Told 30 of 60: the second strip never gets any.
    expect(b.edit('set channels/L1/profile = [30]').seeAll('lit', 'S1', 'S2')).toEqual(['whole', 'dark'])
  })
})
