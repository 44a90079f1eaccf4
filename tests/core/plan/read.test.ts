import { describe, expect, test } from 'vitest'
import type { Fan, LightHub } from '../../../src/core/plan/part.ts'
import { readPlan } from '../../../src/core/plan/read.ts'
import { build, planOf, problemLines } from '../../support/build.ts'
import { standsAt } from '../../support/plan-text.ts'

/** A plan in the documented form, shorthands left out. */
const archive = `build: Radio archive workstation
supply: { leads: { SA: {kind: sata, plugs: 3}, SB: {kind: sata, plugs: 3} } }
board:
  fan_headers:   { CPU: {amps: 1.0, drive: pwm}, SYS1: {amps: 1.0, drive: auto}, SYS2: {amps: 2.0, drive: dc} }
  light_headers: { L1: {volts: 5, amps: 3.0} }
  usb_headers:   { U1: {kind: usb2, ports: 2} }
parts:
  F1: { kind: fan, motor: {pins: 4, amps: 0.25, start_amps: 0.5, rpm: [450, 1500]}, light: {volts: 5, leds: 8, amps: 0.32},
        at: front-bottom, flow: in }
  H1: { kind: light-hub, ports: 6, chain: series, power: sata, host: usb, before_host: stored-pattern }
  Y1: { kind: fan-splitter, ways: 3, tach_from: 1 }
leads:
  - F1.motor -> Y1.1
  - F1.light -> H1.1
  - Y1.in    -> board.SYS1
  - H1.power -> supply.SA.1
  - H1.usb   -> board.U1.a
settings:
  headers:  { SYS1: {drive: pwm, curve: [[30, 40], [70, 100]]} }
  channels: { H1: {profile: [8, 8, 8]} }
  host: { program: running, global_effect: off }
light_order: [F1]
`

const partOf = <T>(text: string, id: string): T =>
  planOf(text).parts.find((part) => part.id === id) as unknown as T

describe('a plan in the documented form', () => {
  const plan = planOf(archive)

  test('gives supply, headers, parts and settings as written', () => {
    expect(plan.build).toBe('Radio archive workstation')
    expect(plan.supply.leads.map((lead) => [lead.id, lead.kind, lead.plugs])).toEqual([
      ['SA', 'sata', 3],
      ['SB', 'sata', 3],
    ])
    expect(plan.board.fanHeaders.map((h) => [h.id, h.role, h.amps, h.drive])).toEqual([
      ['CPU', 'cpu', 1, 'pwm'],
      ['SYS1', 'fan', 1, 'auto'],
      ['SYS2', 'fan', 2, 'dc'],
    ])
    expect(plan.parts.map((part) => [part.id, part.kind])).toEqual([
      ['F1', 'fan'],
      ['H1', 'light-hub'],
      ['Y1', 'fan-splitter'],
    ])
    expect(plan.settings.headers.SYS1).toEqual({
      drive: 'pwm',
      curve: [
        [30, 40],
        [70, 100],
      ],
    })
    expect(plan.settings.channels.H1?.profile).toEqual([8, 8, 8])
    expect(plan.lightOrder).toEqual(['F1'])
  })

  test('leads run from plug to socket', () => {
    expect(plan.leads.map((lead) => `${lead.plug} -> ${lead.socket}`)).toEqual([
      'F1.motor -> Y1.1',
      'F1.light -> H1.1',
      'Y1.in -> board.SYS1',
      'H1.power -> supply.SA.1',
      'H1.usb -> board.U1.a',
    ])
  })

  test('global_effect: off is the word off, not a truth value', () => {
    expect(plan.settings.host).toEqual({ program: 'running', globalEffect: 'off' })
    expect(
      planOf(archive.replace('global_effect: off', 'global_effect: on')).settings.host.globalEffect,
    ).toBe('on')
    expect(
      planOf(archive.replace('global_effect: off', 'global_effect: false')).settings.host.globalEffect,
    ).toBe('off')
  })

  test('the same wiring written from socket to plug is the same plan', () => {
    const turned = archive.replace(/- (\S+)\s+-> (\S+)/g, '- $2 -> $1')
    expect(turned).not.toBe(archive)
    expect(planOf(turned).leads.map((lead) => [lead.plug, lead.socket])).toEqual(
      plan.leads.map((lead) => [lead.plug, lead.socket]),
    )
  })
})

describe('values that a plan does not give', () => {
  test('are the usual ones, and marked as assumed', () => {
    const plan = planOf(
      'parts: { F1: { kind: fan, motor: { amps: 0.1 } } }\nboard: { fan_headers: { SYS1: } }\n',
    )
    const fan = plan.parts[0] as Fan
    expect(fan.motor).toMatchObject({ pins: 4, amps: 0.1, startAmps: 0.2, pulses: 2, tach: 'pulses' })
    expect(plan.board.fanHeaders[0]).toMatchObject({ amps: 1, role: 'fan', pins: 4 })
    for (const path of ['parts.F1.motor.pins', 'parts.F1.motor.start_amps', 'board.fan_headers.SYS1.amps'])
      expect(plan.assumed.has(path), path).toBe(true)
    expect(plan.assumed.has('parts.F1.motor.amps')).toBe(false)
  })

  test('unknown is the same as not given', () => {
    const plan = planOf(
      'parts: { F1: { kind: fan, motor: { amps: unknown, rpm: [unknown, 2000] }, light: { leds: unknown } } }\n',
    )
    const fan = plan.parts[0] as Fan
    expect(fan.motor?.rpm[1]).toBe(2000)
    expect([...plan.assumed]).toEqual(
      expect.arrayContaining([
        'parts.F1.motor.amps',
        'parts.F1.motor.rpm',
        'parts.F1.light.leds',
        'parts.F1.light.amps',
      ]),
    )
  })

  test('a header says by its name what it is for, unless the plan says otherwise', () => {
    const plan = planOf(
      'parts: { F1: { kind: fan } }\nboard:\n  fan_headers: { CPU_FAN:, cpu1:, PUMP1:, SYS1:, SYS2: { role: pump }, CPU_OPT: }\n  pump_headers: { W1: }\n',
    )
    expect(plan.board.fanHeaders.map((h) => [h.id, h.role])).toEqual([
      ['CPU_FAN', 'cpu'],
      ['cpu1', 'cpu'],
      ['PUMP1', 'pump'],
      ['SYS1', 'fan'],
      ['SYS2', 'pump'],
      ['CPU_OPT', 'fan'],
      ['W1', 'pump'],
    ])
  })
})

describe('units', () => {
  test('0.25 A, 250 mA and 0.25 are the same current', () => {
    const amps = (written: string): number | undefined =>
      partOf<Fan>(`parts: { F1: { kind: fan, motor: { amps: ${written} } } }`, 'F1').motor?.amps
    expect(amps('0.25')).toBe(0.25)
    expect(amps('0.25 A')).toBe(0.25)
    expect(amps('250 mA')).toBe(0.25)
    expect(amps('250mA')).toBe(0.25)
  })

  test('lengths, speeds, shares and gauges may carry theirs', () => {
    const plan = planOf(`
board: { fan_headers: { SYS1: } }
parts:
  F1: { kind: fan, size: 12 cm, motor: { rpm: [450 rpm, 1500 RPM], start_duty: 25 %, start_volts: 5 V }, light: { mm: 0.5 m, awg: 26 AWG } }
leads: [{ from: F1.motor, to: board.SYS1, length: 50 cm, awg: AWG 24 }]
settings: { headers: { SYS1: { curve: [[30 °C, 40 %], [70, 100]] } }, celsius: 104 °F }
`)
    expect(plan.parts[0]).toMatchObject({
      sizeMm: 120,
      motor: { rpm: [450, 1500], startDuty: 25, startVolts: 5 },
    })
    expect((plan.parts[0] as Fan).lights[0]).toMatchObject({ mm: 500, awg: 26 })
    expect(plan.leads[0]).toMatchObject({ mm: 500, awg: 24 })
    expect(plan.settings.headers.SYS1?.curve).toEqual([
      [30, 40],
      [70, 100],
    ])
    expect(plan.settings.celsius).toBe(40)
  })
})

describe('shorthands', () => {
  test('a range of parts is that many identical parts', () => {
    const plan = planOf('parts: { F1..F3: { kind: fan, motor: { amps: 0.2 } }, F08..F10: { kind: fan } }')
    expect(plan.parts.map((part) => part.id)).toEqual(['F1', 'F2', 'F3', 'F08', 'F09', 'F10'])
  })

  test('a range in a lead is that many leads, in order', () => {
    const plan = build()
      .header('SYS1')
      .fan('F1..F3')
      .part('Y1', { kind: 'fan-splitter', ways: 3 })
      .lead('F1..F3.motor', 'Y1.3..1')
      .lead('Y1.in', 'board.SYS1')
      .plan()
    expect(plan.leads.map((lead) => `${lead.plug} -> ${lead.socket}`)).toEqual([
      'F1.motor -> Y1.3',
      'F2.motor -> Y1.2',
      'F3.motor -> Y1.1',
      'Y1.in -> board.SYS1',
    ])
  })

  test('like copies a part, and what is written beside it goes over the copy', () => {
    const text = `parts:
  F1: { kind: fan, motor: { amps: 0.2, rpm: [450, 1500] }, light: { leds: 8, amps: 0.3 }, at: front, flow: in }
  F2: { like: F1, light: { leds: 12 }, flow: out }
  F3: { like: F2, light: none, motor: { amps: 0.1 } }
`
    const plan = planOf(text)
    const [, f2, f3] = plan.parts as Fan[]
    expect(f2).toMatchObject({ motor: { amps: 0.2, rpm: [450, 1500] }, flow: 'out' })
    expect(f2?.lights[0]).toMatchObject({ leds: 12, amps: 0.3 })
    expect(f2?.at).toBeUndefined()
    expect(f3?.lights).toEqual([])
    expect(f3?.motor).toMatchObject({ amps: 0.1, rpm: [450, 1500] })
  })

  test('a stock file beside the plan gives parts that others can be like', () => {
    const plan = `uses: bench.stock.yaml\nparts: { F1..F2: { like: quiet-120, at: rear } }\n`
    const stock = `stock:\n  quiet-120: { kind: fan, motor: { amps: 120 mA } }\n`
    const read = readPlan(plan, 'a.build.yaml', (name) =>
      name === 'bench.stock.yaml' ? { text: stock, file: 'bench.stock.yaml' } : undefined,
    )
    expect(problemLines(read)).toEqual([])
    if (!read.ok) return
    expect(read.value.parts).toHaveLength(2)
    expect(read.value.places.get('parts.F2.motor.amps')).toEqual(
      standsAt(stock, '120 mA', 'bench.stock.yaml'),
    )
    expect(read.value.places.get('parts.F2')).toEqual({ file: 'a.build.yaml', line: 2, col: 10 })
  })

  test('YAML anchors and merge keys work as in any YAML file', () => {
    const plan = planOf(`parts:
  F1: &f { kind: fan, motor: &m { amps: 0.2 } }
  F2: *f
  F3: { <<: *f, at: rear }
  F4: { kind: fan, motor: { <<: *m, pins: 3 } }
`)
    expect((plan.parts as Fan[]).map((fan) => fan.motor?.amps)).toEqual([0.2, 0.2, 0.2, 0.2])
    expect((plan.parts[3] as Fan).motor?.pins).toBe(3)
  })
})

describe('parts of every kind', () => {
  test('several lights on a fan have a plug each', () => {
    const list = partOf<Fan>('parts: { F1: { kind: fan, lights: [{ leds: 8 }, { leds: 4 }] } }', 'F1')
    expect(list.lights.map((light) => [light.port, light.leds])).toEqual([
      ['light', 8],
      ['light2', 4],
    ])
    const named = partOf<Fan>(
      'parts: { F1: { kind: fan, lights: { ring: { leds: 12 }, core: { leds: 6 } } } }',
      'F1',
    )
    expect(named.lights.map((light) => light.port)).toEqual(['ring', 'core'])
  })

  test('fans may be chained one behind the other', () => {
    const plan = build()
      .header('SYS1')
      .fan('F1', { motor: { passes_on: true }, light: { passes_on: true } })
      .fan('F2')
      .lead('F2.motor', 'F1.motor_out')
      .lead('F2.light', 'F1.light_out')
      .lead('F1.motor', 'board.SYS1')
      .plan()
    expect(plan.leads).toHaveLength(3)
  })

  test('a fan may take its 12 V from the supply', () => {
    const plan = build()
      .supply('M1', { kind: 'peripheral' })
      .header('SYS1')
      .plainFan('F1', { motor: { feed: 'peripheral' } })
      .lead('F1.power', 'supply.M1.1')
      .lead('F1.motor', 'board.SYS1')
      .plan()
    expect((plan.parts[0] as Fan).motor?.feed).toBe('peripheral')
  })

  test('an adapter from a USB 3 header carries a USB 2 plug', () => {
    const plan = build()
      .usbHeader('U3', { kind: 'usb3' })
      .supply('SA')
      .fan('F1')
      .lightHub('H1', ['F1'])
      .part('A1', { kind: 'adapter', from: 'usb3', to: 'usb2', outs: 2 })
      .lead('A1.in', 'board.U3')
      .lead('H1.usb', 'A1.out1')
      .lead('H1.power', 'supply.SA.1')
      .plan()
    expect(plan.leads.at(-3)).toMatchObject({ plug: 'A1.in', socket: 'board.U3' })
  })

  test('what really gets built is a plan, even where it should not be', () => {
    const plan = build()
      .header('SYS1', { pins: 3 })
      .header('SYS2')
      .lightHeader('L12', { volts: 12 })
      .lightHeader('L5')
      .fan('F1')
      .fan('F2', { motor: { pins: 3 }, light: { volts: 12 } })
      .lead('F1.motor', 'board.SYS1')
      .lead('F2.motor', 'board.SYS2')
      .lead('F1.light', 'board.L12')
      .lead('F2.light', 'board.L5')
      .plan()
    expect(plan.leads).toHaveLength(4)
  })

  test('a hub in series and a hub in parallel are told apart', () => {
    const chain = (written: string): LightHub =>
      partOf<LightHub>(`parts: { H1: { kind: light-hub, ports: 4, chain: ${written} } }`, 'H1')
    expect(chain('series').chain).toBe('series')
    expect(chain('parallel').chain).toBe('parallel')
  })

  test('settings may name a header with or without its board', () => {
    const plan = planOf(`board: { fan_headers: { SYS1: }, usb_headers: { U1: } }
parts: { F1: { kind: fan } }
settings: { headers: { board.SYS1: { drive: dc } }, ports: { board.U1.a: { enabled: no } } }
`)
    expect(plan.settings.headers).toEqual({ SYS1: { drive: 'dc' } })
    expect(plan.settings.ports).toEqual({ 'board.U1.a': { enabled: false } })
  })
})

describe('plans large and small', () => {
  test('two parts are a plan', () => {
    expect(planOf('parts: { F1: { kind: fan }, F2: { kind: fan } }').parts).toHaveLength(2)
  })

  test('a thousand fans are a plan', () => {
    const plan = planOf(`board: { fan_headers: { S1..S250: { amps: 2 A } } }
parts: { F1..F1000: { kind: fan, motor: { amps: 0.2 } }, Y1..Y250: { kind: fan-splitter, ways: 4 } }
leads: [F1..F1000.motor -> Y1..Y250.1..4, Y1..Y250.in -> board.S1..S250]
`)
    expect(plan.leads).toHaveLength(1250)
    expect(plan.leads[999]).toMatchObject({ plug: 'F1000.motor', socket: 'Y250.4' })
  })
})
