/** What a light socket really gives, and how far a lead may be over; worked by hand. */
import { describe, expect, test } from 'vitest'
import { audit } from '../../../src/core/audit/audit.ts'
import { type Build, build } from '../../support/build.ts'
import { onController, strips } from './rule-case.ts'

const told = (made: Build) =>
  audit(made.plan()).map(({ rule, severity, facts }) => ({ rule, severity, plug: facts.plug }))
const volts = (made: Build) => told(made).filter(({ rule }) => /^(light-(5|12)v|supply-lacks)/.test(rule))

describe('a splitter gives what it is fed with', () => {
  const behind = (splitter: number, header: number): Build =>
    strips(1, { leds: 8, amps: 0.3 })
      .lightHeader('L1', { volts: header })
      .lightSplitter('X1', ['S1'], { volts: splitter })
      .lead('X1.in', 'board.L1')

  test('one for 12 V on a 5 V header destroys nothing', () => {
    expect(volts(behind(12, 5))).toEqual([
      { rule: 'light-12v-on-5v', severity: 'will-not-work', plug: 'X1.in' },
    ])
  })

  test('and is not sent to a 12 V header while 5 V lights hang on it', () => {
    const other = (made: Build) => audit(made.plan()).find((f) => f.rule === 'light-12v-on-5v')?.facts.other
    expect(other(behind(12, 5))).toEqual(['S1'])
    const alone = strips(1, { volts: 12, leds: 8 }).lightHeader('L1').lead('S1.light', 'board.L1')
    expect(other(alone)).toEqual([])
  })

  test('one for 12 V on a 12 V header destroys 5 V lights, and so does one for 5 V there', () => {
    expect(volts(behind(12, 12))).toEqual([
      { rule: 'light-5v-on-12v', severity: 'will-damage', plug: 'S1.light' },
    ])
    expect(volts(behind(5, 12))).toEqual([
      { rule: 'light-5v-on-12v', severity: 'will-damage', plug: 'X1.in' },
    ])
    expect(volts(behind(5, 5))).toEqual([])
  })
})

describe('an adapter from 12 V to 5 V light plugs', () => {
  const adapted = (wired: boolean): Build => {
    const made = strips(1, { leds: 8, amps: 0.3 })
      .lightHeader('R1', { volts: 12 })
      .part('A1', { kind: 'adapter', from: 'light12', to: 'light5' })
      .lead('S1.light', 'A1.out')
    return wired ? made.lead('A1.in', 'board.R1') : made
  }

  test('is told once, at the plug behind it', () => {
    expect(volts(adapted(true))).toEqual([
      { rule: 'light-5v-on-12v', severity: 'will-damage', plug: 'S1.light' },
    ])
  })

  test('gives nothing while it hangs in the air', () => {
    expect(volts(adapted(false))).toEqual([])
  })
})

describe('a lead over its current', () => {
  const severityOf = (made: Build, rule: string) =>
    audit(made.plan())
      .filter((f) => f.rule === rule)
      .map((f) => f.severity)
  const thin = (amps: number): Build =>
    strips(1, { leds: 30, amps })
      .lightHeader('L1', { amps: 20 })
      .lead('S1.light', 'board.L1', { mm: 100, awg: 28 })

  test.each([
    // 28 AWG bears 1.4 A; a third of 1.5 A flows in mixed colours.
    [1.5, ['may-not-work']],
    // 1.7 A in mixed colours.
    [5.1, ['will-damage']],
    [1.4, []],
  ])('of lights, %s A on 28 AWG', (amps, want) => {
    expect(severityOf(thin(amps), 'lead-over-gauge')).toEqual(want)
  })

  test('of lights whose current is assumed, is no damage foretold', () => {
    const assumed = strips(1, { leds: 90 })
      .lightHeader('L1', { amps: 20 })
      .lead('S1.light', 'board.L1', { mm: 100, awg: 28 })
    // 90 times 60 mA: 5.4 A, and 1.8 A in mixed colours.
    expect(audit(assumed.plan()).find((f) => f.rule === 'lead-over-gauge')).toMatchObject({
      severity: 'may-not-work',
      figure: 5.4,
      assumed: ['parts.S1.light.amps'],
    })
  })

  test('by a motor, which draws what it draws: a little or far over', () => {
    const fan = (amps: number) =>
      build()
        .header('SYS1', { amps: 5 })
        .plainFan('F1', { motor: { amps, start_amps: amps } })
        .lead('F1.motor', 'board.SYS1', { mm: 100, awg: 28 })
    expect(severityOf(fan(1.5), 'lead-over-gauge')).toEqual(['may-not-work'])
    expect(severityOf(fan(1.8), 'lead-over-gauge')).toEqual(['will-damage'])
  })

  test('of the supply is judged by mixed colours, and the one part that is too much for any lead is named', () => {
    const hung = (amps: number) =>
      onController(2, { light_amps: 20 }, { light: { amps } }).supply('SA', { amps_5v: 4.4 })
    const lead = (amps: number) =>
      audit(hung(amps).plan()).filter((f) => f.rule === 'supply-lead-over-current')
    // 6 A at full white on 4.4 A (at 4.5 its one plug would be told instead), 2 A in mixed colours; 15 A and 5 A.
    expect(lead(3)).toMatchObject([{ severity: 'may-not-work', facts: { mixed: 2, alone: ['C1'] } }])
    expect(lead(7.5)).toMatchObject([{ severity: 'will-not-work' }])
    expect(lead(2.2)).toEqual([])
  })
})

test('volts lost on the way rest on all that hangs on it', () => {
  const made = build()
    .lightHeader('L1')
    .part('S1', { kind: 'strip', light: { leds: 20, amps: 1, passes_on: true } })
    .part('S2', { kind: 'strip', light: { leds: 30 } })
    .lead('S1.light', 'board.L1', { mm: 1000, awg: 26 })
    .lead('S2.light', 'S1.light_out')
  // 1 A and an assumed 1.8 A, out and back over 133.9 mΩ
  expect(audit(made.plan()).find((f) => f.rule === 'light-drop')).toMatchObject({
    facts: { part: ['S1', 'S2'], drop: 0.75 },
    assumed: ['parts.S2.light.amps'],
  })
})
