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
import { plannedTroubles, wanted } from '../../../src/core/infer/planned.ts'
import { benchOf } from '../../support/bench-look.ts'
import { build, planOf } from '../../support/build.ts'
import fc from '../../support/fast-check.ts'
import { buildOf, wiring } from '../../support/wired.ts'
import { cured, lit, meant, onHeader, troubles } from './plan-troubles.ts'

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

  it('a controller that nobody connected gives no reading, though its fans are meant to turn', () => {
    const plan = build()
      .supply('SA')
      .plainFan('F1')
      .part('C1', { kind: 'controller', fan_ports: 2, light_ports: 1, power: 'sata', host: 'usb' })
      .lead('F1.motor', 'C1.fan1')
      .lead('C1.power', 'supply.SA.1')
      .plan()
    expect([meant(plan, 'spins F1'), meant(plan, 'rpm C1.fan1')]).toEqual(['normal', 'none'])
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

  it('a supply lead with two hubs on it too', () => {
    const plan = lit()
      .fan('F4')
      .lightHub('H2', ['F4'])
      .lead('H2.power', 'supply.SA.2')
      .lead('H2.usb', 'board.U1.b')
    const text = plan.text().replace('plugs: 3', 'plugs: 3\n      amps_5v: 0.8')
    expect(troubles(planOf(text))).toEqual(['supply.SA:overloaded'])
  })

  it('a part on a USB port that the plan has turned off is over no budget', () => {
    const plan = lit()
      .settings({ ports: { 'board.U1.a': { enabled: false } } })
      .plan()
    expect(benchOf(plan).see('listed H1')).toBe('no')
    expect(troubles(plan)).toEqual([])
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
