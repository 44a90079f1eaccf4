/** Fans of three and of four pins, and pumps, on one header: one finding, and none for a pump at full speed. */
import { describe, expect, test } from 'vitest'
import { audit } from '../../../src/core/audit/audit.ts'
import { findingWords } from '../../../src/wording/en/findings.ts'
import { findingText } from '../../../src/wording/findings.ts'
import { type Build, build, type Keys } from '../../support/build.ts'

const RULES = ['three-pin-on-pwm', 'four-pin-on-dc', 'mixed-plugs-on-one-header']
const found = (made: Build) => audit(made.plan()).filter((f) => RULES.includes(f.rule))

/** F1 with four pins, F2 with three, on one header. */
const mixed = (header: Keys, set?: 'pwm' | 'dc'): Build => {
  const made = build()
    .header('SYS1', header)
    .plainFan('F1')
    .plainFan('F2', { motor: { pins: 3 } })
    .splitter('Y1', ['F1', 'F2'])
    .lead('Y1.in', 'board.SYS1')
  return set ? made.set('SYS1', { drive: set }) : made
}

describe('mixed plugs are told in one finding', () => {
  test('of the mode that is set', () => {
    expect(found(mixed({}, 'pwm'))).toMatchObject([
      { rule: 'mixed-plugs-on-one-header', severity: 'may-not-work', facts: { mode: 'pwm', taken: 'no' } },
    ])
    expect(found(mixed({}, 'dc'))).toMatchObject([
      { rule: 'mixed-plugs-on-one-header', severity: 'untidy', facts: { mode: 'dc', taken: 'no' } },
    ])
  })

  test('of the mode that is taken, and says that it is', () => {
    const [finding, ...more] = found(mixed({ drive: undefined }))
    expect(more).toEqual([])
    expect(finding).toMatchObject({ assumed: ['board.fan_headers.SYS1.drive'], facts: { taken: 'yes' } })
    if (finding) expect(findingText(findingWords, finding).says).toContain('as no mode is set')
  })

  test('and DC is offered only where the header has it', () => {
    const todo = (header: Keys) => found(mixed(header)).map((f) => findingText(findingWords, f).todo)[0]
    expect(todo({ drive: 'auto' })).toContain('to DC')
    expect(todo({ drive: 'pwm' })).not.toContain('to DC')
  })
})

test('a 3-pin fan on PWM runs at full speed, which is a fault; a 3-pin pump is meant to', () => {
  const alone = (kind: 'fan' | 'pump'): Build =>
    build()
      .header('PUMP1', { role: 'pump', amps: 2, drive: 'pwm' })
      .part('P1', { kind, motor: { pins: 3, amps: 0.4, start_amps: 0.8 } })
      .lead('P1.motor', 'board.PUMP1')
  expect(found(alone('fan')).map((f) => f.rule)).toEqual(['three-pin-on-pwm'])
  expect(found(alone('pump'))).toEqual([])
})
