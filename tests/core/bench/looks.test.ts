/** Looks at single things: what has no value, and what is shown where little is lit. */
import { describe, expect, it } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import { askedDuty } from '../../../src/core/bench/drive.ts'
import { valuesOf, type What } from '../../../src/core/bench/observable.ts'
import { plannedMoment, run } from '../../../src/core/bench/run.ts'
import { benchOf } from '../../support/bench-look.ts'
import { build } from '../../support/build.ts'

describe('a look', () => {
  const b = benchOf(
    build()
      .header('SYS1')
      .lightHeader('R1', { volts: 12, amps: 2 })
      .plainFan('F1')
      .part('S1', { kind: 'strip', light: { volts: 12, leds: 18, amps: 0.4 } })
      .lead('F1.motor', 'board.SYS1')
      .lead('S1.light', 'board.R1')
      .plan(),
  )

  it.each(Object.keys(valuesOf) as What[])('%s at a thing that is not there has no value', (what) => {
    for (const at of ['F9', 'F9.motor', 'board.SYS9', 'board.SYS9/12V', 'headers/SYS9/drive', ''])
      expect(b.see(`${what} ${at}`), at).toBeNull()
  })

  it('at a setting of no section has no value', () => {
    expect(b.see('setting headers/SYS1/drive')).toBe('pwm')
    expect(b.seeAll('setting', 'nothing/SYS1/drive', 'host/anything')).toEqual([null, null])
  })

  it('at the lights of a fan without lights has no value, nor at the blades of a strip', () => {
    expect([b.see('lit F1'), b.see('shows F1'), b.see('spins S1'), b.see('listed F1')]).toEqual([
      null,
      null,
      null,
      null,
    ])
  })

  it('shows a colour to be missing in the stored pattern too', () => {
    const stored = b.fault('host/program:not-running')
    expect(stored.see('shows S1')).toBe('stored')
    expect(stored.fault('S1.light:open-G').see('shows S1')).toBe('wrong-colours')
  })
})

it('volts are told of the two rails only, and are none with the mains off', () => {
  const b = benchOf(
    build()
      .header('SYS1')
      .lightHeader('L1')
      .fan('F1')
      .lead('F1.motor', 'board.SYS1')
      .lead('F1.light', 'board.L1')
      .plan(),
  )
  expect(b.seeAll('volts', 'board.SYS1/12V', 'F1.light/5V', 'board.SYS1/GND')).toEqual([
    'right',
    'right',
    null,
  ])
  expect(b.off().seeAll('volts', 'board.SYS1/12V', 'F1.light/5V')).toEqual(['none', 'none'])
})

it('the power that is asked for has the last word', () => {
  const made = compile(build().header('SYS1').plainFan('F1').lead('F1.motor', 'board.SYS1').plan())
  const off = [{ do: 'power', to: 'off' }] as const
  const rpm = { what: 'rpm', at: 'board.SYS1' } as const
  expect(run(made, { plants: [], edits: off }).see(rpm)).toBeNull()
  const on = run(made, { plants: [], edits: off, power: 'on' })
  expect(on.see(rpm)).toBe('plausible')
  expect(on.see({ what: 'volts', at: 'board.SYS1/12V' })).toBe('right')
})

it('each light header has the colours and the count of its own lights', () => {
  const b = benchOf(
    build()
      .lightHeader('L1')
      .lightHeader('L2')
      .fan('F1', { light: { colours: 'GRB' } })
      .fan('F2', { light: { leds: 12, colours: 'RGB' } })
      .lead('F1.light', 'board.L1')
      .lead('F2.light', 'board.L2')
      .plan(),
  )
  expect(b.seeAll('setting', 'channels/L1/colours', 'channels/L2/colours')).toEqual(['GRB', 'RGB'])
  expect(b.seeAll('setting', 'channels/L1/profile', 'channels/L2/profile')).toEqual(['[8]', '[12]'])
  expect(b.see('setting channels/L1/nothing')).toBeNull()
  expect(b.edit('set channels/L1/colours = GRBWX').see('setting channels/L1/colours')).toBe('GRB')
})

it('a light of one LED that stays dark is dark, and is reached', () => {
  const b = benchOf(
    build()
      .lightHeader('L1')
      .part('S1', { kind: 'strip', light: { leds: 1 } })
      .lead('S1.light', 'board.L1')
      .channel('L1', { profile: [1] })
      .plan(),
  ).fault('S1:led-dark-1')
  expect(b.see('lit S1')).toBe('dark')
  expect(b.see('effect board.L1')).toBe('whole')
})

it('without a curve a pump header asks for all, another header by the usual curve', () => {
  const moment = plannedMoment(
    compile(
      build().header('W1', { role: 'pump' }).header('SYS1').plainFan('F1').settings({ celsius: 50 }).plan(),
    ),
  )
  const duty = (ref: string): number => askedDuty(moment, moment.build.portAt.get(ref) ?? -1)
  // Half way from 40 % at 30 °C to 100 % at 70 °C.
  expect([duty('board.W1'), duty('board.SYS1')]).toEqual([100, 70])
})

it('as planned, what comes and goes is at its worse moment: a curve that starts and stops a fan lets it rest', () => {
  const curve = [
    [40, 0],
    [41, 70],
  ]
  const plan = build().header('SYS1').plainFan('F1').set('SYS1', { curve }).settings({ celsius: 40 }).plan()
  const moment = plannedMoment(compile(plan))
  expect(askedDuty(moment, moment.build.portAt.get('board.SYS1') ?? -1)).toBe(0)
})
