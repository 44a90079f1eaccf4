/**
 * Light data and supply on the bench. The chain rule (addressable LED with one data line, data sheet: each LED keeps the first 24 bits
 * and hands the rest on) gives what is lit by counting: before a break all is right, after it nothing has data.
 */
import { describe, expect, it } from 'vitest'
import { benchOf } from '../../support/bench-look.ts'
import { build, type Keys } from '../../support/build.ts'

const FANS = ['F1', 'F2', 'F3', 'F4'] as const
const ALL_WHOLE = ['whole', 'whole', 'whole', 'whole']

const hub = (keys: Keys = {}, more: { profile?: number[]; host?: Keys; fan?: Keys } = {}) => {
  const b = build()
    .supply('SA')
    .usbHeader('U1')
    .fan('F1..F4', more.fan ?? {})
    .lightHub('H1', [...FANS], { ports: 6, ...keys })
    .lead('H1.power', 'supply.SA.1')
    .lead('H1.usb', 'board.U1.a')
    .channel('H1', { profile: more.profile ?? [8, 8, 8, 8], colours: 'GRB' })
  if (more.host) b.host(more.host)
  return benchOf(b.plan())
}

const series = hub()
const parallel = hub({ chain: 'parallel' })

describe('a hub in series', () => {
  it('lights every fan with what is set, listed and with a whole effect', () => {
    expect(series.seeAll('lit', ...FANS)).toEqual(ALL_WHOLE)
    expect(series.seeAll('shows', ...FANS)).toEqual(['set', 'set', 'set', 'set'])
    expect(series.see('listed H1')).toBe('yes')
    expect(series.see('effect H1')).toBe('whole')
    expect(series.seeAll('answers', 'H1.1', 'H1.2', 'H1.5')).toEqual(['F1', 'F2', 'none'])
  })

  it.each([
    // Data never reaches the second fan: it and all after it are dark.
    ['F2.light:open-DATA', ['whole', 'dark', 'dark', 'dark']],
    ['F2.light:unplugged', ['whole', 'dark', 'dark', 'dark']],
    ['H1.2:data-dead', ['whole', 'dark', 'dark', 'dark']],
    ['H1.2:dead', ['whole', 'dark', 'dark', 'dark']],
    ['F2:lights-dead', ['whole', 'dark', 'dark', 'dark']],
    ['F2.light:open-5V', ['whole', 'dark', 'dark', 'dark']],
    ['F2.light:open-GND', ['whole', 'dark', 'dark', 'dark']],
    // It has its data and does not hand it back.
    ['F2.light:open-DATA_BACK', ['whole', 'whole', 'dark', 'dark']],
    // LEDs 1 to 4 of the second fan still get theirs.
    ['F2:led-dead-5', ['whole', 'part', 'dark', 'dark']],
    ['F4:led-dead-8', ['whole', 'whole', 'whole', 'part']],
    ['F2:led-dead-1', ['whole', 'dark', 'dark', 'dark']],
  ])('%s', (fault, lit) => {
    const b = series.fault(fault)
    expect(b.seeAll('lit', ...FANS)).toEqual(lit)
    expect(b.see('effect H1')).toBe('stops-short')
    // Its host does not know.
    expect(b.see('listed H1')).toBe('yes')
  })

  it('with the last fan not handing back shows nothing of it', () => {
    expect(series.fault('F4.light:open-DATA_BACK').all()).toEqual(series.all())
  })

  it('whose last part does not return data needs nothing after it', () => {
    expect(
      hub({}, { fan: { light: { returns: false } } })
        .seeAll('lit', ...FANS)
        .slice(0, 2),
    ).toEqual(['whole', 'dark'])
  })

  it('with an empty port before the last in use darkens what follows', () => {
    const gap = build()
      .supply('SA')
      .usbHeader('U1')
      .fan('F1..F2')
      .part('H1', { kind: 'light-hub', ports: 4, chain: 'series', power: 'sata', host: 'usb' })
      .lead('F1.light', 'H1.1')
      .lead('F2.light', 'H1.3')
      .lead('H1.power', 'supply.SA.1')
      .lead('H1.usb', 'board.U1.a')
    expect(benchOf(gap.plan()).seeAll('lit', 'F1', 'F2')).toEqual(['whole', 'dark'])
    expect(benchOf(gap.plan()).edit('plug F2.light -> H1.2').seeAll('lit', 'F1', 'F2')).toEqual([
      'whole',
      'whole',
    ])
  })

  it('answers for the fan that really hangs there when two leads are exchanged', () => {
    const b = series.fault('F2.light:swapped-with-F3.light')
    expect(b.seeAll('lit', ...FANS)).toEqual(ALL_WHOLE)
    expect(b.seeAll('answers', 'H1.1', 'H1.2', 'H1.3', 'H1.4')).toEqual(['F1', 'F3', 'F2', 'F4'])
    expect(b.see('effect H1')).toBe('jumps')
    expect(b.edit('swap F2.light F3.light').all()).toEqual(series.all())
  })

  it('told too few LEDs leaves the tail dark', () => {
    // Two thirds of the last fan's eight: 8 + 8 + 8 + 6.
    const b = series.fault('channels/H1/profile:count-low')
    expect(b.see('setting channels/H1/profile')).toBe('[8,8,8,6]')
    expect(b.seeAll('lit', ...FANS)).toEqual(['whole', 'whole', 'whole', 'part'])
    expect(b.see('effect H1')).toBe('stops-short')
    const mended = b.edit('set channels/H1/profile = [8,8,8,8]')
    expect(mended.seeAll('lit', ...FANS)).toEqual(ALL_WHOLE)
  })

  it('told too many lights all, and a running effect leaves for a while', () => {
    const b = series.fault('channels/H1/profile:count-high')
    expect(b.seeAll('lit', ...FANS)).toEqual(ALL_WHOLE)
    expect(b.see('effect H1')).toBe('runs-off')
  })

  it('with a part missing from its profile leaves the last fan dark', () => {
    const b = series.fault('channels/H1/profile:entry-missing')
    expect(b.seeAll('lit', ...FANS)).toEqual(['whole', 'whole', 'whole', 'dark'])
    expect(b.see('answers H1.4')).toBe('none')
  })

  it('with its profile in another order jumps, though every LED is lit', () => {
    const mixed = build()
      .supply('SA')
      .usbHeader('U1')
      .fan('F1', { light: { leds: 12 } })
      .fan('F2')
      .lightHub('H1', ['F1', 'F2'])
      .lead('H1.power', 'supply.SA.1')
      .lead('H1.usb', 'board.U1.a')
      .channel('H1', { profile: [12, 8] })
    const b = benchOf(mixed.plan()).fault('channels/H1/profile:wrong-order')
    expect(b.see('setting channels/H1/profile')).toBe('[8,12]')
    expect(b.seeAll('lit', 'F1', 'F2')).toEqual(['whole', 'whole'])
    expect(b.see('effect H1')).toBe('jumps')
    // LEDs 1 to 8 are the first port's by the profile; the rest, the first fan's last four too, the second's.
    expect(b.seeAll('answers', 'H1.1', 'H1.2')).toEqual(['F1', 'F1+F2'])
  })

  it('with two counts of three in another order jumps too', () => {
    const mixed = build()
      .supply('SA')
      .usbHeader('U1')
      .fan('F1', { light: { leds: 12 } })
      .fan('F2')
      .fan('F3')
      .lightHub('H1', ['F1', 'F2', 'F3'])
      .lead('H1.power', 'supply.SA.1')
      .lead('H1.usb', 'board.U1.a')
      .channel('H1', { profile: [8, 12, 8] })
    expect(benchOf(mixed.plan()).see('effect H1')).toBe('jumps')
    expect(benchOf(mixed.plan()).edit('set channels/H1/profile = [12,8,8]').see('effect H1')).toBe('whole')
  })

  it('with a profile by part, two of them chained on one port, is right as it is', () => {
    const chained = build()
      .supply('SA')
      .usbHeader('U1')
      .fan('F1', { light: { passes_on: true } })
      .fan('F2')
      .fan('F3')
      .lightHub('H1', ['F1', 'F3'])
      .lead('F2.light', 'F1.light_out')
      .lead('H1.power', 'supply.SA.1')
      .lead('H1.usb', 'board.U1.a')
      .channel('H1', { profile: [8, 8, 8] })
    const b = benchOf(chained.plan())
    expect(b.seeAll('lit', 'F1', 'F2', 'F3')).toEqual(['whole', 'whole', 'whole'])
    expect(b.see('effect H1')).toBe('whole')
  })
})

describe('a hub in parallel', () => {
  it('feeds all ports the same, so one dead lead or LED touches its own fan only', () => {
    expect(parallel.seeAll('lit', ...FANS)).toEqual(ALL_WHOLE)
    expect(parallel.see('effect H1')).toBe('whole')
    for (const [fault, lit] of [
      ['F2.light:open-DATA', 'dark'],
      ['F2.light:unplugged', 'dark'],
      ['F2:led-dead-5', 'part'],
      ['F2:lights-dead', 'dark'],
      ['H1.2:dead', 'dark'],
    ] as const)
      expect(parallel.fault(fault).seeAll('lit', ...FANS), fault).toEqual(['whole', lit, 'whole', 'whole'])
    expect(parallel.fault('F2.light:open-DATA_BACK').seeAll('lit', ...FANS)).toEqual(ALL_WHOLE)
  })

  it('tells each port its own count, and its stored pattern knows none', () => {
    const short = hub({ chain: 'parallel' }, { profile: [8, 4, 8, 8] })
    expect(short.seeAll('lit', ...FANS)).toEqual(['whole', 'part', 'whole', 'whole'])
    expect(short.fault('H1.usb:unplugged').seeAll('lit', ...FANS)).toEqual(ALL_WHOLE)
    expect(hub({ chain: 'parallel' }, { profile: [8] }).seeAll('lit', ...FANS)).toEqual(ALL_WHOLE)
  })

  it('has no gap: an empty port is nothing to the others', () => {
    expect(parallel.edit('unplug F1.light').seeAll('lit', ...FANS)).toEqual([
      'dark',
      'whole',
      'whole',
      'whole',
    ])
  })

  it('cannot light one port alone, so no port answers', () => {
    expect(parallel.see('answers H1.2')).toBeNull()
  })

  it('shows every fan the same picture: two exchanged leads show nowhere but in where they go', () => {
    const b = parallel.fault('F2.light:swapped-with-F3.light')
    expect(b.see('effect H1')).toBe('whole')
    expect(b.seeAll('goes', 'F2.light', 'F3.light')).toEqual(['H1.3', 'H1.2'])
  })

  it('with a fan missing in the middle does not come in another order', () => {
    expect(parallel.fault('F2.light:unplugged').see('effect H1')).not.toBe('jumps')
  })
})

describe('a hub and what it needs', () => {
  it('without its supply is listed and dark', () => {
    for (const fault of [
      'H1.power:unplugged',
      'H1.power:open-5V',
      'H1.power:open-GND',
      'supply.SA:unplugged',
    ]) {
      const b = series.fault(fault)
      expect(b.seeAll('lit', ...FANS), fault).toEqual(['dark', 'dark', 'dark', 'dark'])
      expect(b.see('listed H1'), fault).toBe('yes')
      expect(b.see('shows F1'), fault).toBe('nothing')
      expect(b.see('volts H1.1/5V'), fault).toBe('none')
    }
  })

  it('without USB runs its stored pattern and is not listed; nothing drives its channel', () => {
    for (const fault of [
      'H1.usb:unplugged',
      'H1.usb:open-USB',
      'H1.usb:open-5V',
      'H1.usb:offset',
      'H1.usb:reversed',
      'board.U1.a:dead',
      'ports/board.U1.a/enabled:off',
      'H1:not-answering',
    ]) {
      const b = series.fault(fault)
      expect(b.see('listed H1'), fault).toBe('no')
      expect(b.seeAll('shows', ...FANS), fault).toEqual(['stored', 'stored', 'stored', 'stored'])
      expect(b.seeAll('lit', ...FANS), fault).toEqual(ALL_WHOLE)
      expect(b.see('effect H1'), fault).toBeNull()
      expect(b.see('answers H1.1'), fault).toBeNull()
    }
  })

  it('that stays dark before its host speaks is dark without it', () => {
    const dark = hub({ before_host: 'dark' })
    expect(dark.fault('H1.usb:unplugged').seeAll('lit', ...FANS)).toEqual(['dark', 'dark', 'dark', 'dark'])
  })

  it('shows its stored pattern while no host program runs, though it is listed', () => {
    const b = series.fault('host/program:not-running')
    expect(b.see('listed H1')).toBe('yes')
    expect(b.see('shows F3')).toBe('stored')
    expect(b.edit('set host/program = running').all()).toEqual(series.all())
  })

  it('dead does nothing; hung keeps its picture until its power is cut', () => {
    expect(series.fault('H1:dead').seeAll('lit', ...FANS)).toEqual(['dark', 'dark', 'dark', 'dark'])
    expect(series.fault('H1:dead').see('listed H1')).toBe('no')
    const hung = series.fault('H1:hung')
    expect(hung.seeAll('lit', ...FANS)).toEqual(ALL_WHOLE)
    expect(hung.see('shows F1')).toBe('frozen')
    expect(hung.see('effect H1')).toBeNull()
    expect(hung.edit('set host/program = running').see('shows F1')).toBe('frozen')
    expect(hung.edit('power off', 'power on').all()).toEqual(series.all())
  })

  it('shows one effect over all while the global effect is on', () => {
    const b = series.fault('host/global_effect:left-on')
    expect(b.seeAll('shows', ...FANS)).toEqual(['global', 'global', 'global', 'global'])
    expect(b.edit('set host/global_effect = off').all()).toEqual(series.all())
  })

  it('told another colour order shows wrong colours and all LEDs', () => {
    const b = series.fault('channels/H1/colours:wrong')
    expect(b.see('setting channels/H1/colours')).toBe('RGB')
    expect(b.see('shows F2')).toBe('wrong-colours')
    expect(b.see('lit F2')).toBe('whole')
    expect(b.edit('set channels/H1/colours = GRB').see('shows F2')).toBe('set')
  })

  it('is still listed with a fan dark, and the fan dark by its lead is dark in any port', () => {
    const b = parallel.fault('F2.light:open-5V').edit('plug F2.light -> H1.5')
    expect(b.see('lit F2')).toBe('dark')
    expect(parallel.fault('H1.2:dead').edit('plug F2.light -> H1.5').see('lit F2')).toBe('whole')
  })

  it('over its current sags, then gives nothing', () => {
    // Four fans of 0.32 A: 1.28 A. Limits of 1.28, 1.1 and 1 A carry it, sag (16 % over) and fail (28 % over).
    expect(hub({ amps: 1.28 }).see('volts H1.1/5V')).toBe('right')
    expect(hub({ amps: 1.1 }).see('volts H1.1/5V')).toBe('low')
    const failed = hub({ amps: 1 })
    expect(failed.see('volts H1.1/5V')).toBe('none')
    expect(failed.seeAll('lit', ...FANS)).toEqual(['dark', 'dark', 'dark', 'dark'])
  })
})

describe('a board light header', () => {
  const header = (host: Keys = {}, beforeHost?: string) => {
    const b = build()
      .lightHeader('L1')
      .fan('F1', { light: { passes_on: true } })
      .fan('F2')
      .lead('F1.light', 'board.L1')
      .lead('F2.light', 'F1.light_out')
      .channel('L1', { profile: [16] })
      .host(host)
    const text = beforeHost ? b.text().replace('board:', `board:\n  before_host: ${beforeHost}`) : b.text()
    return { text, b }
  }
  const lit = benchOf(header().b.plan())

  it('lights a chain of two through the first', () => {
    expect(lit.seeAll('lit', 'F1', 'F2')).toEqual(['whole', 'whole'])
    expect(lit.see('effect board.L1')).toBe('whole')
    expect(lit.see('answers board.L1')).toBe('F1+F2')
    expect(lit.fault('F1:led-dead-3').seeAll('lit', 'F1', 'F2')).toEqual(['part', 'dark'])
    expect(lit.fault('F2.light:open-DATA').seeAll('lit', 'F1', 'F2')).toEqual(['whole', 'dark'])
    expect(lit.fault('board.L1:data-dead').seeAll('lit', 'F1', 'F2')).toEqual(['dark', 'dark'])
    // 5 V goes past the first fan's dead LEDs, data does not.
    expect(lit.fault('F1:lights-dead').see('volts F2.light/5V')).toBe('right')
  })

  it('runs its stored pattern without a host program, or stays dark where it does so', () => {
    const b = lit.fault('host/program:not-running')
    expect(b.seeAll('shows', 'F1', 'F2')).toEqual(['stored', 'stored'])
    expect(b.see('effect board.L1')).toBeNull()
  })

  it('gives nothing when overloaded by a third', () => {
    const b = build()
      .lightHeader('L1', { amps: 1 })
      .part('S1', { kind: 'strip', light: { leds: 30, amps: 1.34 } })
      .lead('S1.light', 'board.L1')
      .plan()
    expect(benchOf(b).see('volts board.L1/5V')).toBe('none')
    expect(benchOf(b).see('lit S1')).toBe('dark')
  })

  it('feeds a hub without USB, which keeps its stored pattern without the header lead', () => {
    const b = benchOf(
      build()
        .supply('SA')
        .lightHeader('L1')
        .fan('F1..F2')
        .lightHub('H1', ['F1', 'F2'], { host: 'header', before_host: 'stored-pattern' })
        .lead('H1.in', 'board.L1')
        .lead('H1.power', 'supply.SA.1')
        .channel('L1', { profile: [16] })
        .plan(),
    )
    expect(b.seeAll('shows', 'F1', 'F2')).toEqual(['set', 'set'])
    expect(b.see('answers board.L1')).toBe('F1+F2')
    expect(b.fault('H1.in:unplugged').seeAll('shows', 'F1', 'F2')).toEqual(['stored', 'stored'])
    expect(b.fault('H1.in:open-DATA').seeAll('shows', 'F1', 'F2')).toEqual(['stored', 'stored'])
    expect(b.fault('H1.power:unplugged').seeAll('lit', 'F1', 'F2')).toEqual(['dark', 'dark'])
    expect(b.fault('host/program:not-running').seeAll('shows', 'F1', 'F2')).toEqual(['stored', 'stored'])
  })

  it('feeds and powers a hub that has no supply of its own', () => {
    const b = benchOf(
      build()
        .lightHeader('L1')
        .fan('F1..F2')
        .lightHub('H1', ['F1', 'F2'], { power: 'header', host: 'header', chain: 'parallel' })
        .lead('H1.in', 'board.L1')
        .channel('L1', { profile: [8] })
        .plan(),
    )
    expect(b.seeAll('lit', 'F1', 'F2')).toEqual(['whole', 'whole'])
    expect(b.fault('H1.in:unplugged').seeAll('lit', 'F1', 'F2')).toEqual(['dark', 'dark'])
    expect(b.fault('F1.light:unplugged').seeAll('lit', 'F1', 'F2')).toEqual(['dark', 'whole'])
  })
})

describe('a light splitter', () => {
  const split = benchOf(
    build()
      .lightHeader('L1', { amps: 5 })
      .fan('F1', { light: { leds: 12 } })
      .fan('F2')
      .lightSplitter('X1', ['F1', 'F2'], { amps: 5 })
      .lead('X1.in', 'board.L1')
      .channel('L1', { profile: [12] })
      .plan(),
  )

  it('shows both branches the same, each from its first LED', () => {
    expect(split.seeAll('lit', 'F1', 'F2')).toEqual(['whole', 'whole'])
    expect(split.see('answers board.L1')).toBe('F1+F2')
    expect(split.see('effect board.L1')).toBe('whole')
    expect(split.fault('F1:led-dead-2').seeAll('lit', 'F1', 'F2')).toEqual(['part', 'whole'])
    expect(split.fault('X1.in:open-DATA').seeAll('lit', 'F1', 'F2')).toEqual(['dark', 'dark'])
  })

  it('told more LEDs than its longest branch has lets effects run off', () => {
    const b = split.fault('channels/L1/profile:count-high')
    expect(b.seeAll('lit', 'F1', 'F2')).toEqual(['whole', 'whole'])
    expect(b.see('effect board.L1')).toBe('runs-off')
  })

  it('told fewer leaves the end of the longest branch dark', () => {
    const b = split.edit('set channels/L1/profile = [10]')
    expect(b.seeAll('lit', 'F1', 'F2')).toEqual(['part', 'whole'])
    expect(b.see('effect board.L1')).toBe('stops-short')
  })
})

describe('a part with two sets of lights', () => {
  const two = benchOf(
    build()
      .supply('SA')
      .usbHeader('U1')
      .part('F1', { kind: 'fan', motor: {}, lights: { ring: { leds: 12 }, core: { leds: 6 } } })
      .lightHub('H1', ['F1.ring', 'F1.core'], { chain: 'parallel' })
      .lead('H1.power', 'supply.SA.1')
      .lead('H1.usb', 'board.U1.a')
      .channel('H1', { profile: [12, 6] })
      .plan(),
  )

  it('is whole with both, in part with one', () => {
    expect(two.see('lit F1')).toBe('whole')
    expect(two.fault('F1.core:unplugged').see('lit F1')).toBe('part')
    expect(two.fault('F1.core:unplugged', 'F1.ring:unplugged').see('lit F1')).toBe('dark')
  })

  it('with a dead first LED in one set keeps the other lit', () => {
    expect(two.fault('F1:led-dead-1').see('lit F1')).toBe('part')
  })
})

describe('plain 12 V lights', () => {
  const rgb = benchOf(
    build()
      .lightHeader('R1', { volts: 12, amps: 2 })
      .lightHeader('L1')
      .part('S1', { kind: 'strip', light: { volts: 12, leds: 18, amps: 0.4 } })
      .lead('S1.light', 'board.R1')
      .plan(),
  )

  it('light from the header, need 12 V, and lose a colour with its wire', () => {
    expect([rgb.see('lit S1'), rgb.see('shows S1')]).toEqual(['whole', 'set'])
    expect(rgb.fault('S1.light:open-12V').see('lit S1')).toBe('dark')
    expect(rgb.fault('S1.light:open-R').see('lit S1')).toBe('whole')
    expect(rgb.fault('S1.light:open-R').see('shows S1')).toBe('wrong-colours')
    expect(rgb.fault('S1.light:open-R', 'S1.light:open-G', 'S1.light:open-B').see('lit S1')).toBe('dark')
  })

  const strip = (passes_on = false): Keys => ({
    kind: 'strip',
    light: { volts: 12, leds: 18, amps: 0.4, passes_on },
  })

  it('one behind the other or behind a splitter lose together what is lost before them', () => {
    const chain = benchOf(
      build()
        .lightHeader('R1', { volts: 12, amps: 2 })
        .part('S1', strip(true))
        .part('S2', strip())
        .lead('S1.light', 'board.R1')
        .lead('S2.light', 'S1.light_out')
        .plan(),
    )
    const split = benchOf(
      build()
        .lightHeader('R1', { volts: 12, amps: 2 })
        .part('S1', strip())
        .part('S2', strip())
        .lightSplitter('X1', ['S1', 'S2'], { volts: 12 })
        .lead('X1.in', 'board.R1')
        .plan(),
    )
    for (const [b, first] of [
      [chain, 'S1.light'],
      [split, 'X1.in'],
    ] as const) {
      expect(b.seeAll('lit', 'S1', 'S2')).toEqual(['whole', 'whole'])
      expect(b.seeAll('shows', 'S1', 'S2')).toEqual(['set', 'set'])
      expect(b.fault(`${first}:open-12V`).seeAll('lit', 'S1', 'S2')).toEqual(['dark', 'dark'])
      expect(b.fault(`${first}:open-G`).seeAll('shows', 'S1', 'S2')).toEqual([
        'wrong-colours',
        'wrong-colours',
      ])
      expect(b.fault('S2.light:open-G').seeAll('shows', 'S1', 'S2')).toEqual(['set', 'wrong-colours'])
    }
  })

  it('on a hub or a controller have their 12 V from its supply plug and their colours from its host', () => {
    const from = (b: ReturnType<typeof build>, id: string) =>
      benchOf(b.lead(`${id}.power`, 'supply.SA.1').lead(`${id}.usb`, 'board.U1.a').plan())
    const start = () => build().supply('SA').usbHeader('U1').part('S1', strip())
    const hub = from(start().lightHub('H1', ['S1'], { volts: 12, chain: 'parallel' }), 'H1')
    const controller = from(
      start().controller('C1', [], { fan_control: 'own', volts: 12 }).lead('S1.light', 'C1.light1'),
      'C1',
    )
    for (const [b, id] of [
      [hub, 'H1'],
      [controller, 'C1'],
    ] as const) {
      expect([b.see('lit S1'), b.see('shows S1')], id).toEqual(['whole', 'set'])
      expect(b.fault(`${id}.power:open-12V`).see('lit S1'), id).toBe('dark')
      expect(b.fault(`${id}.power:open-5V`).see('lit S1'), id).toBe('whole')
      expect(b.fault(`${id}.usb:unplugged`).see('shows S1'), id).toBe('stored')
    }
  })

  it('in a 5 V header stay dark and take no harm', () => {
    const b = rgb.fault('S1.light:in-board.L1')
    expect(b.see('lit S1')).toBe('dark')
    expect(b.edit('plug S1.light -> board.R1').see('lit S1')).toBe('whole')
  })

  it('5 V lights in a 12 V header are burnt: moving them does not help, a spare does', () => {
    const b = benchOf(
      build()
        .lightHeader('L1')
        .lightHeader('R1', { volts: 12, amps: 2 })
        .fan('F1')
        .lead('F1.light', 'board.L1')
        .channel('L1', { profile: [8] })
        .plan(),
    ).fault('F1.light:in-board.R1')
    expect(b.see('lit F1')).toBe('dark')
    expect(b.edit('plug F1.light -> board.L1').see('lit F1')).toBe('dark')
    expect(b.edit('substitute F1', 'plug F1.light -> board.L1').see('lit F1')).toBe('whole')
  })
})

describe('a pump that drives its own lights', () => {
  const pump = benchOf(
    build()
      .header('W1', { role: 'pump' })
      .usbHeader('U1')
      .pump('P1', { light: { leds: 12 }, host: 'usb' })
      .lead('P1.motor', 'board.W1')
      .lead('P1.usb', 'board.U1.a')
      .plan(),
  )

  it('shows what is set over USB and its stored pattern without a program', () => {
    expect([pump.see('lit P1'), pump.see('shows P1'), pump.see('listed P1')]).toEqual(['whole', 'set', 'yes'])
    expect(pump.fault('host/program:not-running').see('shows P1')).toBe('stored')
    expect(pump.fault('P1:not-answering').see('shows P1')).toBe('stored')
    expect(pump.fault('P1.usb:open-USB').see('shows P1')).toBe('stored')
  })

  it('does not drive lights that hang on a hub by a lead', () => {
    const led = benchOf(
      build()
        .supply('SA')
        .header('W1', { role: 'pump' })
        .usbHeader('U1')
        .pump('P1', { light: { leds: 12 }, host: 'usb' })
        .lightHub('H1', ['P1'])
        .lead('P1.motor', 'board.W1')
        .lead('P1.usb', 'board.U1.a')
        .lead('H1.usb', 'board.U1.b')
        .lead('H1.power', 'supply.SA.1')
        .channel('H1', { profile: [12] })
        .plan(),
    )
    expect(led.see('lit P1')).toBe('whole')
    expect(led.fault('P1.light:open-DATA').see('lit P1')).toBe('dark')
    expect(led.fault('P1.usb:unplugged').see('lit P1')).toBe('whole')
  })

  it('is dark with its USB plug out, since that feeds its lights, and still pumps', () => {
    const b = pump.fault('P1.usb:unplugged')
    expect([b.see('lit P1'), b.see('spins P1')]).toEqual(['dark', 'normal'])
  })
})

describe('lights with the mains off', () => {
  it('are dark, and nothing that needs power has a value', () => {
    const b = series.off()
    expect(b.seeAll('lit', ...FANS)).toEqual(['dark', 'dark', 'dark', 'dark'])
    for (const look of [
      'shows F1',
      'listed H1',
      'effect H1',
      'answers H1.1',
      'setting channels/H1/profile',
      'setting host/program',
    ])
      expect(b.see(look), look).toBeNull()
  })
})
