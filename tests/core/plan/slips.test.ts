/** Slips of the pen that YAML or the reader takes for something else are told as what they are. */
import { expect, test } from 'vitest'
import { audit } from '../../../src/core/audit/audit.ts'
import type { Fan } from '../../../src/core/plan/plan.ts'
import { readPlan } from '../../../src/core/plan/read.ts'
import { planOf, problemLines } from '../../support/build.ts'

const problems = (text: string): string => problemLines(readPlan(text, 'x.build.yaml')).join('\n')

test('motor: none leaves the motor out of a lit fan, beside like too', () => {
  const { parts } = planOf(`parts:
  F1: { kind: fan, motor: none, light: { leds: 8 } }
  F2: { kind: fan, light: { leds: 8 }, motor: { amps: 0.2 } }
  F3: { like: F2, motor: none }
  F4: { like: F3, motor: { amps: 0.3 } }
  F5: { kind: fan, light: none }`)
  expect(parts.map((p) => (p as Fan).motor?.amps)).toEqual([undefined, 0.2, undefined, 0.3, 0.25])
  expect(parts.map((p) => (p as Fan).lights.length)).toEqual([1, 1, 1, 1, 0])
})

test('motor: none without lights is no fan', () => {
  for (const text of ['F1: { kind: fan, motor: none }', 'F1: { like: F0, motor: none }'])
    expect(problems(`parts: { F0: { kind: fan, motor: { amps: 0.2 } }, ${text} }`)).toContain(
      'without lights',
    )
})

test('a comma before the decimals inside braces is told as one', () => {
  const text = (value: string): string => `parts: { F1: { kind: fan, motor: { amps: ${value}, pins: 4 } } }`
  expect(problems(text('1,5 A'))).toMatch(/1,5 A.*a comma ends the value.*write 1\.5 A/s)
  expect(problems(text('0,25'))).toMatch(/write 0\.25/)
  expect(problems(text('0.25, mA: 3'))).not.toMatch(/comma ends/)
})

test('speeds from a label, 400-1500, are told how a plan has them', () => {
  for (const rpm of ['400-1500', '400 – 1500 rpm', '400..1500', '400 to 1500'])
    expect(problems(`parts: { F1: { kind: fan, motor: { rpm: ${rpm} } } }`)).toContain('write [400, 1500]')
})

test('a part that is like something unknown is not offered itself', () => {
  const said = problems('parts: { F1..F2: { like: zzzzzz }, G1: { kind: fan } }')
  expect(said).toContain('one of G1')
  expect(said).not.toMatch(/one of.*F1/)
})

test('a USB 2 plug in a USB 3 header is one thing, a finding', () => {
  const text = (socket: string): string => `
board: { usb_headers: { U3: { kind: usb3 } } }
parts: { D1: { kind: usb-device } }
leads: [D1.usb -> ${socket}]`
  const read = readPlan(text('board.U3.a'), 'x.build.yaml')
  expect(read).toMatchObject({ ok: true })
  expect(audit(planOf(text('board.U3.a'))).map((f) => f.rule)).toContain('usb-3-header-bare')
  expect(problems(text('board.U3'))).toMatch(/adapter from usb3 to usb2/)
})
