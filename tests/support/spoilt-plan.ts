/** A small right plan, and what must be said of it where it is spoilt in one place. */
import { expect } from 'vitest'
import type { Problem } from '../../src/core/plan/problem.ts'
import { readPlan } from '../../src/core/plan/read.ts'
import { standsAt } from './plan-text.ts'

const FILE = 'test.build.yaml'

export const problemsOf = (text: string): readonly Problem[] => {
  const read = readPlan(text, FILE)
  return read.ok ? [] : read.problems
}

/** A small right plan; each test spoils it in one place. */
export const right = `build: Listening desk
supply: { leads: { SA: { kind: sata, plugs: 2 } } }
board:
  fan_headers: { CPU: { amps: 1 A }, SYS1: { amps: 1 A, drive: auto } }
  light_headers: { L1: { volts: 5 V, amps: 3 A } }
  usb_headers: { U1: { ports: 2 } }
parts:
  F1: { kind: fan, motor: { pins: 4, amps: 0.25, start_amps: 0.5, rpm: [450, 1500] }, light: { leds: 8 } }
  F2: { kind: fan, motor: { amps: 0.2 } }
  H1: { kind: light-hub, ports: 4, chain: series, power: sata, host: usb }
  Y1: { kind: fan-splitter, ways: 2 }
leads:
  - F1.motor -> Y1.1
  - F2.motor -> Y1.2
  - Y1.in -> board.SYS1
  - F1.light -> H1.1
  - H1.power -> supply.SA.1
  - H1.usb -> board.U1.a
settings:
  headers: { SYS1: { drive: pwm, curve: [[30, 40], [70, 100]] } }
  channels: { H1: { profile: [8] } }
  host: { program: running }
light_order: [F1]
`

export interface Mistake {
  readonly what: string
  readonly from: string
  readonly to: string
  /** The text at which the problem is reported, and which time it stands there. */
  readonly at: string
  readonly nth?: number
  readonly found: RegExp
  readonly expected: RegExp
  readonly todo?: RegExp
}

/** The mistake is told once, at its place, with what was expected. */
export function expectToldOnce({ from, to, at, nth, found, expected, todo }: Mistake): void {
  const text = right.replace(from, to)
  expect(text).not.toBe(right)
  const start = text.indexOf(to)
  const shift = text.slice(start).indexOf(at)
  const before = text.slice(0, start)
  const target =
    shift < 0
      ? standsAt(text, at, FILE, nth ?? 1)
      : standsAt(text, at, FILE, (nth ?? 1) + before.split(at).length - 1)
  const problems = problemsOf(text)
  const here = problems.filter((p) => found.test(p.found))
  expect(here, JSON.stringify(problems, null, 1)).toHaveLength(1)
  expect(here[0]).toMatchObject({ at: target })
  expect(here[0]?.expected).toMatch(expected)
  if (todo) expect(here[0]?.todo).toMatch(todo)
}
