/** Slips of the pen that YAML or the reader takes for something else are told as what they are. */
import { expect, test } from 'vitest'
import { audit } from '../../../src/core/audit/audit.ts'
import type { Fan } from '../../../src/core/plan/part.ts'
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

test.each([
  ['parts: { F1: { type: fan } }', 'write kind'],
  ['parts: { H1: { kind: argb-hub, ports: 4 } }', 'write light-hub'],
  ['board: { rgb_headers: { L1: } }', 'write light_headers'],
  ['board: { fan_headers: { S1: { current: 1 A } } }', 'write amps'],
  ['parts: { F1: { kind: fan, flow: exhaust } }', 'write out'],
  ['parts: { F1: { kind: fan, motor: { speed: 1500 } } }', 'write rpm'],
  // a slip of the pen that is near is still told as before
  ['parts: { H1: { kind: ligth-hub, ports: 4 } }', 'write light-hub'],
  ['parts: { F1: { kind: fan, light: { led: 8 } } }', 'write leds'],
])('another word of the trade is told by the one that a plan has: %s', (text, todo) => {
  expect(problems(text)).toContain(todo)
})

test('the motor of a fan that has a light alone: what makes it a lit frame is told', () => {
  const text = (motor: string): string => `
board: { fan_headers: { S1: } }
parts: { F1: { kind: fan, ${motor}light: { leds: 8 } } }
leads: [F1.motor -> board.S1]`
  expect(problems(text(''))).toContain('needs motor: {} too')
  expect(problems(text('motor: {}, '))).toBe('')
})

test('a lead written as a key and its value is told as the lead that is meant', () => {
  const text = (lead: string): string => `
board: { fan_headers: { S1: } }
parts: { F1: { kind: fan } }
leads: [${lead}]`
  expect(problems(text('F1.motor: board.S1')).split('\n')).toEqual([
    expect.stringContaining('write F1.motor -> board.S1'),
  ])
  expect(problems(text('{ from: F1.motor, to: board.S1 }'))).toBe('')
})

test('unknown where a map belongs: what to write for nothing known is told', () => {
  expect(problems('parts: { F1: { kind: fan, motor: unknown } }')).toContain('write {}')
  expect(problems('parts: { F1: { kind: fan, motor: 4 } }')).not.toContain('write {}')
})

test('a name with a dash at its end is told so, and not that dashes are allowed', () => {
  expect(problems('parts: { -F1: { kind: fan } }')).toContain('no - at either end')
})

test('a dash without its blank, and a # that hides a bracket, are told as such', () => {
  const plan = (leads: string, at = 'front'): string => `
board: { fan_headers: { S1..S2: } }
parts:
  F1..F2: { kind: fan, at: ${at} }
leads:
${leads}`
  expect(problems(plan('  -F1.motor -> board.S1\n  -F2.motor -> board.S2'))).toContain('a blank after each -')
  expect(problems(plan('  F1.motor -> board.S1'))).toContain('write a list')
  expect(problems(plan('', 'front #2'))).toMatch(/never closed.*text with a # in quotes/)
  expect(problems(plan('', '"front #2"'))).toBe('')
  expect(problems('parts: { F1: { kind: fan }\n# all of them }')).toContain('never closed')
  expect(problems('parts: { F1: { kind: fan }\nleads: []')).toContain('close it with }')
})
