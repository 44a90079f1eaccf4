/**
 * What is asked of a fan and what is read of it, at the limits: lowest duty, readings against a limit, several tachs.
 * Figures by hand from the public four-wire fan specification (speed in proportion to duty, two pulses a turn).
 */
import { describe, expect, it } from 'vitest'
import { askedRpm } from '../../../src/core/bench/motor.ts'
import type { Motor } from '../../../src/core/plan/part.ts'
import { benchOf } from '../../support/bench-look.ts'
import { build, type Keys, planOf } from '../../support/build.ts'

const oneFan = (header: Keys, fan: Keys = {}) =>
  build()
    .header('SYS1', { drive: 'pwm' })
    .plainFan('F1', { motor: fan })
    .lead('F1.motor', 'board.SYS1')
    .set('SYS1', header)

describe('the speed that a duty asks for', () => {
  const motor = (belowMin: string): Motor => {
    const part = planOf(oneFan({}, { below_min: belowMin }).text()).parts[0]
    if (part?.kind !== 'fan' || !part.motor) throw new Error('no motor')
    return part.motor
  }

  it('is in proportion, and never under the lowest', () => {
    for (const kind of ['keeps', 'stops', 'stops-at-zero'])
      expect(
        [50, 10, 100].map((duty) => askedRpm(motor(kind), duty)),
        kind,
      ).toEqual([750, 450, 1500])
  })

  it('is none at 0 where the fan may stop', () => {
    expect(['keeps', 'stops', 'stops-at-zero'].map((kind) => askedRpm(motor(kind), 0))).toEqual([450, 0, 0])
  })
})

describe('a header with a setting', () => {
  it('is followed by a fan that changes its speed to be seen, and not by one of nearly one speed', () => {
    expect(benchOf(oneFan({}).plan()).see('follows board.SYS1')).toBe('yes')
    expect(benchOf(oneFan({}, { rpm: [1400, 1500] }).plan()).see('follows board.SYS1')).toBe('no')
  })

  it('has a reading within a tenth of the top speed of what it asks for taken as right', () => {
    // 750 RPM asked; counted with 1.9 pulses a turn 789 RPM, with 1.5 a thousand.
    const b = benchOf(oneFan({ curve: [[0, 50]] }).plan())
    const counted = (pulses: number) => b.edit(`set headers/SYS1/pulses = ${pulses}`).see('rpm board.SYS1')
    expect([1.5, 1.9, 2, 2.1, 3].map(counted)).toEqual(['high', 'plausible', 'plausible', 'plausible', 'low'])
  })

  it('raises its alarm under its limit, not at it', () => {
    const full = { curve: [[0, 100]] }
    expect(benchOf(oneFan({ ...full, alarm_below: 1500 }).plan()).see('alarm board.SYS1')).toBe('no')
    expect(benchOf(oneFan({ ...full, alarm_below: 1501 }).plan()).see('alarm board.SYS1')).toBe('yes')
    expect(
      benchOf(oneFan({ ...full, alarm_below: 0 }).plan())
        .fault('F1:motor-dead')
        .see('alarm board.SYS1'),
    ).toBe('no')
  })
})

it('of several tachs on one line the one that turns is read, against what is asked of that fan', () => {
  const b = benchOf(
    build()
      .header('SYS1', { drive: 'pwm' })
      .plainFan('F1', { motor: { rpm: [450, 1500] } })
      .plainFan('F2', { motor: { rpm: [900, 3000] } })
      .splitter('Y1', ['F1', 'F2'], { tach_from: 'all' })
      .lead('Y1.in', 'board.SYS1')
      .set('SYS1', { curve: [[0, 50]] })
      .plan(),
  )
  expect(b.see('rpm board.SYS1')).toBe('erratic')
  expect(b.see('alarm board.SYS1')).toBe('no')
  const one = b.fault('F1:motor-dead')
  expect(one.see('rpm board.SYS1')).toBe('plausible')
  // Counted as one pulse a turn, 1500 RPM read 3000; as four, 750.
  expect(one.edit('set headers/SYS1/pulses = 1').see('rpm board.SYS1')).toBe('high')
  expect(one.edit('set headers/SYS1/pulses = 4').see('rpm board.SYS1')).toBe('low')
})

it('on a header that sags a fan at its lowest is slow, and one that is a little under what is asked is not', () => {
  // 0.5 A on 0.42: a fifth over, so 0.88 of the volts. Of its 450 RPM 396; of 750 RPM 660, within a tenth of 1500.
  const header = (amps: number, duty: number) =>
    benchOf(
      build()
        .header('SYS1', { drive: 'pwm', amps })
        .plainFan('F1', { motor: { amps: 0.5, start_amps: 0.5 } })
        .lead('F1.motor', 'board.SYS1')
        .set('SYS1', { curve: [[0, duty]] })
        .plan(),
    ).see('spins F1')
  expect([header(1, 20), header(0.42, 20), header(0.42, 50)]).toEqual(['normal', 'slow', 'normal'])
})

it('a controller shows the speeds of its ports only where it sets them itself and a host asks it', () => {
  const c = (keys: Keys) => {
    const b = build()
      .supply('SA')
      .header('SYS1', { drive: 'pwm' })
      .usbHeader('U1')
      .fan('F1')
      .controller('C1', ['F1'], keys)
      .lead('C1.power', 'supply.SA.1')
      .set('C1.fan1', { curve: [[0, 50]] })
    if (keys.host === 'usb') b.lead('C1.usb', 'board.U1.a')
    const bench = benchOf(b.plan())
    return [bench.see('rpm C1.fan1'), bench.see('alarm C1.fan1')]
  }
  expect(c({ fan_control: 'own', host: 'usb' })).toEqual(['plausible', 'no'])
  expect(c({ fan_control: 'header', host: 'usb' })).toEqual(['none', null])
  expect(c({ fan_control: 'own', host: 'none' })).toEqual(['none', null])
})

it('a controller’s light ports show no speed, its fan ports do', () => {
  const b = benchOf(
    build()
      .supply('SA')
      .usbHeader('U1')
      .fan('F1')
      .controller('C1', ['F1'], { fan_control: 'own' })
      .lead('C1.power', 'supply.SA.1')
      .lead('C1.usb', 'board.U1.a')
      .plan(),
  )
  expect(b.seeAll('rpm', 'C1.fan1', 'C1.light1')).toEqual(['plausible', 'none'])
  expect(b.see('follows C1.light1')).toBeNull()
})

describe('an adapter', () => {
  it('on a light header carries the data to the lights', () => {
    const b = benchOf(
      build()
        .lightHeader('L1')
        .fan('F1..F2')
        .part('A1', { kind: 'adapter', from: 'light5', to: 'light5', outs: 2 })
        .lead('A1.in', 'board.L1')
        .lead('F1.light', 'A1.out1')
        .lead('F2.light', 'A1.out2')
        .channel('L1', { profile: [8] })
        .plan(),
    )
    expect(b.seeAll('lit', 'F1', 'F2')).toEqual(['whole', 'whole'])
    expect(b.see('answers board.L1')).toBe('F1+F2')
    expect(b.fault('A1.in:open-DATA').seeAll('lit', 'F1', 'F2')).toEqual(['dark', 'dark'])
  })

  it('from a four-pin to a three-pin fan lead carries tach and supply, and no control', () => {
    const b = benchOf(
      build()
        .header('SYS1', { drive: 'pwm' })
        .plainFan('F1', { motor: { pins: 3 } })
        .part('A1', { kind: 'adapter', from: 'fan4', to: 'fan3' })
        .lead('A1.in', 'board.SYS1')
        .lead('F1.motor', 'A1.out')
        .set('SYS1', { curve: [[0, 50]] })
        .plan(),
    )
    // Without a control pin it runs at its top, where half of it is asked for.
    expect(b.see('spins F1')).toBe('full')
    expect(b.see('rpm board.SYS1')).toBe('high')
    expect(b.fault('A1.in:open-TACH').see('rpm board.SYS1')).toBe('zero')
    expect(b.fault('A1.in:open-CONTROL').see('spins F1')).toBe('full')
  })
})
