/** Leads that go nowhere, do not fit, or run in a ring. */
import { describe, expect, test } from 'vitest'
import { expectToldOnce, type Mistake, problemsOf } from '../../support/spoilt-plan.ts'

const mistakes: readonly Mistake[] = [
  {
    what: 'a port that does not exist, with those that do',
    from: 'F2.motor -> Y1.2',
    to: 'F2.motor -> Y1.3',
    at: 'F2.motor -> Y1.3',
    found: /the port "Y1.3"/,
    expected: /Y1.in, Y1.1, Y1.2/,
  },
  {
    what: 'a mistyped port, with the nearest',
    from: 'F2.motor',
    to: 'F2.moter',
    at: 'F2.moter',
    found: /F2.moter/,
    expected: /F2.motor/,
    todo: /write F2.motor/,
  },
  {
    what: 'a header written without its board',
    from: 'board.SYS1',
    to: 'SYS1',
    at: 'Y1.in -> SYS1',
    found: /SYS1/,
    expected: /^board.SYS1$/,
  },
  {
    what: 'a part that does not exist',
    from: 'H1.usb ->',
    to: 'HH1.usb ->',
    at: 'HH1.usb',
    found: /the part "HH1"/,
    expected: /^H1$/,
    todo: /write H1/,
  },
  {
    what: 'a socket used twice, naming the other line',
    from: 'F2.motor -> Y1.2',
    to: 'F2.motor -> Y1.1',
    at: 'F2.motor -> Y1.1',
    found: /Y1.1 a second time/,
    expected: /line 13 has it already/,
  },
  {
    what: 'a plug used twice',
    from: 'F2.motor -> Y1.2',
    to: 'F1.motor -> Y1.2',
    at: 'F1.motor -> Y1.2',
    found: /F1.motor a second time/,
    expected: /line 13/,
  },
  {
    what: 'a light lead on a fan header',
    from: 'F1.light -> H1.1',
    to: 'F1.light -> board.CPU',
    at: 'F1.light -> board.CPU',
    found: /F1.light \(light plug\) in board.CPU \(fan socket\)/,
    expected: /a light socket, such as board.L1, H1.1/,
  },
  {
    what: 'a SATA plug in a USB header',
    from: 'H1.power -> supply.SA.1',
    to: 'H1.power -> board.U1.b',
    at: 'H1.power -> board.U1.b',
    found: /SATA power plug/,
    expected: /supply.SA.1/,
  },
  {
    what: 'two plugs',
    from: 'F2.motor -> Y1.2',
    to: 'F2.motor -> Y1.in',
    at: 'F2.motor -> Y1.in',
    found: /F2.motor \(fan plug\) and Y1.in \(fan plug\)/,
    expected: /one plug and one socket/,
  },
  {
    what: 'two sockets',
    from: 'Y1.in -> board.SYS1',
    to: 'Y1.2 -> board.SYS1',
    at: 'Y1.2 -> board.SYS1',
    found: /socket\) and/,
    expected: /one plug and one socket/,
  },
  {
    what: 'a USB plug of one row on a header of two',
    from: 'board.U1.a',
    to: 'board.U1',
    at: 'H1.usb -> board.U1',
    found: /board.U1/,
    expected: /board.U1.a or board.U1.b/,
  },
  {
    what: 'a lead without an arrow',
    from: 'F1.light -> H1.1',
    to: 'F1.light H1.1',
    at: 'F1.light H1.1',
    found: /F1.light H1.1/,
    expected: /PORT -> PORT/,
  },
]

describe('a lead that cannot be is told once, at its place', () => {
  test.each(mistakes)('$what', expectToldOnce)
})

describe('rings of leads', () => {
  test('two splitters that feed each other', () => {
    const text = `parts: { Y1: { kind: fan-splitter, ways: 2 }, Y2: { kind: fan-splitter, ways: 2 } }
leads:
  - Y1.in -> Y2.1
  - Y2.in -> Y1.1
`
    expect(problemsOf(text)).toMatchObject([{ found: 'leads in a ring: Y1 -> Y2 -> Y1', at: { line: 4 } }])
  })

  test('a fan plugged into itself', () => {
    const text =
      'parts: { F1: { kind: fan, motor: { passes_on: yes } } }\nleads: [F1.motor -> F1.motor_out]\n'
    expect(problemsOf(text)).toMatchObject([{ found: 'F1 plugged into itself' }])
  })

  test('two controllers that feed each other with different things are no ring', () => {
    const text = `supply: { leads: { SA: { plugs: 2 } } }
parts:
  C1: { kind: controller, fan_ports: 2, light_ports: 2, fan_control: header, host: usb }
  C2: { kind: controller, fan_ports: 2, light_ports: 2, host: header }
leads:
  - C1.in -> C2.fan1
  - C2.light_in -> C1.light1
  - C1.power -> supply.SA.1
  - C2.power -> supply.SA.2
`
    expect(problemsOf(text)).toEqual([])
  })
})
