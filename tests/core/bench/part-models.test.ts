/** What each kind of part does between its own ports, as data: by its description, without running anything. */
import { describe, expect, it } from 'vitest'
import { compile, NOWHERE } from '../../../src/core/bench/build.ts'
import { modelOf } from '../../../src/core/bench/parts/models.ts'
import { build, type Keys } from '../../support/build.ts'

const partOf = (keys: Keys) => compile(build().part('X1', keys).plan())

/** The plug without which the part does nothing. */
function powerOf(keys: Keys): string | undefined {
  const made = partOf(keys)
  const power = made.parts[0]?.power ?? NOWHERE
  return made.ports[power]?.ref
}

describe('the plug without which a part does nothing', () => {
  it.each([
    [{ kind: 'fan-hub', ports: 2, power: 'sata' }, 'X1.power'],
    [{ kind: 'fan-hub', ports: 2, power: 'header' }, 'X1.in'],
    [{ kind: 'light-hub', ports: 2, chain: 'series', power: 'sata', host: 'header' }, 'X1.power'],
    [{ kind: 'light-hub', ports: 2, chain: 'series', power: 'header', host: 'header' }, 'X1.in'],
    [{ kind: 'controller', fan_ports: 1, light_ports: 1, power: 'sata', host: 'usb' }, 'X1.power'],
    [{ kind: 'usb-hub', ports: 2, power: 'sata' }, 'X1.power'],
    [{ kind: 'usb-hub', ports: 2, power: 'bus' }, 'X1.usb'],
    [{ kind: 'fan-splitter', ways: 2, tach_from: 1 }, undefined],
    [{ kind: 'light-splitter', ways: 2, volts: 5 }, undefined],
  ] as const)('of %j is %s', (keys, plug) => {
    expect(powerOf(keys)).toBe(plug)
  })
})

/** By socket: the plug that it has its conductors from, and which. */
function insideOf(keys: Keys): Record<string, string> {
  const part = partOf(keys).parts[0]!.part
  const ways: Record<string, string> = {}
  for (const { socket, from, conductors } of modelOf(part).inside(part))
    ways[socket] = [ways[socket], `${from}: ${[...conductors].sort().join()}`].filter(Boolean).join('; ')
  return ways
}

describe('what a socket has, and from which plug', () => {
  const hub = { kind: 'light-hub', ports: 1, chain: 'series', host: 'none' }
  const motor = { pins: 4, passes_on: true }
  it.each([
    [{ ...hub, power: 'sata' }, { '1': 'power: 5V,GND' }],
    [{ ...hub, power: 'sata', volts: 12 }, { '1': 'power: 12V,GND' }],
    [{ ...hub, power: 'header', host: 'header' }, { '1': 'in: 5V,GND' }],
    [{ kind: 'light-splitter', ways: 1, volts: 5 }, { '1': 'in: 5V,GND' }],
    // Plain lights: a common 12 V and a wire for each colour, no ground.
    [{ kind: 'light-splitter', ways: 1, volts: 12 }, { '1': 'in: 12V,B,G,R' }],
    [{ kind: 'strip', light: { volts: 12, leds: 9, passes_on: true } }, { light_out: 'light: 12V,B,G,R' }],
    [{ kind: 'strip', light: { leds: 9, passes_on: true } }, { light_out: 'light: 5V,GND' }],
    [{ kind: 'strip', light: { leds: 9 } }, {}],
    [{ kind: 'fan', motor }, { motor_out: 'motor: 12V,CONTROL,GND' }],
    [{ kind: 'fan', motor: { ...motor, pins: 3 } }, { motor_out: 'motor: 12V,GND' }],
    [{ kind: 'fan-hub', ports: 1, power: 'sata' }, { '1': 'power: 12V,GND; in: CONTROL' }],
    [{ kind: 'fan-hub', ports: 1, power: 'header', passes_control: false }, { '1': 'in: 12V,GND' }],
    [
      { kind: 'controller', fan_ports: 1, light_ports: 1, power: 'sata', host: 'usb', fan_control: 'own' },
      { fan1: 'power: 12V,GND', light1: 'power: 5V,GND' },
    ],
    [
      {
        kind: 'controller',
        fan_ports: 1,
        light_ports: 1,
        volts: 12,
        power: 'sata',
        host: 'usb',
        fan_control: 'own',
      },
      { fan1: 'power: 12V,GND', light1: 'power: 12V,GND' },
    ],
    [{ kind: 'usb-hub', ports: 1, power: 'bus' }, { '1': 'usb: 5V,GND; usb: USB' }],
    [{ kind: 'usb-hub', ports: 1, power: 'sata' }, { '1': 'power: 5V,GND; usb: USB' }],
  ] as const)('of %j is %j', (keys, ways) => {
    expect(insideOf(keys)).toEqual(ways)
  })
})

describe('an adapter', () => {
  const inside = (from: string, to: string) => {
    const part = partOf({ kind: 'adapter', from, to }).parts[0]!.part
    return modelOf(part)
      .inside(part)
      .flatMap((way) => [...way.conductors])
      .sort()
  }

  it('passes down what both of its ends have; tach and light data have ways of their own', () => {
    expect(inside('fan4', 'fan4')).toEqual(['12V', 'CONTROL', 'GND'])
    expect(inside('fan4', 'fan3')).toEqual(['12V', 'GND'])
    expect(inside('sata', 'fan4')).toEqual(['12V', 'GND'])
    expect(inside('light5', 'light5')).toEqual(['5V', 'GND'])
    expect(inside('usb3', 'usb2')).toEqual(['5V', 'GND', 'USB'])
  })

  it('hands tach back and light data on only where both of its ends have the wire', () => {
    const roles = (from: string, to: string) => {
      const part = partOf({ kind: 'adapter', from, to }).parts[0]!.part
      const model = modelOf(part)
      return [model.tach?.(part) !== undefined, model.light?.(part) !== undefined]
    }
    expect(roles('fan4', 'fan3')).toEqual([true, false])
    expect(roles('sata', 'fan4')).toEqual([false, false])
    expect(roles('light5', 'light5')).toEqual([false, true])
    expect(roles('sata', 'light5')).toEqual([false, false])
  })
})

describe('a controller', () => {
  const made = (fan_control: string) => {
    const part = partOf({
      kind: 'controller',
      fan_ports: 1,
      light_ports: 1,
      power: 'sata',
      host: 'usb',
      fan_control,
    }).parts[0]!.part
    const model = modelOf(part)
    return {
      tach: model.tach?.(part),
      control: model.inside(part).filter((way) => way.conductors.includes('CONTROL')),
    }
  }

  it('hands tach and control between a header and its ports only where the header sets its fans', () => {
    expect(made('header').tach?.out).toBe('in')
    expect(made('header').control).toEqual([{ socket: 'fan1', from: 'in', conductors: ['CONTROL'] }])
    expect(made('own')).toEqual({ tach: undefined, control: [] })
  })
})
