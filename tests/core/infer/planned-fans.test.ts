/** Fans that the plan itself keeps from doing what their header asks, and what was meant. */
import { describe, expect, it } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import { repairsFor } from '../../../src/core/checks/mend.ts'
import { benchOf } from '../../support/bench-look.ts'
import { build, type Keys } from '../../support/build.ts'
import { cured, meant, onHeader, troubles } from './plan-troubles.ts'

describe('fans that the plan gets wrong', () => {
  it('a three-pin fan on a header set to PWM was meant to follow; DC cures it', () => {
    const plan = onHeader({ drive: 'auto' }, { pins: 3 }, { drive: 'pwm', curve: [[0, 70]] })
    expect(troubles(plan)).toEqual(['headers/SYS1/drive:wrong-mode'])
    expect(benchOf(plan).see('spins F1')).toBe('full')
    expect(meant(plan, 'spins F1')).toBe('normal')
    expect(meant(plan, 'rpm board.SYS1')).toBe('plausible')
    expect(meant(plan, 'follows board.SYS1')).toBe('yes')
    expect(cured(plan, 'spins F1', 'rpm board.SYS1', 'follows board.SYS1')).toBe(true)
  })

  it('on a header that can only do PWM no setting helps: it moves', () => {
    const plan = onHeader({ drive: 'pwm' }, { pins: 3 }, { curve: [[0, 70]] })
    expect(troubles(plan)).toEqual(['F1:not-controlled'])
    // SYS2 asks 55 %: 6.6 V, too little for a fan that starts at 7; it asks for more at another temperature.
    expect(repairsFor(compile(plan), { at: 'F1', mode: 'not-controlled' }).map((r) => r.id)).toEqual([
      'mend plug F1.motor -> board.SYS2',
    ])
  })

  it('a DC curve under the start volts was meant to turn the fan, and a higher curve does', () => {
    const plan = onHeader({ drive: 'dc' }, { pins: 3, start_volts: 7 }, { curve: [[0, 40]] })
    expect(troubles(plan)).toEqual(['headers/SYS1/curve:under-start'])
    expect(benchOf(plan).see('spins F1')).toBe('twitches')
    expect(meant(plan, 'spins F1')).toBe('normal')
    expect(meant(plan, 'rpm board.SYS1')).toBe('plausible')
    expect(cured(plan, 'spins F1', 'rpm board.SYS1')).toBe(true)
  })

  it('a splitter that joins all tachs jumps, which nobody meant', () => {
    const plan = build()
      .header('SYS1', { drive: 'pwm' })
      .plainFan('F1..F2')
      .splitter('Y1', ['F1', 'F2'], { tach_from: 'all' })
      .lead('Y1.in', 'board.SYS1')
      .plan()
    expect(troubles(plan)).toEqual(['Y1:tach-joined'])
    expect(benchOf(plan).see('rpm board.SYS1')).toBe('erratic')
    expect(meant(plan, 'rpm board.SYS1')).toBe('plausible')
  })

  it('a pump of one pulse a turn on a header that counts two reads half; telling the header cures it', () => {
    const plan = onHeader({ drive: 'pwm' }, { pulses: 1 }, { curve: [[0, 100]] })
    expect(troubles(plan)).toEqual(['headers/SYS1/pulses:wrong'])
    expect(meant(plan, 'rpm board.SYS1')).toBe('plausible')
    expect(cured(plan, 'rpm board.SYS1')).toBe(true)
  })

  it('an alarm limit above the speed that is asked must alarm, and a lower one does not', () => {
    const plan = onHeader({ drive: 'pwm' }, {}, { curve: [[0, 50]], alarm_below: 1000 })
    expect(troubles(plan)).toEqual(['headers/SYS1/alarm_below:too-high'])
    expect([benchOf(plan).see('alarm board.SYS1'), meant(plan, 'alarm board.SYS1')]).toEqual(['yes', 'no'])
    expect(cured(plan, 'alarm board.SYS1')).toBe(true)
  })

  it('an alarm limit on a header whose curve lets the fan rest must alarm, and none at all does not', () => {
    const quiet = [
      [50, 0],
      [70, 100],
    ]
    const motor = { below_min: 'stops-at-zero' }
    const plan = onHeader({ drive: 'pwm' }, motor, { curve: quiet, alarm_below: 300 })
    expect(troubles(plan)).toEqual(['headers/SYS1/alarm_below:too-high'])
    expect([benchOf(plan).see('alarm board.SYS1'), meant(plan, 'alarm board.SYS1')]).toEqual(['yes', 'no'])
    expect(cured(plan, 'alarm board.SYS1')).toBe(true)
    expect(troubles(onHeader({ drive: 'pwm' }, motor, { curve: quiet, alarm_below: 0 }))).toEqual([])
  })

  it('a curve that starts its fan with each degree was meant to be steady, and a delay of nothing too', () => {
    // At the present 40 °C the one asks nothing and a degree more 70 %; the other passes each short load on to the fan.
    const at = (keys: Keys) => onHeader({ drive: 'pwm' }, { below_min: 'stops' }, keys)
    const steps = at({
      curve: [
        [40, 0],
        [41, 70],
      ],
    })
    const hasty = at({ delay: 0 })
    expect([steps, hasty].map((plan) => plan.settings.celsius)).toEqual([40, 40])
    expect(troubles(steps)).toEqual(['headers/SYS1/curve:steps-at-start'])
    expect(troubles(hasty)).toEqual(['headers/SYS1/delay:follows-at-once'])
    expect([steps, hasty].map((plan) => benchOf(plan).see('steady F1'))).toEqual(['comes-and-goes', 'swings'])
    for (const plan of [steps, hasty]) {
      expect(meant(plan, 'steady F1')).toBe('yes')
      expect(cured(plan, 'steady F1')).toBe(true)
    }
  })

  it('a CPU header on which nothing is planned must alarm, and a moved pump lead cures it', () => {
    const plan = build()
      .header('CPU', { role: 'cpu', drive: 'pwm' })
      .header('W1', { role: 'pump', drive: 'pwm' })
      .pump('P1')
      .lead('P1.motor', 'board.W1')
      .plan()
    expect(troubles(plan)).toEqual(['board.CPU:nothing-reports'])
    expect(cured(plan, 'alarm board.CPU')).toBe(true)
  })

  it('joined tachs are named at the splitter that joins them, not at the one above', () => {
    const plan = build()
      .header('SYS1', { drive: 'pwm' })
      .plainFan('F1..F2')
      .splitter('Y1', ['Y2.in'])
      .splitter('Y2', ['F1', 'F2'], { tach_from: 'all' })
      .lead('Y1.in', 'board.SYS1')
      .plan()
    expect(troubles(plan)).toEqual(['Y2:tach-joined'])
  })

  it('each fan that its header cannot slow down is named, and a fan beside it was meant to follow with it', () => {
    const plan = build()
      .header('SYS1', { drive: 'pwm' })
      .header('SYS2', { drive: 'pwm' })
      .plainFan('F1')
      .plainFan('F2..F3', { motor: { pins: 3 } })
      .splitter('Y1', ['F1', 'F2'])
      .lead('Y1.in', 'board.SYS1')
      .lead('F3.motor', 'board.SYS2')
      .set('SYS1', { curve: [[0, 60]] })
      .set('SYS2', { curve: [[0, 60]] })
      .plan()
    expect(troubles(plan)).toEqual(['F2:not-controlled', 'F3:not-controlled'])
    expect(benchOf(plan).see('follows board.SYS1')).toBe('some')
    expect(meant(plan, 'follows board.SYS1')).toBe('yes')
  })

  it('a tenth of its top speed beside what is asked is as asked', () => {
    // A three-pin fan on a PWM header runs at 1500 RPM: at 92 % 1380 are asked and 150 allowed, at 88 % 1320.
    const full = (duty: number) => troubles(onHeader({ drive: 'pwm' }, { pins: 3 }, { curve: [[0, duty]] }))
    expect([full(92), full(88)]).toEqual([[], ['F1:not-controlled']])
    // At 40 % of 12 V it runs at 600 RPM; its lowest speed less 150 is 550 for the one, 750 for the other.
    const slow = (lowest: number) =>
      troubles(
        onHeader({ drive: 'dc' }, { pins: 3, start_volts: 4, rpm: [lowest, 1500] }, { curve: [[0, 40]] }),
      )
    expect([slow(700), slow(900)]).toEqual([[], ['headers/SYS1/curve:under-start']])
  })

  it('a fan without volts, or without a header that it should obey, is not badly driven', () => {
    const plan = build()
      .supply('SA', { kind: 'peripheral' })
      .header('SYS1', { drive: 'pwm' })
      .pump('P1', { motor: { feed: 'sata' } })
      .lead('P1.motor', 'board.SYS1')
      .plainFan('F1', { motor: { pins: 3, feed: 'peripheral', tach: 'none' } })
      .lead('F1.power', 'supply.SA.1')
      .plan()
    expect(benchOf(plan).seeAll('spins', 'P1', 'F1')).toEqual(['no', 'normal'])
    expect(troubles(plan)).toEqual([])
  })

  it('a fan that hardly changes its speed is not meant to, whatever is wrong with another', () => {
    const plan = build()
      .header('SYS1', { drive: 'pwm' })
      .header('SYS2', { drive: 'pwm' })
      .plainFan('F1', { motor: { pins: 3 } })
      .plainFan('F2', { motor: { rpm: [1400, 1500] } })
      .lead('F1.motor', 'board.SYS1')
      .lead('F2.motor', 'board.SYS2')
      .set('SYS1', { curve: [[0, 60]] })
      .plan()
    expect(troubles(plan)).toEqual(['F1:not-controlled'])
    expect(['board.SYS1', 'board.SYS2'].map((at) => meant(plan, `follows ${at}`))).toEqual(['yes', 'no'])
  })
})
