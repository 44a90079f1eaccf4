/** What has one cause and one remedy is one finding: alike fans, one plug and its lead, a way that nobody reads. */
import { describe, expect, test } from 'vitest'
import { audit } from '../../../src/core/audit/audit.ts'
import { findingWords } from '../../../src/wording/en/findings.ts'
import { findingText } from '../../../src/wording/findings.ts'
import { planOf } from '../../support/build.ts'

const found = (text: string, rule: RegExp) => audit(planOf(text)).filter((f) => rule.test(f.rule))
const says = (text: string, rule: RegExp): string[] =>
  found(text, rule).map((f) => findingText(findingWords, f).says)

describe('fans that are wrong in the same way', () => {
  const chain = (last: string): string => `
board: { fan_headers: { SYS1: { amps: 2 A, drive: dc } } }
parts:
  F1..F2: { kind: fan, motor: { pins: 3, amps: 0.2 A, start_volts: 7 V } }
  F3: { kind: fan, motor: { pins: 3, amps: 0.2 A, start_volts: ${last} } }
  Y1: { kind: fan-splitter, ways: 3 }
leads: [F1..F3.motor -> Y1.1..3, Y1.in -> board.SYS1]
settings: { headers: { SYS1: { drive: dc, curve: [[30, 40], [70, 100]] } } }`

  test('are told together, each with its lead', () => {
    const [finding, ...more] = found(chain('7 V'), /dc-under-start-volts/)
    expect(more).toEqual([])
    expect(finding?.facts.fan).toEqual(['F1', 'F2', 'F3'])
    expect(finding?.refs).toEqual(expect.arrayContaining(['F1.motor', 'F2.motor', 'F3.motor']))
    expect(says(chain('7 V'), /dc-under-start-volts/)).toEqual([
      'board.SYS1 goes down to 4.8 V; F1, F2 and F3 start at 7 V and may stay still once stopped',
    ])
  })

  test('and apart where the limit is another', () => {
    expect(found(chain('6 V'), /dc-under-start-volts/).map((f) => f.facts.fan)).toEqual([['F1', 'F2'], 'F3'])
  })

  test('as lights on one run are, and as parts that share one place are', () => {
    const run = `
board: { light_headers: { L1: } }
parts:
  S1: { kind: strip, light: { leds: 10, amps: 0.4 A, mm: 1.2 m, passes_on: yes }, at: shelf }
  S2..S3: { kind: strip, light: { leds: 10, amps: 0.4 A, passes_on: yes }, at: shelf }
leads: [S1.light -> board.L1, S2.light -> S1.light_out, S3.light -> S2.light_out]`
    expect(says(run, /light-run-long|leads-one-label/)).toEqual([
      'S1, S2 and S3 hang 1200 mm from the feed; 1 m is the usual advice',
      'S2 and S3 are the same kind of part as S1 and also at shelf: their leads are easily mixed up',
    ])
  })

  test('as are fans of one kind over the fan specification, whatever header each is on', () => {
    const text = `
board: { fan_headers: { S1..S2: { amps: 3 A } } }
parts: { F1..F2: { kind: fan, motor: { amps: 1.6 A, start_amps: 2 A } } }
leads: [F1..F2.motor -> board.S1..S2]`
    expect(says(text, /fan-over-specification/)).toEqual([
      'F1 and F2 each take 1.6 A (steady); the fan specification allows 1.5 A',
    ])
  })

  test('on two headers are two findings', () => {
    const two = `
board: { fan_headers: { SYS1..SYS2: { drive: pwm } } }
parts: { F1..F2: { kind: fan, motor: { pins: 3 } } }
leads: [F1..F2.motor -> board.SYS1..SYS2]`
    expect(found(two, /three-pin-on-pwm/).map((f) => f.facts.fan)).toEqual(['F1', 'F2'])
  })
})

describe('three names that read alike', () => {
  test('are one finding', () => {
    const three = `
board: { fan_headers: { S1..S3: } }
parts: { F1: { kind: fan }, FI: { kind: fan }, Fl: { kind: fan } }
leads: [F1.motor -> board.S1, FI.motor -> board.S2, Fl.motor -> board.S3]`
    expect(says(three, /names-alike/)).toEqual(['FI and Fl are easily taken for F1, or for one another'])
  })
})

describe('a plug of the supply that is the only one in use on its lead', () => {
  const fed = (second: string): string => `
supply: { leads: { SA: { plugs: 2, amps_12v: 4.5 A } } }
board: { fan_headers: { SYS1..SYS2: } }
parts:
  F1..F7: { kind: fan, motor: { amps: 0.7 A, start_amps: 0.7 A } }
  K1..K2: { kind: fan-hub, ports: 8, amps: 6 A }
leads:
  - F1..F7.motor -> K1.1..7
  - K1..K2.in -> board.SYS1..SYS2
  - K1.power -> supply.SA.1
  - K2.power -> supply.SA.2
${second}`

  test('is told, and not its lead again, with a remedy that spares the lead', () => {
    const told = found(fed(''), /plug-over-current|supply-lead/)
    expect(told.map((f) => f.rule)).toEqual(['sata-plug-over-current'])
    if (told[0]) expect(findingText(findingWords, told[0]).todo).toContain('each on a lead of its own')
  })

  test('but the lead is told too where another plug adds to it, or where it bears less than a plug', () => {
    const both = ['sata-plug-over-current', 'supply-lead-over-current']
    const more = fed('').replace('K1.1..7', 'K1.1..7\n  - F8.motor -> K2.1').replace('F1..F7:', 'F1..F8:')
    expect(
      found(more, /plug-over-current|supply-lead/)
        .map((f) => f.rule)
        .sort(),
    ).toEqual(both)
    const weak = fed('').replace('4.5 A', '3 A')
    expect(
      found(weak, /plug-over-current|supply-lead/)
        .map((f) => f.rule)
        .sort(),
    ).toEqual(both)
  })
})

describe('a bus-powered hub over its budget', () => {
  const hub = (header: string, others = ''): string => `
board: { usb_headers: { U1: { milliamps: ${header} } } }
parts:
  N1: { kind: usb-hub, ports: 6, power: bus, own_milliamps: 100 mA }
  D1..D5: { kind: usb-device, usb_milliamps: 100 mA }
  D6: { kind: usb-device, usb_milliamps: 600 mA }
leads: [N1.usb -> board.U1.a, D1..D5.usb -> N1.1..5${others}]`
  const over = (text: string) => found(text, /over-(current|budget)/).map((f) => `${f.rule} ${f.facts.at}`)

  test('is told, and not once more of the port that it hangs on', () => {
    expect(over(hub('500 mA'))).toEqual(['usb-bus-hub-over-budget board.U1.a'])
  })

  test('but a port is told too that gives less than a hub may take, and so is the port beside', () => {
    expect(over(hub('400 mA'))).toEqual([
      'usb-header-over-current board.U1.a',
      'usb-bus-hub-over-budget board.U1.a',
    ])
    expect(over(hub('500 mA', ', D6.usb -> board.U1.b')).sort()).toEqual([
      'usb-bus-hub-over-budget board.U1.a',
      'usb-header-over-current board.U1.b',
    ])
  })
})

describe('splitters behind a splitter', () => {
  const nested = (first: string, second: string): string => `
board: { fan_headers: { SYS1: } }
parts:
  F1..F4: { kind: fan, motor: { amps: 0.1 A } }
  Y1: { kind: fan-splitter, ways: 2, tach_from: 1 }
  Y2..Y3: { kind: fan-splitter, ways: 3, tach_from: 1 }
leads:
  - F1..F2.motor -> Y2.${first}
  - F3..F4.motor -> Y3.${second}
  - Y2..Y3.in -> Y1.1..2
  - Y1.in -> board.SYS1`

  test('an empty way whose tach the header would read is told once, and names the header', () => {
    expect(says(nested('2..3', '1..2'), /tach-(way-empty|missing)/)).toEqual([
      'Y2 returns the tach of socket 1, where nothing is plugged in: board.SYS1 reads 0 rpm',
    ])
  })

  test('one behind a way whose tach is not passed on is no fault', () => {
    expect(says(nested('1..2', '2..3'), /tach-(way-empty|missing)/)).toEqual([])
  })
})

describe('plain 12 V lights', () => {
  const strips = (volts: 5 | 12): string => `
board: { light_headers: { L1: { volts: ${volts} V } } }
parts:
  S1: { kind: strip, light: { volts: ${volts} V, leds: 6, amps: 0.2 A } }
  S2: { kind: strip, light: { volts: ${volts} V, leds: 30, amps: 0.5 A } }
  X1: { kind: light-splitter, ways: 2, volts: ${volts} V }
leads: [S1..S2.light -> X1.1..2, X1.in -> board.L1]
settings: { channels: { L1: { profile: [18] } } }`

  test('take no data: neither counts nor unlike branches are held against them', () => {
    expect(found(strips(12), /profile|branches/)).toEqual([])
    expect(found(strips(5), /profile|branches/).map((f) => f.rule)).toEqual([
      'profile-short',
      'branches-unlike',
    ])
  })
})

test('a device too deep is counted in tiers, once', () => {
  const hubs = Array.from(
    { length: 6 },
    (_, i) => `  - N${i + 1}.usb -> ${i === 0 ? 'board.U1.a' : `N${i}.1`}`,
  )
  const text = `
board: { usb_headers: { U1: } }
parts:
  N1..N6: { kind: usb-hub, ports: 2, power: bus }
  R1: { kind: usb-device }
leads:
${hubs.join('\n')}
  - R1.usb -> N6.1`
  expect(says(text, /usb-too-deep/)[0]).toMatch(/^R1 makes 8 tiers behind N6, .*; USB ends at 7 tiers/)
})
