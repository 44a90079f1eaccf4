/**
 * Troubles that are in the plan itself, what was meant to be seen all the same, and what cures them. A build wired
 * exactly so shows a symptom without anything being broken.
 */
import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import { everything } from '../../../src/core/bench/everything.ts'
import { observableKey } from '../../../src/core/bench/observable.ts'
import { run } from '../../../src/core/bench/run.ts'
import { repairsFor } from '../../../src/core/checks/mend.ts'
import { faultText } from '../../../src/core/faults/fault.ts'
import { plannedTroubles, wanted } from '../../../src/core/infer/planned.ts'
import type { Plan } from '../../../src/core/plan/plan.ts'
import { benchOf, observableOf } from '../../support/bench-look.ts'
import { type Build, build, type Keys, planOf } from '../../support/build.ts'
import fc from '../../support/fast-check.ts'
import { buildOf, wiring } from '../../support/wired.ts'

const troubles = (plan: Plan): string[] => plannedTroubles(compile(plan)).map(faultText)
const meant = (plan: Plan, text: string) => wanted(compile(plan), observableOf(text))

/** Whether the first or second repair of the plan's only trouble makes these looks as they are meant. */
function cured(plan: Plan, ...looks: string[]): boolean {
  const made = compile(plan)
  const [trouble] = plannedTroubles(made)
  return (
    trouble !== undefined &&
    repairsFor(made, trouble).some(({ edits }) => {
      const sight = run(made, { plants: [], edits })
      return looks.every((text) => sight.see(observableOf(text)) === wanted(made, observableOf(text)))
    })
  )
}

const onHeader = (header: Keys, motor: Keys, set: Keys) =>
  build()
    .header('SYS1', header)
    .header('SYS2', { drive: 'auto' })
    .plainFan('F1', { motor })
    .lead('F1.motor', 'board.SYS1')
    .set('SYS1', set)
    .plan()

describe('plans that are right', () => {
  it('the example builds have no trouble', () => {
    for (const file of readdirSync('docs/examples').filter((f) => f.endsWith('.build.yaml')))
      expect([file, troubles(planOf(readFileSync(`docs/examples/${file}`, 'utf8')))]).toEqual([file, []])
  })

  it('a zero-RPM curve is right, and standing still is what was meant', () => {
    const plan = onHeader(
      { drive: 'pwm' },
      { below_min: 'stops-at-zero' },
      {
        curve: [
          [50, 0],
          [70, 100],
        ],
      },
    )
    expect(troubles(plan)).toEqual([])
    expect(meant(plan, 'spins F1')).toBe('no')
    expect(meant(plan, 'rpm board.SYS1')).toBe('zero')
  })

  it('a plan without a host program means the stored pattern', () => {
    const plan = lit().host({ program: 'absent' }).plan()
    expect(troubles(plan)).toEqual([])
    expect(meant(plan, 'shows F1')).toBe('stored')
    expect(meant(plan, 'effect H1')).toBeNull()
  })

  it('a global effect that is planned is meant', () => {
    expect(meant(lit().host({ global_effect: 'on' }).plan(), 'shows F1')).toBe('global')
  })

  it('an auto header set to nothing drives a three-pin fan by DC', () => {
    expect(troubles(onHeader({ drive: 'auto' }, { pins: 3 }, { curve: [[0, 70]] }))).toEqual([])
  })

  it('a fan that says running and no pulses is meant to read zero', () => {
    const plan = onHeader({ drive: 'pwm' }, { tach: 'level' }, {})
    expect(troubles(plan)).toEqual([])
    expect(meant(plan, 'rpm board.SYS1')).toBe('zero')
  })
})

const lit = (keys: Keys = {}, profile: number[] = [8, 8, 8]): Build =>
  build()
    .supply('SA')
    .supply('SB')
    .usbHeader('U1')
    .fan('F1..F3')
    .lightHub('H1', ['F1', 'F2', 'F3'], { ports: 4, ...keys })
    .lead('H1.power', 'supply.SA.1')
    .lead('H1.usb', 'board.U1.a')
    .channel('H1', { profile })

describe('sources over their limits', () => {
  const loaded = (amps: number) =>
    build()
      .header('SYS1', { amps: 1, drive: 'pwm' })
      .header('SYS2', { amps: 1, drive: 'pwm' })
      .plainFan('F1..F4', { motor: { amps, start_amps: amps } })
      .splitter('Y1', ['F1', 'F2', 'F3', 'F4'])
      .lead('Y1.in', 'board.SYS1')
      .plan()

  it('1.3 A on a header of 1 A is one, and still the fans were meant to turn', () => {
    const plan = loaded(0.325)
    expect(troubles(plan)).toEqual(['board.SYS1:overloaded'])
    expect(benchOf(plan).see('spins F1')).toBe('no')
    expect(meant(plan, 'spins F1')).toBe('normal')
    expect(meant(plan, 'volts board.SYS1/12V')).toBe('right')
    expect(cured(plan, 'spins F1', 'spins F2', 'volts board.SYS1/12V')).toBe(true)
  })

  it('1 A on 1 A is none', () => {
    expect(troubles(loaded(0.25))).toEqual([])
  })

  it('a supply lead that cannot carry its hubs is named once, at the lead', () => {
    const plan = lit()
    const text = plan.text().replace('plugs: 3', 'plugs: 3\n      amps_5v: 0.8')
    expect(troubles(planOf(text))).toEqual(['supply.SA:overloaded'])
  })

  it('a part over its USB budget', () => {
    const plan = lit({ usb_milliamps: 700 }).plan()
    expect(troubles(plan)).toEqual(['H1:over-budget'])
    expect(benchOf(plan).see('listed H1')).toBe('no')
  })

  it('a part of 300 mA on a hub that gives 100 is cured on the board', () => {
    const plan = build()
      .supply('SA')
      .usbHeader('U1')
      .fan('F1')
      .part('N1', { kind: 'usb-hub', ports: 4, power: 'bus' })
      .lead('N1.usb', 'board.U1.a')
      .lightHub('H1', ['F1'], { usb_milliamps: 300 })
      .lead('H1.usb', 'N1.1')
      .lead('H1.power', 'supply.SA.1')
      .channel('H1', { profile: [8] })
      .plan()
    // 100 mA of its own and 300 behind it: the bus port above still carries them.
    expect(troubles(plan)).toEqual(['H1:over-budget'])
    const made = compile(plan)
    const moved = repairsFor(made, { at: 'H1', mode: 'over-budget' }).map(({ edits }) =>
      run(made, { plants: [], edits }).see({ what: 'listed', at: 'H1' }),
    )
    expect(moved).toContain('yes')
  })
})

describe('lights that the plan gets wrong', () => {
  it('a count too low is one, all were meant to light, and telling what is wired cures it', () => {
    const plan = lit({}, [8, 8, 4]).plan()
    expect(troubles(plan)).toEqual(['channels/H1/profile:count-low'])
    expect(benchOf(plan).see('lit F3')).toBe('part')
    expect(meant(plan, 'lit F3')).toBe('whole')
    expect(meant(plan, 'setting channels/H1/profile')).toBe('[8,8,8]')
    expect(cured(plan, 'lit F3', 'effect H1', 'setting channels/H1/profile')).toBe(true)
  })

  it('a count too high is one', () => {
    const plan = lit({}, [8, 8, 12]).plan()
    expect(troubles(plan)).toEqual(['channels/H1/profile:count-high'])
    expect(benchOf(plan).see('effect H1')).toBe('runs-off')
    expect(meant(plan, 'effect H1')).toBe('whole')
    expect(cured(plan, 'effect H1')).toBe(true)
  })

  it('counts in another order than the wiring are one', () => {
    const plan = build()
      .supply('SA')
      .usbHeader('U1')
      .fan('F1', { light: { leds: 12 } })
      .fan('F2')
      .lightHub('H1', ['F1', 'F2'])
      .lead('H1.power', 'supply.SA.1')
      .lead('H1.usb', 'board.U1.a')
      .channel('H1', { profile: [8, 12] })
      .plan()
    expect(troubles(plan)).toEqual(['channels/H1/profile:wrong-order'])
    expect(cured(plan, 'effect H1')).toBe(true)
  })

  it('in parallel each port is told its own count', () => {
    expect(troubles(lit({ chain: 'parallel' }).plan())).toEqual([])
    expect(troubles(lit({ chain: 'parallel' }, [8]).plan())).toEqual([])
    expect(troubles(lit({ chain: 'parallel' }, [8, 4, 8]).plan())).toEqual(['channels/H1/profile:count-low'])
    expect(troubles(lit({ chain: 'parallel' }, [8, 8, 20]).plan())).toEqual([
      'channels/H1/profile:count-high',
    ])
  })

  it('a 5 V light on a 12 V header was meant to light, and goes to a header of its voltage', () => {
    const plan = build()
      .lightHeader('R1', { volts: 12 })
      .lightHeader('L1')
      .fan('F1')
      .lead('F1.light', 'board.R1')
      .plan()
    expect(troubles(plan)).toEqual(['F1.light:in-board.R1'])
    expect(benchOf(plan).see('lit F1')).toBe('dark')
    expect(meant(plan, 'lit F1')).toBe('whole')
    expect(cured(plan, 'lit F1', 'shows F1')).toBe(true)
  })

  it('an empty port in a series is one, and closing it up cures it', () => {
    const plan = build()
      .supply('SA')
      .usbHeader('U1')
      .fan('F1..F3')
      .part('H1', { kind: 'light-hub', ports: 5, chain: 'series', power: 'sata', host: 'usb' })
      .lead('F1.light', 'H1.1')
      .lead('F2.light', 'H1.3')
      .lead('F3.light', 'H1.4')
      .lead('H1.power', 'supply.SA.1')
      .lead('H1.usb', 'board.U1.a')
      .plan()
    expect(troubles(plan)).toEqual(['H1.2:gap'])
    expect(benchOf(plan).seeAll('lit', 'F1', 'F2', 'F3')).toEqual(['whole', 'dark', 'dark'])
    expect(meant(plan, 'lit F3')).toBe('whole')
    expect(cured(plan, 'lit F1', 'lit F2', 'lit F3', 'shows F3')).toBe(true)
  })

  it('a hub that the plan gives no supply is one, and a free supply plug cures it', () => {
    const plan = build()
      .supply('SA')
      .usbHeader('U1')
      .fan('F1')
      .lightHub('H1', ['F1'])
      .lead('H1.usb', 'board.U1.a')
      .plan()
    expect(troubles(plan)).toEqual(['H1.power:unplugged'])
    expect(meant(plan, 'lit F1')).toBe('whole')
    expect(cured(plan, 'lit F1', 'shows F1')).toBe(true)
  })
})

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
})

describe('on any wired plan', () => {
  it('what is seen differs from what was meant only where the plan has a trouble', () => {
    fc.assert(
      fc.property(wiring, (spec) => {
        const made = compile(buildOf(spec).plan())
        const sight = run(made, { plants: [], edits: [] })
        const off = everything(made).filter((o) => sight.see(o) !== wanted(made, o))
        if (plannedTroubles(made).length === 0) expect(off.map(observableKey)).toEqual([])
      }),
      { numRuns: 30 },
    )
  })

  it('what was meant is never a symptom', () => {
    const BAD: Readonly<Record<string, readonly string[]>> = {
      spins: ['twitches', 'slow', 'full'],
      rpm: ['low', 'high', 'erratic'],
      lit: ['part', 'flicker'],
      shows: ['wrong-colours', 'frozen'],
      listed: ['comes-and-goes'],
      effect: ['stops-short', 'runs-off', 'jumps'],
      volts: ['low', 'high'],
      alarm: ['yes'],
    }
    fc.assert(
      fc.property(wiring, (spec) => {
        const made = compile(buildOf(spec).plan())
        for (const o of everything(made)) {
          const value = wanted(made, o)
          if (value !== null) expect([observableKey(o), BAD[o.what] ?? []]).not.toContainEqual([value])
          expect(BAD[o.what] ?? [], observableKey(o)).not.toContain(value)
        }
      }),
      { numRuns: 30 },
    )
  })
})
