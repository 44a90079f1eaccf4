/** Lights that the plan itself leaves dark, short or in a wrong order, and what was meant. */
import { describe, expect, it } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import { wanted } from '../../../src/core/infer/planned.ts'
import { benchOf, observableOf } from '../../support/bench-look.ts'
import { build } from '../../support/build.ts'
import { cured, lit, meant, troubles } from './plan-troubles.ts'

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

  it('lights that nothing is planned to speak to are meant to be dark', () => {
    const plan = build()
      .supply('SA')
      .fan('F1')
      .lightHub('H1', ['F1'], { before_host: 'dark' })
      .lead('H1.power', 'supply.SA.1')
      .plan()
    expect(troubles(plan)).toEqual([])
    expect([meant(plan, 'lit F1'), meant(plan, 'shows F1')]).toEqual(['dark', 'nothing'])
  })

  it('a count is only wrong where something is wired and told', () => {
    const empty = build()
      .supply('SA')
      .usbHeader('U1')
      .part('H1', { kind: 'light-hub', ports: 3, chain: 'series', power: 'sata', host: 'usb' })
      .lead('H1.power', 'supply.SA.1')
      .lead('H1.usb', 'board.U1.a')
    expect(troubles(empty.channel('H1', { profile: [8] }).plan())).toEqual([])
    const untold = lit().channel('H1', { profile: undefined }).plan()
    expect(untold.settings.channels.H1?.profile).toBeUndefined()
    expect(troubles(untold)).toEqual([])
  })

  it('in parallel each port is told its own count', () => {
    expect(troubles(lit({ chain: 'parallel' }).plan())).toEqual([])
    const first = lit({ chain: 'parallel' }, [8]).plan()
    expect(troubles(first)).toEqual([])
    // What does no harm is meant as it is written.
    expect(meant(first, 'setting channels/H1/profile')).toBe('[8]')
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

  it('a 12 V light belongs on a 12 V header, and a light without a lead is in no wrong one', () => {
    const on = (header: string) =>
      build()
        .lightHeader('R1', { volts: 12 })
        .lightHeader('L1')
        .part('S1', { kind: 'strip', light: { volts: 12, leds: 8 } })
        .fan('F1')
        .lead('S1.light', `board.${header}`)
        .plan()
    expect([troubles(on('R1')), troubles(on('L1'))]).toEqual([[], ['S1.light:in-board.L1']])
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

  it('a strip, which hands no data back, is one in a series before the last, and none as the last', () => {
    const at = (first: string, second: string) =>
      build()
        .supply('SA')
        .usbHeader('U1')
        .fan('F1')
        .part('S1', { kind: 'strip', light: { leds: 8 } })
        .lightHub('H1', [first, second])
        .lead('H1.power', 'supply.SA.1')
        .lead('H1.usb', 'board.U1.a')
        .plan()
    expect([troubles(at('F1', 'S1')), troubles(at('S1', 'F1'))]).toEqual([[], ['S1.light:open-DATA_BACK']])
    expect(benchOf(at('S1', 'F1')).see('lit F1')).toBe('dark')
    expect(meant(at('S1', 'F1'), 'lit F1')).toBe('whole')
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

  it('in parallel an empty port may be told anything', () => {
    const plan = build()
      .supply('SA')
      .usbHeader('U1')
      .fan('F1..F2')
      .part('H1', { kind: 'light-hub', ports: 3, chain: 'parallel', power: 'sata', host: 'usb' })
      .lead('F1.light', 'H1.1')
      .lead('F2.light', 'H1.3')
      .lead('H1.power', 'supply.SA.1')
      .lead('H1.usb', 'board.U1.a')
      .channel('H1', { profile: [8, 8, 8] })
      .plan()
    expect(troubles(plan)).toEqual([])
  })

  it('a hub without supply is none while nothing hangs on it', () => {
    const plan = build()
      .usbHeader('U1')
      .part('H1', { kind: 'light-hub', ports: 3, power: 'sata', host: 'usb' })
      .lead('H1.usb', 'board.U1.a')
      .plan()
    expect(troubles(plan)).toEqual([])
  })

  it('of two lights of a fan one in a socket of another voltage was meant to light as well', () => {
    const plan = build()
      .lightHeader('R1', { volts: 12 })
      .lightHeader('L1')
      .part('F1', { kind: 'fan', motor: 'none', lights: { ring: { leds: 12 }, hub: { leds: 4 } } })
      .lead('F1.ring', 'board.L1')
      .lead('F1.hub', 'board.R1')
      .plan()
    expect(troubles(plan)).toEqual(['F1.hub:in-board.R1'])
    expect(benchOf(plan).see('lit F1')).toBe('part')
    expect(meant(plan, 'lit F1')).toBe('whole')
  })
})

describe('behind a gap', () => {
  const gap = () =>
    build()
      .supply('SA')
      .usbHeader('U1')
      .fan('F1..F3')
      .part('H1', { kind: 'light-hub', ports: 3, chain: 'series', power: 'sata', host: 'usb' })
      .lead('F1.light', 'H1.1')
      .lead('F2.light', 'H1.3')
      .lead('H1.power', 'supply.SA.1')
      .lead('H1.usb', 'board.U1.a')
  const host = (program: string, global_effect: string) => gap().host({ program, global_effect }).plan()

  it('lights were meant to show what the plan sets, and an effect to reach them', () => {
    const shown = (program: string, effect: string) => meant(host(program, effect), 'shows F2')
    expect(shown('running', 'off')).toBe('set')
    expect(shown('running', 'on')).toBe('global')
    expect(shown('absent', 'off')).toBe('stored')
    expect(meant(host('running', 'off'), 'effect H1')).toBe('whole')
  })

  it('no more is meant of them than what they do, as long as the host that the plan has does not speak', () => {
    const made = compile(host('running', 'off'))
    const before = (text: string) => wanted(made, observableOf(text), 'absent')
    expect(['shows F1', 'shows F2', 'lit F2', 'effect H1'].map(before)).toEqual([
      'stored',
      'nothing',
      'dark',
      null,
    ])
  })

  it('a light that the plan leaves without a lead is not meant to light', () => {
    expect(meant(host('running', 'off'), 'lit F3')).toBe('dark')
  })
})
