import { describe, expect, test } from 'vitest'
import type { Problem } from '../../../src/core/plan/problem.ts'
import { readPlan } from '../../../src/core/plan/read.ts'

const FILE = 'test.build.yaml'
const plan = (readings: string): string => `build: Archive workstation
supply: { leads: { SA: { kind: sata, plugs: 2 } } }
board:
  fan_headers: { CPU: { amps: 1 A }, SYS1: { amps: 1 A } }
  usb_headers: { U1: {} }
parts:
  F1: { kind: fan, motor: { amps: 0.25 } }
  H1: { kind: light-hub, ports: 4, power: sata, host: usb }
  C1: { kind: controller, fan_ports: 2, light_ports: 1, power: sata, host: usb }
leads: [F1.motor -> board.SYS1]
${readings}
`
const problems = (readings: string): readonly Problem[] => {
  const read = readPlan(plan(readings), FILE)
  return read.ok ? [] : read.problems
}

describe('names of readings in a plan', () => {
  test('are kept in small letters, by header, port of a controller and part on USB', () => {
    const read = readPlan(
      plan(`readings:
  SYS1: Fan1
  board.CPU: [nct6798-isa-0290/fan2, CPU fan]
  C1.fan2: fan7
  H1: 1209:0001
  C1: '1-9.1'`),
      FILE,
    )
    expect(read.ok && read.value.readings).toEqual([
      { name: 'fan1', ref: 'board.SYS1' },
      { name: 'nct6798-isa-0290/fan2', ref: 'board.CPU' },
      { name: 'cpu fan', ref: 'board.CPU' },
      { name: 'fan7', ref: 'C1.fan2' },
      { name: '1209:0001', ref: 'H1' },
      { name: '1-9.1', ref: 'C1' },
    ])
  })

  test('may be left out, or empty', () => {
    for (const nothing of ['', 'readings:', 'readings: {}'])
      expect(readPlan(plan(nothing), FILE)).toMatchObject({ ok: true, value: { readings: [] } })
  })

  test.each([
    ['a place that is not there', 'readings: { SYS9: fan1 }', 11, 13, 'SYS9', 'one of CPU, SYS1'],
    ['a slip in a place', 'readings:\n  SYSS: fan1', 12, 3, 'SYSS', 'SYS1'],
    ['a part of which nothing is read', 'readings: { F1: fan1 }', 11, 13, 'F1', ''],
    [
      'a name for two places',
      'readings: { CPU: fan1, SYS1: FAN1 }',
      11,
      30,
      'fan1',
      'each name for one place',
    ],
    ['no name', 'readings: { CPU: }', 11, 13, '', 'a name in the reading'],
    ['a map for a name', 'readings: { CPU: { fan: 1 } }', 11, 18, 'a map', 'a name in the reading'],
    [
      'an option in the place of a name',
      'readings: { CPU: fan1=SYS1 }',
      11,
      18,
      'fan1=SYS1',
      'a name in the reading',
    ],
    ['a list of places', 'readings: [SYS1]', 11, 11, 'a list', 'a map of names'],
  ])('%s is told with its line', (_, text, line, col, found, expected) => {
    const [first, ...more] = problems(text)
    expect(more).toEqual([])
    expect(first?.at).toMatchObject({ file: FILE, line })
    expect(first?.at.col).toBe(col)
    expect(first?.found).toContain(found)
    expect(first?.expected).toContain(expected)
    expect(first?.todo).not.toBe('')
  })

  test('of a part that could not be read cause no second complaint', () => {
    const broken = plan('readings: { H1: "1209:0001" }').replace('ports: 4,', 'ports: many,')
    const read = readPlan(broken, FILE)
    expect(read.ok ? [] : read.problems.map((p) => p.at.line)).toEqual([8])
  })
})
