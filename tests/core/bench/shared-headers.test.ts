/**
 * Several fans behind one header: splitters, powered hubs, chained fans, adapters, fans fed by the supply. What is
 * expected follows from which wire each of them passes on: a splitter returns one tach, a powered hub takes 12 V
 * from its own plug and only control and tach from the header.
 */
import { describe, expect, it } from 'vitest'
import { benchOf } from '../../support/bench-look.ts'
import { build, type Keys } from '../../support/build.ts'

const HALF = { curve: [[0, 50]] }

const splitter = (keys: Keys = {}, header: Keys = {}) =>
  benchOf(
    build()
      .header('SYS1', { amps: 2, drive: 'pwm', ...header })
      .header('SYS2', { drive: 'pwm' })
      .plainFan('F1..F3')
      .splitter('Y1', ['F1', 'F2', 'F3'], keys)
      .lead('Y1.in', 'board.SYS1')
      .set('SYS1', HALF)
      .plan(),
  )

const FANS = ['F1', 'F2', 'F3'] as const

describe('a splitter', () => {
  const y = splitter()

  it('gives every way supply and control and the header the tach of its first way', () => {
    expect(y.seeAll('spins', ...FANS)).toEqual(['normal', 'normal', 'normal'])
    expect(y.see('rpm board.SYS1')).toBe('plausible')
    expect(y.see('follows board.SYS1')).toBe('yes')
  })

  it('hides a stopped fan on any other way', () => {
    const b = y.fault('F2:motor-dead')
    expect(b.seeAll('spins', ...FANS)).toEqual(['normal', 'no', 'normal'])
    expect(b.see('rpm board.SYS1')).toBe('plausible')
    expect(b.see('follows board.SYS1')).toBe('some')
  })

  it('reads zero with its tach way empty or stopped while the others turn', () => {
    for (const fault of ['F1.motor:unplugged', 'F1:motor-dead', 'F1.motor:open-TACH', 'Y1.1:dead']) {
      const b = y.fault(fault)
      expect(b.see('rpm board.SYS1'), fault).toBe('zero')
      expect(b.seeAll('spins', 'F2', 'F3'), fault).toEqual(['normal', 'normal'])
    }
  })

  it('set the other way round shows another fan', () => {
    const second = splitter({ tach_from: 2 })
    expect(second.fault('F1:motor-dead').see('rpm board.SYS1')).toBe('plausible')
    expect(second.fault('F2:motor-dead').see('rpm board.SYS1')).toBe('zero')
  })

  it('that really returns another way than planned follows that fan, until it is changed', () => {
    const b = y.fault('Y1:tach-from-3')
    expect(b.see('rpm board.SYS1')).toBe('plausible')
    expect(b.fault('F1:motor-dead').see('rpm board.SYS1')).toBe('plausible')
    expect(b.fault('F3:motor-dead').see('rpm board.SYS1')).toBe('zero')
    expect(b.fault('F3:motor-dead').edit('substitute Y1').see('rpm board.SYS1')).toBe('plausible')
  })

  it('with several tachs joined jumps while more than one fan turns', () => {
    const b = y.fault('Y1:tach-joined')
    expect(b.see('rpm board.SYS1')).toBe('erratic')
    expect(b.fault('F1:motor-dead', 'F2:motor-dead').see('rpm board.SYS1')).toBe('plausible')
    expect(b.fault('F1:motor-dead', 'F2:motor-dead', 'F3:motor-dead').see('rpm board.SYS1')).toBe('zero')
    expect(b.edit('substitute Y1').see('rpm board.SYS1')).toBe('plausible')
  })

  it('returns no speed where none of its ways carries the tach', () => {
    expect(splitter({ tach_from: 'none' }).see('rpm board.SYS1')).toBe('zero')
  })

  it.each([
    ['12V', ['no', 'no', 'no'], 'zero'],
    ['GND', ['no', 'no', 'no'], 'zero'],
    ['TACH', ['normal', 'normal', 'normal'], 'zero'],
    ['CONTROL', ['full', 'full', 'full'], 'high'],
  ])('with the %s wire of its own lead open does that to all its fans', (wire, spins, rpm) => {
    const b = y.fault(`Y1.in:open-${wire}`)
    expect(b.seeAll('spins', ...FANS)).toEqual(spins)
    expect(b.see('rpm board.SYS1')).toBe(rpm)
  })

  it('out of its header stops them all, and that is where they meet', () => {
    const b = y.fault('Y1.in:unplugged')
    expect(b.seeAll('spins', ...FANS)).toEqual(['no', 'no', 'no'])
    expect(b.edit('reseat Y1.in').all()).toEqual(y.all())
  })

  it('without the control wire runs four-pin fans at full speed on a PWM header', () => {
    const three = splitter({ passes_control: false })
    expect(three.seeAll('spins', ...FANS)).toEqual(['full', 'full', 'full'])
    expect(three.see('follows board.SYS1')).toBe('no')
  })

  it('without the control wire still slows them on a DC header', () => {
    const three = benchOf(
      build()
        .header('SYS1', { amps: 2, drive: 'dc' })
        .plainFan('F1', { motor: { start_volts: 5 } })
        .plainFan('F2', { motor: { start_volts: 5 } })
        .splitter('Y1', ['F1', 'F2'], { passes_control: false })
        .lead('Y1.in', 'board.SYS1')
        .set('SYS1', HALF)
        .plan(),
    )
    expect(three.seeAll('spins', 'F1', 'F2')).toEqual(['normal', 'normal'])
  })

  it('two fans exchanged on it show only in which tach comes back', () => {
    const b = y.fault('F1.motor:swapped-with-F2.motor')
    expect(b.seeAll('spins', ...FANS)).toEqual(['normal', 'normal', 'normal'])
    expect(b.fault('F2:motor-dead').see('rpm board.SYS1')).toBe('zero')
  })

  it('behind a splitter hands on the tach of the first fan of the first way', () => {
    const nested = benchOf(
      build()
        .header('SYS1', { amps: 2, drive: 'pwm' })
        .plainFan('F1..F3')
        .splitter('Y2', ['F1', 'F2'])
        .splitter('Y1', ['Y2.in', 'F3'])
        .lead('Y1.in', 'board.SYS1')
        .set('SYS1', HALF)
        .plan(),
    )
    expect(nested.see('rpm board.SYS1')).toBe('plausible')
    expect(nested.fault('F1:motor-dead').see('rpm board.SYS1')).toBe('zero')
    expect(nested.fault('F3:motor-dead').see('rpm board.SYS1')).toBe('plausible')
    expect(nested.fault('Y2.in:open-TACH').see('rpm board.SYS1')).toBe('zero')
    expect(nested.fault('Y2.in:open-CONTROL').seeAll('spins', ...FANS)).toEqual(['full', 'full', 'normal'])
  })
})

const poweredHub = (keys: Keys = {}) =>
  benchOf(
    build()
      .supply('SA')
      .header('SYS1', { drive: 'pwm' })
      .plainFan('F1..F3')
      .fanHub('K1', ['F1', 'F2', 'F3'], { ports: 4, ...keys })
      .lead('K1.power', 'supply.SA.1')
      .lead('K1.in', 'board.SYS1')
      .set('SYS1', HALF)
      .plan(),
  )

describe('a powered fan hub', () => {
  const k = poweredHub()

  it('takes its volts from the supply, its control from the header and returns one tach', () => {
    expect(k.seeAll('spins', ...FANS)).toEqual(['normal', 'normal', 'normal'])
    expect(k.see('rpm board.SYS1')).toBe('plausible')
    expect(k.see('follows board.SYS1')).toBe('yes')
  })

  it('without its supply turns no fan although the header is healthy', () => {
    for (const fault of [
      'K1.power:unplugged',
      'K1.power:open-12V',
      'K1.power:open-GND',
      'supply.SA:unplugged',
      'supply.SA.1:dead',
    ]) {
      const b = k.fault(fault)
      expect(b.seeAll('spins', ...FANS), fault).toEqual(['no', 'no', 'no'])
      expect(b.see('rpm board.SYS1'), fault).toBe('zero')
      expect(b.see('volts board.SYS1/12V'), fault).toBe('right')
    }
  })

  it('without its header lead runs all fans at full speed and the header reads zero', () => {
    const b = k.fault('K1.in:unplugged')
    expect(b.seeAll('spins', ...FANS)).toEqual(['full', 'full', 'full'])
    expect(b.see('rpm board.SYS1')).toBe('zero')
  })

  it('does not care for the supply wires of its header lead', () => {
    expect(k.fault('K1.in:open-12V').seeAll('spins', ...FANS)).toEqual(['normal', 'normal', 'normal'])
  })

  it('with its marked port empty obeys but reads zero', () => {
    const b = k.fault('F1.motor:unplugged')
    expect(b.seeAll('spins', 'F2', 'F3')).toEqual(['normal', 'normal'])
    expect(b.see('rpm board.SYS1')).toBe('zero')
    expect(k.fault('F2.motor:unplugged').see('rpm board.SYS1')).toBe('plausible')
  })

  it('dead does nothing; a spare mends it', () => {
    const b = k.fault('K1:dead')
    expect(b.seeAll('spins', ...FANS)).toEqual(['no', 'no', 'no'])
    expect(b.edit('substitute K1').all()).toEqual(k.all())
  })

  it('with one port dead stops the fan there only, and a free port takes it', () => {
    const b = k.fault('K1.2:dead')
    expect(b.seeAll('spins', ...FANS)).toEqual(['normal', 'no', 'normal'])
    expect(b.edit('plug F2.motor -> K1.4').see('spins F2')).toBe('normal')
  })

  it('passing only three wires leaves its fans at their top, which nothing governs', () => {
    const three = poweredHub({ passes_control: false })
    expect(three.see('follows board.SYS1')).toBeNull()
    // Nothing asks for less than their top.
    expect(three.seeAll('spins', ...FANS)).toEqual(['normal', 'normal', 'normal'])
  })

  it('fed by the header lives and dies with it', () => {
    const fed = benchOf(
      build()
        .header('SYS1', { amps: 2, drive: 'pwm' })
        .plainFan('F1..F2')
        .fanHub('K1', ['F1', 'F2'], { power: 'header', amps: 2 })
        .lead('K1.in', 'board.SYS1')
        .set('SYS1', HALF)
        .plan(),
    )
    expect(fed.seeAll('spins', 'F1', 'F2')).toEqual(['normal', 'normal'])
    expect(fed.fault('K1.in:open-12V').seeAll('spins', 'F1', 'F2')).toEqual(['no', 'no'])
    expect(fed.fault('board.SYS1:tripped').seeAll('spins', 'F1', 'F2')).toEqual(['no', 'no'])
  })

  it('gets full speed on a header in DC drive, whose control pin rests, and shows it', () => {
    const b = k.fault('board.SYS1:control-dead')
    expect(b.seeAll('spins', ...FANS)).toEqual(['full', 'full', 'full'])
    expect(b.see('rpm board.SYS1')).toBe('high')
  })
})

describe('chained fans', () => {
  const chain = benchOf(
    build()
      .header('SYS1', { amps: 2, drive: 'pwm' })
      .plainFan('F1..F3', { motor: { passes_on: true } })
      .lead('F1.motor', 'board.SYS1')
      .lead('F2.motor', 'F1.motor_out')
      .lead('F3.motor', 'F2.motor_out')
      .set('SYS1', HALF)
      .plan(),
  )

  it('all obey, and the header reads the first', () => {
    expect(chain.seeAll('spins', ...FANS)).toEqual(['normal', 'normal', 'normal'])
    expect(chain.fault('F1:motor-dead').see('rpm board.SYS1')).toBe('zero')
    expect(chain.fault('F2:motor-dead').see('rpm board.SYS1')).toBe('plausible')
  })

  it('what is lost at one is lost for all behind it', () => {
    expect(chain.fault('F2.motor:unplugged').seeAll('spins', ...FANS)).toEqual(['normal', 'no', 'no'])
    expect(chain.fault('F2.motor:open-CONTROL').seeAll('spins', ...FANS)).toEqual(['normal', 'full', 'full'])
    expect(chain.fault('F1.motor:open-GND').seeAll('spins', ...FANS)).toEqual(['no', 'no', 'no'])
  })

  it('two that hang on each other’s outs stand still', () => {
    const ring = chain.edit('plug F1.motor -> F2.motor_out')
    expect(ring.seeAll('spins', 'F1', 'F2')).toEqual(['no', 'no'])
    expect(ring.see('rpm board.SYS1')).toBe('zero')
  })

  it('a fan that stands still for itself still passes supply on', () => {
    expect(chain.fault('F1:seized').seeAll('spins', ...FANS)).toEqual(['twitches', 'normal', 'normal'])
  })
})

describe('fans and pumps fed by the supply', () => {
  const fed = (motor: Keys) =>
    benchOf(
      build()
        .supply('SA')
        .header('W1', { drive: 'pwm' })
        .pump('P1', { motor: { feed: 'sata', rpm: [1200, 2800], ...motor } })
        .lead('P1.power', 'supply.SA.1')
        .lead('P1.motor', 'board.W1')
        .set('W1', HALF)
        .plan(),
    )

  it('a pump with control and tach on the header follows it', () => {
    const p = fed({ pins: 4 })
    expect([p.see('spins P1'), p.see('rpm board.W1'), p.see('follows board.W1')]).toEqual([
      'normal',
      'plausible',
      'yes',
    ])
    expect(p.fault('P1.motor:unplugged').see('spins P1')).toBe('full')
    expect(p.fault('P1.power:unplugged').see('spins P1')).toBe('no')
    expect(p.fault('P1.motor:open-CONTROL').see('rpm board.W1')).toBe('high')
  })

  it('a pump with only its tach on the header is shown there and not set: its top is what it should do', () => {
    const p = fed({ pins: 3 })
    expect([p.see('spins P1'), p.see('rpm board.W1')]).toEqual(['normal', 'plausible'])
    expect(p.see('follows board.W1')).toBeNull()
    expect(p.fault('P1.motor:open-TACH').see('rpm board.W1')).toBe('zero')
  })

  it('a fan behind an adapter from a supply plug runs at its top, and nothing asks for less', () => {
    const b = benchOf(
      build()
        .supply('SA')
        .plainFan('F1')
        .part('A1', { kind: 'adapter', from: 'sata', to: 'fan4' })
        .lead('A1.in', 'supply.SA.1')
        .lead('F1.motor', 'A1.out')
        .plan(),
    )
    expect(b.see('spins F1')).toBe('normal')
    expect(b.fault('A1.in:open-12V').see('spins F1')).toBe('no')
    expect(b.fault('A1.in:unplugged').see('spins F1')).toBe('no')
    expect(b.fault('supply.SA:unplugged').see('spins F1')).toBe('no')
  })

  it('an adapter with two outs on a header returns the tach of the first', () => {
    const b = benchOf(
      build()
        .header('SYS1', { drive: 'pwm' })
        .plainFan('F1..F2')
        .part('A1', { kind: 'adapter', from: 'fan4', to: 'fan4', outs: 2 })
        .lead('A1.in', 'board.SYS1')
        .lead('F1.motor', 'A1.out1')
        .lead('F2.motor', 'A1.out2')
        .set('SYS1', HALF)
        .plan(),
    )
    expect(b.seeAll('spins', 'F1', 'F2')).toEqual(['normal', 'normal'])
    expect(b.fault('F1:motor-dead').see('rpm board.SYS1')).toBe('zero')
    expect(b.fault('F2:motor-dead').see('rpm board.SYS1')).toBe('plausible')
  })
})

describe('loads', () => {
  const loaded = (ampsEach: number, header = 1) =>
    benchOf(
      build()
        .header('SYS1', { amps: header, drive: 'pwm' })
        .header('SYS2', { amps: 1, drive: 'pwm' })
        .plainFan('F1..F4', { motor: { amps: ampsEach, start_amps: ampsEach } })
        .splitter('Y1', ['F1', 'F2', 'F3', 'F4'])
        .lead('Y1.in', 'board.SYS1')
        .set('SYS1', { curve: [[0, 100]] })
        .plan(),
    )

  it('within the limit nothing sags', () => {
    const b = loaded(0.25)
    expect(b.see('volts board.SYS1/12V')).toBe('right')
    expect(b.see('spins F1')).toBe('normal')
  })

  it('a fifth over the limit the header sags: low volts, slow at full duty', () => {
    const b = loaded(0.3)
    expect(b.see('volts board.SYS1/12V')).toBe('low')
    expect(b.see('volts F3.motor/12V')).toBe('low')
    expect(b.seeAll('spins', 'F1', 'F4')).toEqual(['slow', 'slow'])
  })

  it('a third over the limit it gives nothing', () => {
    const b = loaded(0.34)
    expect(b.see('volts board.SYS1/12V')).toBe('none')
    expect(b.seeAll('spins', 'F1', 'F4')).toEqual(['no', 'no'])
    expect(b.see('rpm board.SYS1')).toBe('zero')
  })

  it('taking enough fans off it gives it its volts back', () => {
    const b = loaded(0.3).edit('unplug F4.motor')
    expect(b.see('volts board.SYS1/12V')).toBe('right')
    expect(b.see('spins F1')).toBe('normal')
  })

  it('a fan moved on a header that was just full enough overloads it', () => {
    const b = benchOf(
      build()
        .header('SYS1', { amps: 1, drive: 'pwm' })
        .header('SYS2', { amps: 1, drive: 'pwm' })
        .plainFan('F1..F4', { motor: { amps: 0.5, start_amps: 0.5 } })
        .splitter('Y1', ['F1', 'F2'], { ways: 3 })
        .lead('Y1.in', 'board.SYS1')
        .lead('F3.motor', 'board.SYS2')
        .plan(),
    )
    expect(b.see('spins F1')).toBe('normal')
    expect(b.fault('F3.motor:in-Y1.3').seeAll('spins', 'F1', 'F2', 'F3')).toEqual(['no', 'no', 'no'])
    // What is added up for one bench is not left for the next.
    expect(b.edit('reseat F1.motor').seeAll('spins', 'F1', 'F2', 'F3')).toEqual([
      'normal',
      'normal',
      'normal',
    ])
  })
})
