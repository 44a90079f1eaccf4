/** What each family of modes does that the wiring alone does not explain, and that the catalogue is whole. */
import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import { run } from '../../../src/core/bench/run.ts'
import { catalogue, faultByName, faultsOf } from '../../../src/core/faults/catalogue.ts'
import { faultText, parseFault } from '../../../src/core/faults/fault.ts'
import { benchOf } from '../../support/bench-look.ts'
import { build, planOf } from '../../support/build.ts'

const made = () =>
  build()
    .supply('SA')
    .header('CPU', { role: 'cpu', drive: 'pwm' })
    .header('SYS1', { drive: 'pwm' })
    .usbHeader('U1')
    .lightHeader('L1')
    .fan('F1..F4')
    .splitter('Y1', ['F1', 'F2', 'F3'])
    .lead('Y1.in', 'board.SYS1')
    .lead('F4.motor', 'board.CPU')
    .lightHub('H1', ['F1', 'F2', 'F3'])
    .lead('H1.power', 'supply.SA.1')
    .lead('H1.usb', 'board.U1.a')
    .lead('F4.light', 'board.L1')
    .channel('H1', { profile: [8, 8, 8] })
    .channel('L1', { profile: [8] })
    .set('CPU', { curve: [[0, 40]] })
    .set('SYS1', { curve: [[0, 100]] })

const b = benchOf(made().plan())

describe('leads out at their own part', () => {
  it('do as if pulled, while the far end is still in its socket, until pushed home', () => {
    const usb = b.fault('H1.usb:out-at-part')
    expect([usb.see('listed H1'), usb.see('goes H1.usb'), usb.see('seated H1.usb')]).toEqual([
      'no',
      'board.U1.a',
      'no',
    ])
    expect(usb.edit('reseat H1.usb').all()).toEqual(b.all())
    const power = b.fault('H1.power:out-at-part')
    expect(power.seeAll('lit', 'F1', 'F2')).toEqual(['dark', 'dark'])
    expect(power.see('volts supply.SA.1/5V')).toBe('right')
  })

  it('are only of parts whose leads come off at both ends', () => {
    expect(faultByName(b.build, { at: 'F1.motor', mode: 'out-at-part' })).toBeUndefined()
    expect(faultByName(b.build, { at: 'Y1.in', mode: 'out-at-part' })).toBeUndefined()
  })
})

describe('an LED that is dark and hands data on', () => {
  it('leaves its fan lit in part and all after it right', () => {
    const dark = b.fault('F2:led-dark-4')
    expect(dark.seeAll('lit', 'F1', 'F2', 'F3')).toEqual(['whole', 'part', 'whole'])
    expect(dark.see('effect H1')).toBe('whole')
    expect(dark.edit('substitute F2').all()).toEqual(b.all())
  })

  it('behind an LED where data ends is no darker', () => {
    expect(b.fault('F2:led-dead-3').see('lit F2')).toBe('part')
    expect(b.fault('F2:led-dead-3', 'F2:led-dark-5').see('lit F2')).toBe('part')
  })
})

describe('what comes and goes', () => {
  it('worn contacts of a header stay with the header, where a loose plug is cured by pushing it home', () => {
    const worn = b.fault('board.CPU:worn-contact')
    expect([worn.see('spins F4'), worn.touching().see('spins F4')]).toEqual(['no', 'normal'])
    expect(worn.edit('reseat F4.motor').see('spins F4')).toBe('no')
    expect(worn.see('seated F4.motor')).toBe('yes')
    expect(b.fault('F4.motor:loose').edit('reseat F4.motor').see('spins F4')).toBe('normal')
  })

  it('light data that is just too weak comes and goes with the 5 V steady', () => {
    const weak = b.fault('board.L1:data-weak')
    expect([weak.see('lit F4'), weak.touching().see('lit F4')]).toEqual(['dark', 'whole'])
    expect(weak.see('volts F4.light/5V')).toBe('right')
  })

  it('both are marked as coming and going', () => {
    for (const text of ['board.CPU:worn-contact', 'board.L1:data-weak', 'F4.motor:loose']) {
      const fault = parseFault(text)
      expect(fault && faultByName(b.build, fault)?.intermittent, text).toBe(true)
    }
  })
})

describe('what a full power-off clears', () => {
  it('an alarm from before stands though the fan is right', () => {
    const old = b.fault('board.CPU:alarm-stored')
    expect([old.see('alarm board.CPU'), old.see('spins F4'), old.see('rpm board.CPU')]).toEqual([
      'yes',
      'normal',
      'plausible',
    ])
    expect(old.edit('power off', 'power on').all()).toEqual(b.all())
  })

  it('a part asleep on USB is not listed and shows its stored pattern; a new lead does not wake it', () => {
    const asleep = b.fault('H1:usb-stuck')
    expect([asleep.see('listed H1'), asleep.see('shows F1')]).toEqual(['no', 'stored'])
    expect(asleep.edit('substitute H1.usb').see('listed H1')).toBe('no')
    expect(asleep.edit('power off', 'power on').all()).toEqual(b.all())
    expect(b.fault('H1:not-answering').edit('power off', 'power on').see('listed H1')).toBe('no')
  })
})

describe('readings that are wrong', () => {
  it('a counter that starts above the fan shows 0 until it runs faster', () => {
    // 40 % of 1500 is 600 rpm; a divisor of 8 counts from 664 (lm-sensors, fan divisors).
    const coarse = b.fault('board.CPU:counts-coarsely')
    expect([coarse.see('spins F4'), coarse.see('rpm board.CPU')]).toEqual(['normal', 'zero'])
    expect(coarse.edit('set headers/CPU/curve = [[0,80]]').see('rpm board.CPU')).toBe('plausible')
  })

  it('is suspected only where a fan is that slow', () => {
    const at = faultsOf(b.build)
      .filter((k) => k.fault.mode === 'counts-coarsely')
      .map((k) => k.fault.at)
    expect(at).toEqual(['board.CPU'])
  })

  it('a fan that tells no speed reads zero, and a planned one does not', () => {
    const level = b.fault('F4:tach-level')
    expect([level.see('spins F4'), level.see('rpm board.CPU')]).toEqual(['normal', 'zero'])
  })
})

describe('a splitter with a way fewer than planned', () => {
  it('leaves what should hang on the last way unplugged, and there is no place for it', () => {
    const short = b.fault('Y1:way-missing')
    expect([short.see('spins F3'), short.see('goes F3.motor')]).toEqual(['no', 'none'])
    expect(short.edit('plug F3.motor -> Y1.3').see('spins F3')).toBe('no')
    expect(short.edit('substitute Y1', 'reseat F3.motor').all()).toEqual(b.all())
  })

  it('cannot be one of two ways', () => {
    const two = benchOf(
      build()
        .header('SYS1', { drive: 'pwm' })
        .plainFan('F1..F2')
        .splitter('Y1', ['F1', 'F2'])
        .lead('Y1.in', 'board.SYS1')
        .plan(),
    )
    expect(faultByName(two.build, { at: 'Y1', mode: 'way-missing' })).toBeUndefined()
  })
})

describe('the catalogue', () => {
  const example = compile(planOf(readFileSync('docs/examples/archive-ten-fans.build.yaml', 'utf8')))
  const known = faultsOf(example)

  it('gives every fault a positive weight and a name that finds it again', () => {
    for (const k of known) {
      expect(k.weight).toBeGreaterThan(0)
      const again = faultByName(example, k.fault)
      expect(again?.family, faultText(k.fault)).toBe(k.family)
      expect(again?.intermittent).toBe(k.intermittent)
      expect(parseFault(faultText(k.fault))).toEqual(k.fault)
    }
  })

  it('lists no fault twice', () => {
    const names = known.map((k) => faultText(k.fault))
    expect(new Set(names).size).toBe(names.length)
  })

  it('plants the same whether listed or named', () => {
    for (const k of known.filter((_, i) => i % 7 === 0)) {
      const again = faultByName(example, k.fault)
      if (!again) throw new Error(faultText(k.fault))
      const [a, c] = [k.plant, again.plant].map((plant) => run(example, { plants: [plant], edits: [] }))
      for (const { part } of example.parts)
        for (const what of ['spins', 'lit', 'shows', 'listed'] as const)
          expect(a?.see({ what, at: part.id })).toBe(c?.see({ what, at: part.id }))
    }
  })

  it('knows no fault at a place that is not there, and none of a mode that is not', () => {
    for (const { mode } of catalogue)
      for (const at of [
        'F99',
        'F99.motor',
        'board.XX',
        'headers/XX/curve',
        'channels/XX/profile',
        'supply.XX',
      ])
        for (const arg of mode.endsWith('-') ? ['1', 'TACH', 'F1.motor', 'board.SYS1', 'from-1'] : [''])
          expect(faultByName(example, { at, mode: `${mode}${arg}` }), `${at}:${mode}${arg}`).toBeUndefined()
    for (const mode of [
      '',
      'open-',
      'open-XYZ',
      'led-dead-0',
      'led-dead-99',
      'led-dead-x',
      'in-',
      'swapped-with-',
      'no-such',
    ])
      expect(faultByName(example, { at: 'F1.motor', mode }), mode).toBeUndefined()
  })

  it('spreads wrong sockets and exchanges of one plug over its near neighbours', () => {
    const of = (at: string, start: string) =>
      known.filter((k) => k.fault.at === at && k.fault.mode.startsWith(start))
    const wrong = of('F9.motor', 'in-')
    expect(wrong.length).toBeGreaterThan(0)
    expect(wrong.reduce((sum, k) => sum + k.weight, 0)).toBeLessThanOrEqual(0.38 + 1e-9)
    expect(of('F1.motor', 'swapped-with-').length).toBeLessThanOrEqual(8)
  })
})
