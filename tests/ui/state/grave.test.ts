/** What in the plan would do damage is read on the screen before the first question, as line by line. */
import { expect, test } from 'vitest'
import { audit } from '../../../src/core/audit/audit.ts'
import { planOf } from '../../support/build.ts'
import { askMany, askSince, doPowerOff } from '../../support/fake-session.ts'
import { screenAt } from './screen-at.ts'

const plan = planOf(`
board: { fan_headers: { S1: }, light_headers: { R1: { volts: 12 V, amps: 2 A } } }
parts: { F1: { kind: fan, motor: {}, light: { volts: 5 V, leds: 8, amps: 0.4 A } } }
leads: [F1.motor -> board.S1, F1.light -> board.R1]`)
const over = { plan, findings: audit(plan) }

test.each([
  ['a question', { prompt: askMany }],
  ['the first step of a first boot', { prompt: { ...doPowerOff, cautions: [] } }],
])('before %s, on a page of its own', async (_, step) => {
  for (const [columns, rows] of [
    [60, 20],
    [80, 24],
    [132, 43],
  ] as const) {
    const at = screenAt([step, { prompt: askSince }], { columns, rows, over })
    const said = at.text().replace(/\s+/gu, ' ')
    expect(said).toContain('will damage: fan F1.light is a 5 V light plug and goes to light header R1')
    expect(said).toContain(
      'Switch the machine off now if it is on. To do: move the plug to a 5 V header before',
    )
    expect(said).not.toContain('POWER ON')
    expect(said).not.toContain('not known:')
    expect(at.text()).toContain('Remarks')
    await at.type('⏎')
    expect(at.text()).not.toContain('Remarks')
    expect(at.session.said).toEqual([])
  }
})

test('no power is said to be on until an answer comes from a machine that runs', async () => {
  const at = screenAt([{ prompt: askMany }, { prompt: askSince }], { over })
  await at.type('⏎')
  expect(at.lines()[0]).toContain('POWER ?')
  await at.type('1 ⏎')
  expect(at.lines()[0]).toContain('POWER ON')
})

test('once, not again after each answer', async () => {
  const at = screenAt([{ prompt: askMany }, { prompt: askSince }], { over })
  await at.type('⏎1 ⏎')
  expect(at.text()).toContain('When did')
  await at.type('m')
  expect(at.text()).not.toContain('will damage')
})
