/** LEDs against what a header, hub or controller can drive; every count worked by hand. */
import { describe, expect, test } from 'vitest'
import { audit } from '../../../src/core/audit/audit.ts'
import { type Build, planOf } from '../../support/build.ts'
import { ids, lit, strips } from './rule-case.ts'

const found = (made: Build) => audit(made.plan()).filter((f) => f.rule === 'channel-over-leds')

/** Strips of ten LEDs in parallel on one port of a controller. */
const split = (maxLeds: number): Build =>
  strips(4, { leds: 10, amps: 0.4 })
    .supply('SA')
    .usbHeader('U1')
    .lightSplitter('LS1', ids(4, 'S'))
    .part('C1', { kind: 'controller', light_ports: 2, max_leds: maxLeds })
    .lead('C1.power', 'supply.SA.1')
    .lead('C1.usb', 'board.U1.a')
    .lead('LS1.in', 'C1.light1')

describe('lights in parallel', () => {
  test('behind a splitter count once, by the longest', () => {
    expect(found(split(10))).toEqual([])
    // ten LEDs each of which nine are driven: all four are lit in part
    expect(found(split(9))).toMatchObject([
      { figure: 10, limit: 9, facts: { partly: ['S1', 'S2', 'S3', 'S4'], dark: [] } },
    ])
  })

  test('on a parallel hub count once', () => {
    expect(found(lit(4, { chain: 'parallel', max_leds: 8 }))).toEqual([])
    expect(found(lit(4, { chain: 'parallel', max_leds: 7 }))).toMatchObject([{ figure: 8, limit: 7 }])
  })

  test('on ports with data of their own add up', () => {
    const two = split(19)
      .part('S5', { kind: 'strip', light: { leds: 10, amps: 0.4 } })
      .lead('S5.light', 'C1.light2')
    expect(found(two)).toMatchObject([{ figure: 20, limit: 19, facts: { partly: ['S5'], dark: [] } }])
  })
})

test('in series every part beyond the limit is named, and the one that is lit in part', () => {
  // Five fans of eight on 20: the third keeps four of its eight, the fourth and fifth none.
  expect(found(lit(5, { max_leds: 20 }))).toMatchObject([
    { figure: 40, limit: 20, facts: { partly: ['F3'], dark: ['F4', 'F5'] } },
  ])
  expect(found(lit(5, { max_leds: 24 }))[0]?.facts).toMatchObject({ partly: [], dark: ['F4', 'F5'] })
})

describe('a hub in series that hangs on a light header', () => {
  const text = (second: string, returns: string): string => `
supply: { leads: { SA: } }
board: { light_headers: { L1: } }
parts:
  S1..S2: { kind: strip, light: { leds: 8, amps: 0.4 A, returns: ${returns} } }
  H1: { kind: light-hub, ports: 4, chain: series, host: header, amps: 4 A }
leads: [S1.light -> H1.1, S2.light -> H1.${second}, H1.in -> board.L1, H1.power -> supply.SA.1]`
  const found = (...of: [string, string]): string[] =>
    audit(planOf(text(...of)))
      .map((f) => f.rule)
      .filter((rule) => rule.startsWith('series-'))

  test('is held to what one on USB is: no gap, and data handed back by all but the last', () => {
    expect(found('2', 'yes')).toEqual([])
    expect(found('3', 'yes')).toEqual(['series-gap'])
    expect(found('2', 'no')).toEqual(['series-no-return'])
  })
})
