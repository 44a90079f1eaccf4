/** Findings whose severity or figure hangs on more than one key of the plan, worked by hand. */
import { describe, expect, test } from 'vitest'
import { audit } from '../../../src/core/audit/audit.ts'
import { benchOf } from '../../support/bench-look.ts'
import { type Build, build, type Keys } from '../../support/build.ts'
import { motor, onFanHub } from './rule-case.ts'

const found = (made: Build, rule: string) => audit(made.plan()).filter((f) => f.rule === rule)

/** A curve of 20 % at every temperature, under a start at 30 %. */
const resting = (motor: Keys): Build =>
  build()
    .header('SYS1', { drive: 'pwm' })
    .plainFan('F1', { motor })
    .lead('F1.motor', 'board.SYS1')
    .set('SYS1', {
      drive: 'pwm',
      curve: [
        [20, 20],
        [90, 20],
      ],
    })

describe('a curve that stays under the start of a fan', () => {
  const rule = 'curve-never-starts'

  test('of the stopping kind is found, and the bench shows it trying and giving up', () => {
    const made = resting({ start_duty: 30, below_min: 'stops' })
    expect(found(made, rule)).toMatchObject([
      { severity: 'will-not-work', figure: 20, limit: 30, assumed: [] },
    ])
    expect(benchOf(made.plan()).see('spins F1')).toBe('twitches')
  })

  test('of the keeping kind is nothing, and the bench shows it turning', () => {
    const made = resting({ start_duty: 30, below_min: 'keeps' })
    expect(found(made, rule)).toEqual([])
    expect(benchOf(made.plan()).see('spins F1')).toBe('normal')
  })

  test('of a kind that is not written turns on the bench, and the finding says what it rests on', () => {
    const made = resting({ start_duty: 30 })
    expect(found(made, rule)).toMatchObject([{ assumed: ['parts.F1.motor.below_min'] }])
    expect(benchOf(made.plan()).see('spins F1')).toBe('normal')
  })
})

describe('a SATA plug over the 4.5 A of a rail', () => {
  // Joule's law: its contacts warm with the square of the current, 30 °C at the rating.
  test.each([
    [11, 0.45, 4.95, 'may-not-work'],
    [12, 0.46875, 5.625, 'may-not-work'],
    [12, 0.48, 5.76, 'will-damage'],
  ])(
    'with %i fans of %f A gets hot up to a quarter over, and is damaged further up',
    (n, amps, figure, severity) => {
      const made = onFanHub(n, { amps: 9 }, motor({ amps, start_amps: amps }))
      expect(found(made, 'sata-plug-over-current')).toMatchObject([{ severity, figure, limit: 4.5 }])
    },
  )
})

describe('lights over the current of their header', () => {
  // 30 LEDs at 60 mA are 1.8 A at full white, on a header of 1 A.
  const dimmed = (brightness?: number): Build =>
    build()
      .lightHeader('L1', { amps: 1 })
      .part('S1', { kind: 'strip', light: { volts: 5, leds: 30, amps: 1.8 } })
      .lead('S1.light', 'board.L1')
      .channel('L1', { profile: [30], ...(brightness === undefined ? {} : { brightness }) })

  test.each([
    // In mixed colours a third, 0.6 A: enough only as long as nobody asks for white.
    [undefined, 'may-not-work', undefined],
    // 1.8 A at half brightness is 0.9 A.
    [50, 'untidy', 0.9],
    // At 80 % it is 1.44 A.
    [80, 'will-not-work', 1.44],
  ])('at a brightness of %s %% is %s', (brightness, severity, set) => {
    const [finding] = found(dimmed(brightness), 'light-header-over-current')
    expect(finding).toMatchObject({ severity, figure: 1.8, limit: 1 })
    expect(finding?.facts.set).toBe(set)
  })
})

describe('a fan that is held fast', () => {
  test('counts once, the worst of them, with the others running', () => {
    const made = build().header('SYS1', { amps: 1 })
    // 0.2 + 0.3 running; F2 held takes 0.9 in place of 0.3: 1.1 A.
    made.plainFan('F1', { motor: { amps: 0.2, locked_amps: 0.5 } })
    made.plainFan('F2', { motor: { amps: 0.3, locked_amps: 0.9 } })
    made.splitter('Y1', ['F1', 'F2']).lead('Y1.in', 'board.SYS1')
    expect(found(made, 'locked-rotor-over-limit')).toMatchObject([
      { figure: 1.1, limit: 1, facts: { fan: 'F2', at: 'board.SYS1' } },
    ])
  })
})

describe('the order of lights against their places', () => {
  const ordered = (...at: readonly string[]): Build => {
    const made = build()
    for (const [i, where] of at.entries()) made.fan(`F${i + 1}`, { at: where })
    return made.lightOrder(...at.map((_, i) => `F${i + 1}`))
  }

  test.each([
    [['front-bottom', 'front-middle', 'front-top', 'top', 'rear'], undefined],
    [['front bottom', 'front top', 'front middle'], 'height'],
    [['top-left', 'front-top', 'top-right'], 'side'],
    // Words that say nothing of sides are left alone.
    [['shelf', 'desk', 'shelf'], undefined],
  ])('%j', (at, how) => {
    expect(found(ordered(...at), 'light-order-jumps')[0]?.facts.how).toBe(how)
  })
})
