/** What a finding says to do can be done in that plan, and what was done about it quiets it. */
import { describe, expect, test } from 'vitest'
import { audit } from '../../../src/core/audit/audit.ts'
import { findingWords } from '../../../src/wording/en/findings.ts'
import { findingText } from '../../../src/wording/findings.ts'
import { planOf } from '../../support/build.ts'

const told = (text: string) => audit(planOf(text))
const rules = (text: string): string[] => told(text).map((f) => f.rule)

const todo = (text: string, rule: string): string | undefined =>
  told(text)
    .filter((f) => f.rule === rule)
    .map((f) => findingText(findingWords, f).todo)[0]

describe('the direction of a fan', () => {
  const fans = (keys: string): string => `
board: { fan_headers: { SYS1:, SYS2:, SYS3:, CPU: } }
parts:
  F1..F3: { kind: fan, flow: in }
  F4: { kind: fan${keys} }
leads: [F1..F3.motor -> board.SYS1..SYS3, F4.motor -> board.CPU]`

  test('is asked for at the side, but not on the cooler, by place or name, nor once it is said to be unknown', () => {
    expect(rules(fans(', at: side'))).toContain('unknown-flow')
    for (const keys of [', at: processor cooler', ', at: CPU-rear', ', flow: inside', ', flow: unknown'])
      expect(rules(fans(keys)), keys).not.toContain('unknown-flow')
    expect(rules(fans('').replaceAll('F4', 'cooler'))).not.toContain('unknown-flow')
    expect(rules(fans(', at: liquid cooler'))).toContain('unknown-flow')
  })

  test('inside the case counts for neither side', () => {
    expect(rules(fans(', at: cooler'))).toContain('air-one-way')
    expect(rules(fans(', flow: unknown'))).not.toContain('air-one-way')
    expect(rules(fans(', flow: out'))).not.toContain('air-one-way')
    expect(rules(fans(', at: front, flow: inside'))).not.toContain('flow-against-custom')
  })
})

describe('a header that can do DC only', () => {
  const hub = (headers: string): string => `
supply: { leads: { SA: } }
board: { fan_headers: { ${headers} } }
parts: { F1: { kind: fan }, K1: { kind: fan-hub, ports: 2 } }
leads: [F1.motor -> K1.1, K1.in -> board.S1, K1.power -> supply.SA.1]
settings: { headers: { S1: { curve: [[30, 40], [70, 100]] } } }`
  const fan = (headers: string): string => `
board: { fan_headers: { ${headers} } }
parts: { F1: { kind: fan } }
leads: [F1.motor -> board.S1]`

  test('is never to be set to PWM; a free header that offers it is named', () => {
    for (const dc of ['S1: { drive: dc }', 'S1: { pins: 3 }']) {
      expect(todo(hub(dc), 'dc-into-powered-hub')).toMatch(
        /can do DC only.*K1\.in to a fan header that offers PWM/,
      )
      expect(todo(hub(`${dc}, S2: { drive: dc }, S3:`), 'dc-into-powered-hub')).toMatch(
        /K1\.in to board\.S3$/,
      )
      expect(todo(fan(dc), 'four-pin-on-dc')).toMatch(/^nothing if it runs well/)
      expect(todo(fan(`${dc}, S2: { amps: 0.1 }, S3:`), 'four-pin-on-dc')).toMatch(/F1\.motor to board\.S3$/)
    }
  })

  test('one that can do both is to be set', () => {
    const set = (text: string) => text.concat('\nsettings: { headers: { S1: { drive: dc } } }')
    expect(todo(set(fan('S1:')), 'four-pin-on-dc')).toBe('set board.S1 to PWM')
    expect(todo(hub('S1:').replace('S1: { curve', 'S1: { drive: dc, curve'), 'dc-into-powered-hub')).toBe(
      'set board.S1 to PWM',
    )
  })
})

describe('a control wire that ends', () => {
  const adapter = (from: string, to: string, headers: string): string => `
supply: { leads: { M1: { kind: peripheral } } }
board: { fan_headers: { ${headers} } }
parts: { A1: { kind: adapter, from: ${from}, to: ${to} }, F1: { kind: fan } }
leads: [A1.in -> ${from === 'peripheral' ? 'supply.M1.1' : 'board.S1'}, F1.motor -> A1.out]`

  test('at a lead of the supply, which has neither control nor DC, is mended by a header', () => {
    expect(todo(adapter('peripheral', 'fan4', 'S1:'), 'control-not-passed')).toBe(
      'nothing if full speed is meant; for control plug its motor lead into board.S1',
    )
  })

  test('is never led to the header of the processor fan or of a pump', () => {
    const headers = 'CPU:, W1: { role: pump }'
    expect(todo(adapter('peripheral', 'fan4', headers), 'control-not-passed')).toMatch(/into a fan header$/)
  })

  test('of two fans is one finding, which does not lead both to one header', () => {
    const both = adapter('peripheral', 'fan4', 'S1:')
      .replace('to: fan4', 'to: fan4, outs: 2')
      .replace('F1:', 'F1..F2:')
      .replace('F1.motor -> A1.out', 'F1..F2.motor -> A1.out1..out2')
    expect(told(both).filter((f) => f.rule === 'control-not-passed')).toHaveLength(1)
    expect(todo(both, 'control-not-passed')).toMatch(/their motor leads into fan headers$/)
  })

  test('on a header, by DC only where the header can do it', () => {
    const split = (header: string): string => `
board: { fan_headers: { S1: ${header} } }
parts: { F1..F2: { kind: fan }, Y1: { kind: fan-splitter, ways: 2, passes_control: no } }
leads: [F1..F2.motor -> Y1.1..2, Y1.in -> board.S1]`
    expect(todo(split('{ drive: pwm }'), 'control-not-passed')).toBe('replace Y1 by one with four wires')
    expect(todo(`${split('')}\nsettings: { headers: { S1: { drive: pwm } } }`, 'control-not-passed')).toBe(
      'replace Y1 by one with four wires, or set the header to DC',
    )
  })
})

describe('a pump fed by the supply', () => {
  test('whose tach lead hangs loose is told like a fan: nobody would read that it stops', () => {
    const pump = `
supply: { leads: { SA: } }
board: { fan_headers: { S1: } }
parts: { P1: { kind: pump, motor: { pins: 3, feed: sata } } }
leads: [P1.power -> supply.SA.1]`
    expect(todo(pump, 'tach-elsewhere')).toMatch(/^plug P1\.motor into a header/)
    expect(todo(pump.replace('.1]', '.1, P1.motor -> board.S1]'), 'tach-elsewhere')).toBeUndefined()
  })
})

describe('rests and alarms', () => {
  const still = (header: string, alarm: string): string => `
board: { fan_headers: { ${header}: { drive: pwm } } }
parts: { F1: { kind: fan, motor: { below_min: stops-at-zero } } }
leads: [F1.motor -> board.${header}]
settings: { headers: { ${header}: { curve: [[30, 0], [70, 100]], ${alarm} } } }`

  test('no alarm is set under 0 rpm', () => {
    expect(todo(still('S1', 'alarm_below: 300'), 'alarm-above-speed')).toMatch(
      /lift the lowest point.*0 \(never\)/,
    )
  })

  test('the CPU header is not left at rest, others may be', () => {
    expect(todo(still('CPU', 'pulses: 2'), 'curve-rests-at-zero')).toMatch(
      /^lift the lowest point: .*power-on/,
    )
    expect(todo(still('S1', 'pulses: 2'), 'curve-rests-at-zero')).toMatch(/^nothing if it is meant so/)
  })
})

test('one pump too much for its header goes elsewhere as a whole, to a header that bears it', () => {
  const pump = (more: string): string => `
board: { fan_headers: { S1: { amps: 0.5 A }${more} } }
parts: { P1: { kind: pump, motor: { amps: 0.8 A, start_amps: 0.8 A } } }
leads: [P1.motor -> board.S1]`
  expect(todo(pump(''), 'header-over-current')).toMatch(/^move P1\.motor to a header that gives 0\.8 A, or/)
  expect(todo(pump(', S2: { amps: 0.5 A }, S3: { amps: 1 A }'), 'header-over-current')).toMatch(
    /^move P1\.motor to board\.S3, or/,
  )
})

test('DC set for a fan port of a controller is found, since it steers by PWM alone', () => {
  const port = (drive: string): string => `
supply: { leads: { SA: } }
parts: { C1: { kind: controller, fan_ports: 1, host: none }, F1: { kind: fan } }
leads: [C1.power -> supply.SA.1, F1.motor -> C1.fan1]
settings: { headers: { C1.fan1: { drive: ${drive}, curve: [[30, 40], [70, 100]] } } }`
  expect(todo(port('dc'), 'drive-not-offered')).toMatch(/^set it to pwm/)
  expect(rules(port('pwm'))).not.toContain('drive-not-offered')
})

describe('one cause', () => {
  test('three fans on one pump header are one finding', () => {
    const found = rules(`
board: { pump_headers: { W1: { amps: 3 } } }
parts: { F1..F3: { kind: fan }, Y1: { kind: fan-splitter, ways: 3 } }
leads: [F1..F3.motor -> Y1.1..3, Y1.in -> board.W1]`)
    expect(found.filter((r) => r === 'fan-on-pump-header')).toHaveLength(1)
  })

  const way = (other: string): string => `
board: { fan_headers: { S1:, S2: } }
parts: { F1..F2: { kind: fan }, Y1: { kind: fan-splitter, ways: 3 }, Y2: { kind: fan-splitter, ways: 2, tach_from: none } }
leads: [F1.motor -> Y1.2, Y1.in -> board.S1, F2.motor -> Y2.1, Y2.in -> board.${other}]`

  test('an empty way of the tach says that none arrives, but not for another header', () => {
    const missing = told(way('S2')).filter((f) => f.rule === 'tach-missing')
    expect(missing.map((f) => f.facts.at)).toEqual(['board.S2'])
    expect(rules(way('S2'))).toContain('tach-way-empty')
  })

  test('a CPU header that gets no tach says that its fan has none', () => {
    const fan = (header: string): string[] =>
      rules(`
board: { fan_headers: { ${header}: } }
parts: { F1: { kind: fan, motor: { pins: 3, tach: none } } }
leads: [F1.motor -> board.${header}]`)
    expect(fan('CPU')).toContain('cpu-header-no-tach')
    expect(fan('CPU')).not.toContain('tach-none')
    expect(fan('S1')).toContain('tach-none')
  })
})
