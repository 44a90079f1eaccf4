/** Edits and settings as text: what is written can be read again, and what cannot be is refused. */

import { describe, expect, it } from 'vitest'
import { compile } from '../../../src/core/bench/build.ts'
import { type Edit, editText, parseEdit } from '../../../src/core/bench/edit.ts'
import { everything } from '../../../src/core/bench/everything.ts'
import { observableKey } from '../../../src/core/bench/observable.ts'
import { settingText, withSetting } from '../../../src/core/bench/setting.ts'
import { applyEdit, asPlanned } from '../../../src/core/bench/world.ts'
import { archivePlan } from '../../support/archive-plan.ts'
import { benchOf, editOf } from '../../support/bench-look.ts'
import { build } from '../../support/build.ts'
import fc from '../../support/fast-check.ts'

const ref = fc.stringMatching(/^[A-Z][a-z0-9-]{0,6}(\.[a-z0-9]{1,5})?$/)
const anyEdit: fc.Arbitrary<Edit> = fc.oneof(
  fc.constantFrom<Edit>({ do: 'power', to: 'on' }, { do: 'power', to: 'off' }),
  ref.map((plug): Edit => ({ do: 'unplug', plug })),
  fc.tuple(ref, ref).map(([plug, socket]): Edit => ({ do: 'plug', plug, socket })),
  fc.tuple(ref, ref).map(([a, b]): Edit => ({ do: 'swap', a, b })),
  ref.map((plug): Edit => ({ do: 'reseat', plug })),
  ref.map((what): Edit => ({ do: 'substitute', what })),
  ref.map((part): Edit => ({ do: 'free', part })),
  fc
    .constantFrom('[8,8]', 'pwm', '[[30,40],[70,100]]', '0')
    .map((value): Edit => ({ do: 'set', setting: 'headers/SYS1/curve', value })),
)

describe('edits as text', () => {
  it('are read again as they were written', () => {
    fc.assert(
      fc.property(anyEdit, (edit) => {
        expect(parseEdit(editText(edit))).toEqual(edit)
      }),
    )
  })

  it('are read with more blanks than needed', () => {
    expect(parseEdit('  plug   F1.motor  ->  board.SYS1 ')).toEqual(editOf('plug F1.motor -> board.SYS1'))
  })

  it.each([
    'power',
    'power up',
    'unplug',
    'unplug A B',
    'plug A',
    'plug A B',
    'swap A',
    'swap A B C',
    'plug A -> B C',
    'reseat A B',
    'substitute A B',
    'free A B',
    'unplug A -> B',
    'carefree A',
    'empower on',
    'power onward',
    'reunplug A',
    'reswap A B',
    'unreseat A',
    'resubstitute A',
    'reset x = 1',
    'set x',
    'set x =',
    'pull F1',
    '',
  ])('"%s" is none', (text) => {
    expect(parseEdit(text)).toBeUndefined()
  })
})

describe('edits on a build', () => {
  const made = compile(archivePlan)
  const does = (text: string): boolean => applyEdit(made, asPlanned(made), editOf(text))

  it('of things that are there are done, by plug or by the socket that it sits in', () => {
    for (const text of [
      'power off',
      'power on',
      'unplug F1.motor',
      'unplug board.SYS2',
      'unplug supply.SA',
      'plug F1.light -> H1.6',
      'swap F1.motor F2.motor',
      'reseat H1.usb',
      'reseat supply.SB',
      'substitute F1',
      'substitute H1.usb',
      'free F1',
      'set headers/SYS1/drive = dc',
      'set host/program = absent',
    ])
      expect(does(text), text).toBe(true)
  })

  it('of things that are not there are not, and change nothing', () => {
    for (const text of [
      'unplug F9.motor',
      'plug F1.motor -> board.XX',
      'plug F9.motor -> board.SYS1',
      'swap F1.motor F9.motor',
      'reseat F9.motor',
      'substitute F9',
      'free F9',
      'set headers/SYS1/drive = sideways',
      'set channels/H1/profile = many',
      'set nothing/at/all = 1',
      'set host/program = asleep',
    ]) {
      expect(does(text), text).toBe(false)
      expect(benchOf(archivePlan).edit(text).all()).toEqual(benchOf(archivePlan).all())
    }
  })

  it('a plug pushed into a taken socket drives out what sat there', () => {
    const b = benchOf(archivePlan).edit('plug F1.light -> H1.2')
    expect(b.seeAll('goes', 'F1.light', 'F2.light')).toEqual(['H1.2', 'none'])
  })

  it('leave the build that others share as it was', () => {
    const b = benchOf(archivePlan)
    const before = b.all()
    b.edit('swap F1.motor F4.motor', 'unplug H1.power', 'set host/program = absent', 'power off')
    b.fault('F1:seized', 'board.SYS1:dead', 'supply.SA:unplugged', 'F2.light:open-DATA')
    expect(b.all()).toEqual(before)
  })
})

describe('settings as text', () => {
  const { settings } = archivePlan

  it.each([
    ['headers/SYS1/drive', 'dc'],
    ['headers/SYS2/curve', '[[20,0],[60,100]]'],
    ['headers/SYS1/pulses', '1'],
    ['headers/SYS1/alarm_below', '300'],
    ['headers/SYS1/alarm_below', '0'],
    ['channels/H1/profile', '[8,8,12]'],
    ['channels/H1/profile', '[8,0,12]'],
    ['channels/H1/colours', 'RGB'],
    ['channels/C1.light1/profile', '[6]'],
    ['host/program', 'absent'],
    ['host/global_effect', 'on'],
    ['ports/board.U1.a/enabled', 'false'],
  ])('%s set to %s is found so, and nothing else is changed', (at, value) => {
    const changed = withSetting(settings, at, value)
    expect(changed && settingText(changed, at)).toBe(value)
    expect(changed && withSetting(changed, at, value)).toEqual(changed)
    for (const other of ['headers/SYS1/curve', 'channels/H1/profile', 'host/program', 'host/global_effect'])
      if (other !== at) expect(changed && settingText(changed, other)).toBe(settingText(settings, other))
  })

  it.each([
    ['headers/SYS1/drive', 'auto'],
    ['headers/SYS1/pulses', '-1'],
    ['headers/SYS1/pulses', 'two'],
    ['headers/SYS1/curve', '[[30]]'],
    ['headers/SYS1/curve', '[[30,40],[70]]'],
    ['headers/SYS1/curve', '30'],
    ['channels/H1/profile', '[8,-1]'],
    ['channels/H1/colours', 'grb'],
    ['host/program', 'on'],
    ['host/global_effect', 'running'],
    ['host/anything', 'on'],
    ['ports/board.U1.a/enabled', '1'],
    ['headers/SYS1/colours', 'GRB'],
    ['headers', 'x'],
  ])('%s cannot be %s', (at, value) => {
    expect(withSetting(settings, at, value)).toBeUndefined()
  })

  it('where nobody set it a header is found with its usual curve, two pulses, and the mode it takes by its plug', () => {
    const b = benchOf(
      build()
        .header('CPU', { role: 'cpu' })
        .header('SYS1')
        .header('W1', { role: 'pump' })
        .plainFan('F1', { motor: { pins: 3 } })
        .plainFan('F2')
        .pump('P1')
        .lead('F1.motor', 'board.SYS1')
        .lead('F2.motor', 'board.CPU')
        .lead('P1.motor', 'board.W1')
        .plan(),
    )
    expect(b.see('setting headers/SYS1/drive')).toBe('dc')
    expect(b.see('setting headers/CPU/drive')).toBe('pwm')
    expect(b.see('setting headers/SYS1/pulses')).toBe('2')
    expect(b.see('setting headers/W1/curve')).toBe('[[0,100]]')
    expect(b.see('setting headers/SYS1/curve')).toBe('[[30,40],[70,100]]')
    expect(b.see('setting headers/CPU/alarm_below')).toBe('200')
    expect(b.see('setting headers/SYS1/alarm_below')).toBe('0')
    expect(b.see('setting headers/XX/curve')).toBeNull()
  })

  it('where nothing is plugged in a header drives by PWM, and so does a controller’s own port', () => {
    const b = benchOf(
      build()
        .supply('SA')
        .usbHeader('U1')
        .header('SYS1')
        .fan('F1')
        .controller('C1', ['F1'], { fan_control: 'own' })
        .lead('C1.power', 'supply.SA.1')
        .lead('C1.usb', 'board.U1.a')
        .plan(),
    )
    expect(b.seeAll('setting', 'headers/SYS1/drive', 'headers/C1.fan1/drive')).toEqual(['pwm', 'pwm'])
  })

  it('a header has its own settings, not those of one whose name is the beginning of its', () => {
    const b = benchOf(
      build()
        .header('SYS')
        .header('SYS1')
        .plainFan('F1')
        .lead('F1.motor', 'board.SYS1')
        .set('SYS', { pulses: 1 })
        .plan(),
    )
    expect(b.seeAll('setting', 'headers/SYS/pulses', 'headers/SYS1/pulses')).toEqual(['1', '2'])
  })

  it('a controller’s port goes by its own settings', () => {
    const b = benchOf(
      build()
        .supply('SA')
        .usbHeader('U1')
        .fan('F1..F2')
        .controller('C1', ['F1', 'F2'], { fan_control: 'own' })
        .lead('C1.power', 'supply.SA.1')
        .lead('C1.usb', 'board.U1.a')
        .set('C1.fan1', { pulses: 1 })
        .plan(),
    )
    // Fans give two pulses a turn: counted as one, twice the speed is read.
    expect(b.seeAll('rpm', 'C1.fan1', 'C1.fan2')).toEqual(['high', 'plausible'])
  })

  it('a curve without points leaves a header at its usual one', () => {
    const b = benchOf(build().header('SYS1').plainFan('F1').lead('F1.motor', 'board.SYS1').plan())
    const empty = b.edit('set headers/SYS1/curve = []')
    expect([empty.see('spins F1'), empty.see('rpm board.SYS1')]).toEqual(['normal', 'plausible'])
  })

  it('a USB port is on unless it is turned off, and what is no USB port cannot be', () => {
    const b = benchOf(build().usbHeader('U1').header('SYS1').plainFan('F1').plan())
    expect(b.see('setting ports/board.U1.a/enabled')).toBe('true')
    expect(b.see('setting ports/board.SYS1/enabled')).toBeNull()
    expect(b.see('setting ports/board.U1.a/speed')).toBeNull()
  })

  it('where nobody told them the LEDs are found as they are wired', () => {
    const b = benchOf(
      build()
        .lightHeader('L1', { amps: 5 })
        .fan('F1', { light: { leds: 12, colours: 'RGB' } })
        .fan('F2')
        .lightSplitter('X1', ['F1', 'F2'], { amps: 5 })
        .lead('X1.in', 'board.L1')
        .plan(),
    )
    // Both branches take the same first frames: the longer one counts.
    expect(b.see('setting channels/L1/profile')).toBe('[12]')
    expect(b.see('setting channels/L1/colours')).toBe('RGB')
    expect(b.fault('channels/L1/profile:count-low').see('lit F1')).toBe('part')
  })
})

describe('everything that can be looked at', () => {
  it('is listed once, and each thing of the plan is in it', () => {
    const list = everything(compile(archivePlan)).map(observableKey)
    expect(new Set(list).size).toBe(list.length)
    for (const { id } of archivePlan.parts.filter((p) => p.kind === 'fan'))
      expect(list).toEqual(expect.arrayContaining([`spins ${id}`, `lit ${id}`, `shows ${id}`]))
    for (const { plug } of archivePlan.leads)
      expect(list).toEqual(expect.arrayContaining([`seated ${plug}`, `goes ${plug}`]))
    for (const { id } of archivePlan.board.fanHeaders)
      expect(list).toEqual(
        expect.arrayContaining([`rpm board.${id}`, `follows board.${id}`, `alarm board.${id}`]),
      )
    expect(list).toEqual(
      expect.arrayContaining([
        'listed H1',
        'effect H1',
        'answers H1.4',
        'seated supply.SA',
        'volts H1.power/5V',
      ]),
    )
  })
})
