/**
 * What only shows to who watches for a minute, and to who moves a lead. Expected values are worked by hand from what a
 * fault does to contact, supply and curve; when a curve is seen to hunt is common practice, no source.
 */
import { describe, expect, it } from 'vitest'
import { benchOf } from '../../support/bench-look.ts'
import { build } from '../../support/build.ts'

const made = (keys = {}) =>
  build()
    .supply('SA')
    .header('SYS1', { drive: 'auto' })
    .header('SYS2', { drive: 'auto' })
    .usbHeader('U1')
    .fan('F1', { motor: { below_min: 'stops', start_duty: 30 } })
    .fan('F2..F3')
    .lead('F1.motor', 'board.SYS1')
    .lead('F2.motor', 'board.SYS2')
    .lightHub('H1', ['F1', 'F2', 'F3'])
    .lead('H1.power', 'supply.SA.1')
    .lead('H1.usb', 'board.U1.a')
    .host({ program: 'running', global_effect: 'off' })
    .set('SYS1', {
      curve: [
        [30, 40],
        [70, 100],
      ],
      ...keys,
    })

const b = benchOf(made().plan())

describe('a minute of watching', () => {
  it('finds a sound build as it is, one at rest included', () => {
    expect(b.seeAll('steady', 'F1', 'F2')).toEqual(['yes', 'yes'])
    expect(b.seeAll('flickers', 'F1', 'F2', 'F3')).toEqual(['no', 'no', 'no'])
    expect(b.fault('headers/SYS1/curve:rests-at-zero').seeAll('spins', 'F1')).toEqual(['no'])
    expect(b.fault('headers/SYS1/curve:rests-at-zero').see('steady F1')).toBe('yes')
    expect(b.fault('F1:motor-dead').see('steady F1')).toBe('yes')
    expect(b.off().seeAll('steady', 'F1')).toEqual([null])
  })

  it.each([
    'F1.motor:loose',
    'F1.motor:frayed-12V',
    'board.SYS1:worn-contact',
    'board.SYS1:trips-again',
    'F1:sticking',
  ])('finds a fan stopping and starting under %s while that fails, and nothing while it holds', (fault) => {
    const sick = b.fault(fault)
    expect(sick.seeAll('steady', 'F1', 'F2')).toEqual(['comes-and-goes', 'yes'])
    expect(sick.touching().seeAll('steady', 'F1')).toEqual(['yes'])
    expect(sick.touching().see('spins F1')).toBe('normal')
  })

  it('finds a fan at full speed by turns where its control wire touches now and then', () => {
    const sick = b.fault('F1.motor:frayed-CONTROL')
    expect([sick.see('spins F1'), sick.see('steady F1')]).toEqual(['full', 'swings'])
    // From 95 % to all it goes up by less than a tenth of its top speed, and nobody sees that.
    const fast = benchOf(made({ curve: [[0, 95]] }).plan()).fault('F1.motor:frayed-CONTROL')
    expect(fast.see('steady F1')).toBe('yes')
    // A tach that comes and goes is no matter of the fan.
    const tach = b.fault('F1.motor:frayed-TACH')
    expect([tach.see('rpm board.SYS1'), tach.see('steady F1')]).toEqual(['zero', 'yes'])
  })

  it('finds lights that flicker, those after them in the chain too, and all of a hub by its supply', () => {
    expect(b.fault('F2.light:frayed-DATA').seeAll('flickers', 'F1', 'F2', 'F3')).toEqual(['no', 'yes', 'yes'])
    for (const fault of ['H1.power:loose', 'supply.SA:loose'])
      expect(b.fault(fault).seeAll('flickers', 'F1', 'F3'), fault).toEqual(['yes', 'yes'])
    // The pattern of the hub shows while USB is away.
    expect(b.fault('H1.usb:frayed-USB').seeAll('lit', 'F1')).toEqual(['whole'])
    expect(b.fault('H1.usb:frayed-USB').see('flickers F1')).toBe('yes')
    expect(b.fault('F2.light:unplugged').see('flickers F2')).toBe('no')
  })

  it('finds a fan ticking that is blocked, or asked for less than it starts at', () => {
    expect(b.fault('F1:blocked').see('steady F1')).toBe('ticks')
    expect(b.fault('headers/SYS1/curve:under-start').see('steady F1')).toBe('ticks')
  })

  it('is cured with the fault', () => {
    expect(b.fault('F1.motor:loose').edit('reseat F1.motor').see('steady F1')).toBe('yes')
    expect(b.fault('F1.motor:frayed-12V').edit('reseat F1.motor').see('steady F1')).toBe('comes-and-goes')
    expect(b.fault('F1.motor:frayed-12V').edit('substitute F1').all()).toEqual(b.all())
    // Of two wires that are broken inside, each shows what it shows alone.
    const two = b.fault('F1.motor:frayed-12V', 'F1.motor:frayed-TACH')
    expect([two.see('steady F1'), two.see('rpm board.SYS1')]).toEqual(['comes-and-goes', 'zero'])
    expect(b.fault('board.SYS1:trips-again').edit('plug F2.motor -> board.SYS1').see('steady F2')).toBe(
      'comes-and-goes',
    )
  })
})

describe('fans that hunt', () => {
  it('stop and start where the curve steps up from rest at this temperature', () => {
    const steps = b.fault('headers/SYS1/curve:steps-at-start')
    // At 40 °C as set, and 2 °C above: 0 % and 70 %.
    expect([steps.see('spins F1'), steps.see('steady F1'), steps.see('steady F2')]).toEqual([
      'no',
      'comes-and-goes',
      'yes',
    ])
    expect(steps.touching().see('spins F1')).toBe('normal')
    // It goes on doing so, whatever it does at first.
    expect(steps.touching().see('steady F1')).toBe('comes-and-goes')
    expect(steps.edit('set headers/SYS1/curve = [[30,40],[70,100]]').all()).toEqual(
      b.edit('set headers/SYS1/curve = [[30,40],[70,100]]').all(),
    )
  })

  it('go up and down with each jump of the temperature where nothing delays them', () => {
    // 10 °C on a slope of 1.5 % a degree: 15 points, of which one sees more than 10.
    expect(b.fault('headers/SYS1/delay:follows-at-once').see('steady F1')).toBe('swings')
    expect(b.edit('set headers/SYS1/delay = 0').see('steady F1')).toBe('swings')
    expect(b.edit('set headers/SYS1/delay = 0', 'set headers/SYS1/delay = 2').see('steady F1')).toBe('yes')
    // Half as steep it is not seen.
    const flat = benchOf(
      made({
        curve: [
          [20, 40],
          [80, 80],
        ],
        delay: 0,
      }).plan(),
    )
    expect(flat.see('steady F1')).toBe('yes')
  })
})

describe('a lead that is moved', () => {
  it('changes something only at the plug, lead or socket that gives', () => {
    for (const fault of ['F1.motor:loose', 'F1.motor:frayed-TACH', 'board.SYS1:worn-contact']) {
      expect(b.fault(fault).seeAll('when-moved', 'F1.motor', 'F2.motor')).toEqual(['changes', 'same'])
      expect(b.fault(fault).touching().see('when-moved F1.motor')).toBe('changes')
    }
    expect(b.fault('board.SYS1:trips-again').see('when-moved F1.motor')).toBe('same')
    expect(b.fault('F1.motor:unplugged').see('when-moved F1.motor')).toBeNull()
  })

  it('may be one of three pins, or of plain coloured lights', () => {
    const plain = build()
      .header('SYS1')
      .lightHeader('R1', { volts: 12 })
      .plainFan('F1', { motor: { pins: 3 } })
      .part('S1', { kind: 'strip', light: { volts: 12, leds: 18, amps: 0.4 } })
      .lead('F1.motor', 'board.SYS1')
      .lead('S1.light', 'board.R1')
    const sick = benchOf(plain.plan()).fault('F1.motor:loose', 'S1.light:loose')
    expect(sick.seeAll('when-moved', 'F1.motor', 'S1.light')).toEqual(['changes', 'changes'])
    expect(b.fault('F1.light:loose').see('when-moved F1.light')).toBe('changes')
  })

  it('is never one of the supply or of USB, nor moved with the mains off', () => {
    expect(b.seeAll('when-moved', 'H1.power', 'H1.usb')).toEqual([null, null])
    expect(b.off().see('when-moved F1.motor')).toBeNull()
  })
})
