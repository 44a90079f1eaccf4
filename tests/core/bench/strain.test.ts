/**
 * Which source gives way under which load: every limit of a build by itself, 12 V and 5 V apart. Up to a quarter over
 * a limit the volts sag, above that there are none (judgement, as the bench has it); loads are added up by hand.
 */
import { describe, expect, it } from 'vitest'
import { benchOf } from '../../support/bench-look.ts'
import { build, type Keys } from '../../support/build.ts'

const AMPS = { motor: { amps: 0.5, start_amps: 0.5 }, light: { leds: 8, amps: 0.4 } }
const LEVEL = ['right', 'low', 'none'] as const
/** Limits that a load of these amps keeps, breaks by less than a quarter, and breaks by more. */
const limits = (load: number): number[] => [load, load / 1.2, load / 1.3]

describe('a supply lead', () => {
  const hubs = (supply: Keys, second: Keys = {}) =>
    benchOf(
      build()
        .supply('SA', { plugs: 2, ...supply })
        .supply('SB', { plugs: 1, ...second })
        .usbHeader('U1')
        .fan('F1..F2', AMPS)
        .plainFan('F3')
        .fanHub('G1', ['F1', 'F2'])
        .fanHub('G2', ['F3'])
        .lightHub('H1', ['F1', 'F2'])
        .lead('G1.power', 'supply.SA.1')
        .lead('H1.power', 'supply.SA.2')
        .lead('G2.power', 'supply.SB.1')
        .lead('H1.usb', 'board.U1.a')
        .channel('H1', { profile: [8, 8] })
        .plan(),
    )

  it('gives way on the rail that carries too much, at every plug of it, and on no other', () => {
    limits(1).forEach((amps, i) => {
      const b = hubs({ amps_12v: amps, amps_5v: 5 })
      expect(b.see('volts G1.1/12V'), `${amps} A`).toBe(LEVEL[i])
    })
    limits(0.8).forEach((amps, i) => {
      const b = hubs({ amps_12v: 5, amps_5v: amps })
      expect(b.see('volts H1.1/5V'), `${amps} A`).toBe(LEVEL[i])
    })
    limits(0.25).forEach((amps, i) => {
      const second = hubs({}, { amps_12v: amps })
      expect(second.seeAll('volts', 'G1.1/12V', 'G2.1/12V'), `${amps} A`).toEqual(['right', LEVEL[i]])
    })
    const both = hubs({ amps_12v: 0.5, amps_5v: 5 })
    expect(both.seeAll('volts', 'G1.1/12V', 'G2.1/12V')).toEqual(['none', 'right'])
  })

  it('that is out at the supply takes what hangs on it, at its last plug too, and nothing else', () => {
    const b = hubs({})
    const still = (fault: string) => ['F1', 'F3'].map((f) => b.fault(fault).see(`spins ${f}`) === 'no')
    expect(still('supply.SA:unplugged')).toEqual([true, false])
    expect(still('supply.SB:unplugged')).toEqual([false, true])
    expect(b.fault('supply.SA:unplugged').see('lit F1')).toBe('dark')
    expect(b.fault('G1.power:unplugged').seeAll('spins', 'F1', 'F2')).toEqual(['no', 'no'])
  })
})

describe('a hub', () => {
  const lights = (keys: Keys) =>
    benchOf(
      build()
        .supply('SA')
        .usbHeader('U1')
        .fan('F1..F2', AMPS)
        .fan('F3', { ...AMPS, light: { leds: 8, amps: 0.8 } })
        .lightHub('H1', ['F1', 'F2', 'F3'], { chain: 'parallel', ...keys })
        .lead('H1.power', 'supply.SA.1')
        .lead('H1.usb', 'board.U1.a')
        .channel('H1', { profile: [8, 8, 8] })
        .plan(),
    )

  it('of lights has a limit over all ports, and one for each', () => {
    limits(1.6).forEach((amps, i) => {
      expect(lights({ amps }).seeAll('volts', 'H1.1/5V', 'H1.3/5V'), `${amps} A`).toEqual([
        LEVEL[i],
        LEVEL[i],
      ])
    })
    limits(0.8).forEach((port_amps, i) => {
      const b = lights({ port_amps })
      expect(b.seeAll('volts', 'H1.1/5V', 'H1.3/5V'), `${port_amps} A`).toEqual(['right', LEVEL[i]])
    })
  })

  it('of fans has a limit over all ports, and one for each', () => {
    const fans = (keys: Keys) =>
      benchOf(
        build()
          .supply('SA')
          .plainFan('F1', { motor: { amps: 0.4, start_amps: 1 } })
          .plainFan('F2', { motor: { amps: 0.8, start_amps: 1 } })
          .fanHub('G1', ['F1', 'F2'], keys)
          .lead('G1.power', 'supply.SA.1')
          .plan(),
      )
    limits(1.2).forEach((amps, i) => {
      expect(fans({ amps }).seeAll('volts', 'G1.1/12V', 'G1.2/12V'), `${amps} A`).toEqual([
        LEVEL[i],
        LEVEL[i],
      ])
    })
    limits(0.8).forEach((port_amps, i) => {
      const b = fans({ port_amps })
      expect(b.seeAll('volts', 'G1.1/12V', 'G1.2/12V'), `${port_amps} A`).toEqual(['right', LEVEL[i]])
    })
  })
})

it('a light splitter gives way by its own lead while the header before it stands', () => {
  limits(0.8).forEach((amps, i) => {
    const b = benchOf(
      build()
        .lightHeader('L1', { amps: 3 })
        .fan('F1..F2', AMPS)
        .lightSplitter('X1', ['F1', 'F2'], { amps })
        .lead('X1.in', 'board.L1')
        .channel('L1', { profile: [8] })
        .plan(),
    )
    expect(b.seeAll('volts', 'board.L1/5V', 'X1.2/5V'), `${amps} A`).toEqual(['right', LEVEL[i]])
  })
})

it('a controller has limits for fans and for lights, over all and a port, that do not touch each other', () => {
  const controller = (keys: Keys) => {
    const b = benchOf(
      build()
        .supply('SA')
        .usbHeader('U1')
        .fan('F1..F2', AMPS)
        .controller('C1', ['F1', 'F2'], { fan_control: 'own', ...keys })
        .lead('C1.power', 'supply.SA.1')
        .lead('C1.usb', 'board.U1.a')
        .plan(),
    )
    return b.seeAll('volts', 'C1.fan1/12V', 'C1.light1/5V')
  }
  limits(1).forEach((amps, i) => {
    expect(controller({ fan_amps: amps }), `${amps} A`).toEqual([LEVEL[i], 'right'])
  })
  limits(0.8).forEach((amps, i) => {
    expect(controller({ light_amps: amps }), `${amps} A`).toEqual(['right', LEVEL[i]])
  })
  limits(0.5).forEach((amps, i) => {
    expect(controller({ fan_port_amps: amps }), `${amps} A`).toEqual([LEVEL[i], 'right'])
  })
  limits(0.4).forEach((amps, i) => {
    expect(controller({ light_port_amps: amps }), `${amps} A`).toEqual(['right', LEVEL[i]])
  })
})

it('a 12 V light loads its header’s 12 V', () => {
  limits(0.9).forEach((amps, i) => {
    const b = benchOf(
      build()
        .lightHeader('R1', { volts: 12, amps })
        .part('S1', { kind: 'strip', light: { volts: 12, leds: 18, amps: 0.9 } })
        .lead('S1.light', 'board.R1')
        .plan(),
    )
    expect(b.see('volts board.R1/12V'), `${amps} A`).toBe(LEVEL[i])
  })
})

it('a hub of 12 V lights loads the 12 V of its supply lead, not the 5 V', () => {
  limits(0.9).forEach((amps, i) => {
    const b = benchOf(
      build()
        .supply('SA', { amps_12v: amps, amps_5v: 0.1 })
        .usbHeader('U1')
        .part('S1', { kind: 'strip', light: { volts: 12, leds: 18, amps: 0.9 } })
        .lightHub('H1', ['S1'], { volts: 12, chain: 'parallel' })
        .lead('H1.power', 'supply.SA.1')
        .lead('H1.usb', 'board.U1.a')
        .plan(),
    )
    expect(b.see('volts H1.1/12V'), `${amps} A`).toBe(LEVEL[i])
  })
})

it('a fan or pump that passes its motor lead on feeds and loads with what comes after it', () => {
  const chain = (amps: number) =>
    benchOf(
      build()
        .header('W1', { role: 'pump', amps, drive: 'pwm' })
        .pump('P1', { motor: { pins: 3, amps: 0.4, passes_on: true } })
        .plainFan('F1', { motor: { pins: 3, amps: 0.2 } })
        .lead('P1.motor', 'board.W1')
        .lead('F1.motor', 'P1.motor_out')
        .plan(),
    )
  expect(chain(1).fault('P1.motor:unplugged').see('spins F1')).toBe('no')
  limits(0.6).forEach((amps, i) => {
    expect(chain(amps).see('volts P1.motor_out/12V'), `${amps} A`).toBe(LEVEL[i])
  })
})

it('a header of three pins drives by DC, whatever hangs there', () => {
  const b = benchOf(build().header('SYS1', { pins: 3 }).plainFan('F1').lead('F1.motor', 'board.SYS1').plan())
  expect(b.see('setting headers/SYS1/drive')).toBe('dc')
})
