/** Controllers that drive fans and lights from one supply plug, told over USB or by board headers. */
import { describe, expect, it } from 'vitest'
import { benchOf } from '../../support/bench-look.ts'
import { build, type Keys } from '../../support/build.ts'

const FANS = ['F1', 'F2', 'F3'] as const

const own = (keys: Keys = {}) => {
  const b = build()
    .supply('SA')
    .usbHeader('U1')
    .fan('F1..F3')
    .controller('C1', [...FANS], { fan_ports: 4, light_ports: 4, fan_control: 'own', ...keys })
    .lead('C1.power', 'supply.SA.1')
    .lead('C1.usb', 'board.U1.a')
  for (const n of [1, 2, 3]) b.set(`C1.fan${n}`, { curve: [[0, 50]] })
  if ((keys.chain ?? 'separate') === 'separate')
    for (const n of [1, 2, 3]) b.channel(`C1.light${n}`, { profile: [8], colours: 'GRB' })
  else b.channel('C1', { profile: [8, 8, 8], colours: 'GRB' })
  return benchOf(b.plan())
}

describe('a controller that sets its fans itself, a channel a port', () => {
  const c = own()

  it('turns, reads and lights all', () => {
    expect(c.seeAll('spins', ...FANS)).toEqual(['normal', 'normal', 'normal'])
    expect(c.seeAll('rpm', 'C1.fan1', 'C1.fan2', 'C1.fan4')).toEqual(['plausible', 'plausible', 'zero'])
    expect(c.seeAll('lit', ...FANS)).toEqual(['whole', 'whole', 'whole'])
    expect(c.seeAll('effect', 'C1.light1', 'C1.light2')).toEqual(['whole', 'whole'])
    expect(c.seeAll('answers', 'C1.light1', 'C1.light2', 'C1.light4')).toEqual(['F1', 'F2', 'none'])
    expect(c.see('listed C1')).toBe('yes')
  })

  it('without its supply does nothing and is still listed', () => {
    const b = c.fault('C1.power:unplugged')
    expect(b.seeAll('spins', ...FANS)).toEqual(['no', 'no', 'no'])
    expect(b.seeAll('lit', ...FANS)).toEqual(['dark', 'dark', 'dark'])
    expect(b.see('listed C1')).toBe('yes')
    expect(b.see('rpm C1.fan1')).toBe('zero')
  })

  it('needs 12 V for its fans and 5 V for its lights', () => {
    const no12 = c.fault('C1.power:open-12V')
    expect([no12.see('spins F1'), no12.see('lit F1')]).toEqual(['no', 'whole'])
    const no5 = c.fault('C1.power:open-5V')
    expect([no5.see('spins F1'), no5.see('lit F1')]).toEqual(['normal', 'dark'])
  })

  it('without USB keeps its curves, shows its stored pattern and offers no reading', () => {
    const b = c.fault('C1.usb:unplugged')
    expect(b.see('listed C1')).toBe('no')
    expect(b.seeAll('spins', ...FANS)).toEqual(['normal', 'normal', 'normal'])
    expect(b.see('rpm C1.fan1')).toBe('none')
    expect(b.see('shows F1')).toBe('stored')
    expect(b.see('effect C1.light1')).toBeNull()
    expect(b.see('answers C1.light1')).toBeNull()
    // Nobody can change a setting of it.
    expect(b.see('follows C1.fan1')).toBeNull()
  })

  it('with one light dead touches that channel only', () => {
    const b = c.fault('F2.light:open-DATA')
    expect(b.seeAll('lit', ...FANS)).toEqual(['whole', 'dark', 'whole'])
    expect(b.seeAll('effect', 'C1.light1', 'C1.light2')).toEqual(['whole', 'stops-short'])
    expect(b.seeAll('answers', 'C1.light1', 'C1.light2')).toEqual(['F1', 'none'])
  })

  it('answers for exchanged light leads with the fan that really hangs there', () => {
    const b = c.fault('F1.light:swapped-with-F2.light')
    expect(b.seeAll('answers', 'C1.light1', 'C1.light2')).toEqual(['F2', 'F1'])
    expect(b.seeAll('lit', ...FANS)).toEqual(['whole', 'whole', 'whole'])
    expect(b.edit('swap F1.light F2.light').all()).toEqual(c.all())
  })

  it('with a dead fan port or a dead control output touches that fan only', () => {
    expect(c.fault('C1.fan2:dead').seeAll('spins', ...FANS)).toEqual(['normal', 'no', 'normal'])
    expect(c.fault('C1.fan2:control-dead').seeAll('spins', ...FANS)).toEqual(['normal', 'full', 'normal'])
    expect(c.fault('C1.fan2:dead').edit('plug F2.motor -> C1.fan4').see('spins F2')).toBe('normal')
    expect(c.fault('C1.fan2:dead').edit('substitute C1').all()).toEqual(c.all())
  })

  it('hung keeps its picture; cutting the power cures it', () => {
    const b = c.fault('C1:hung')
    expect(b.seeAll('shows', ...FANS)).toEqual(['frozen', 'frozen', 'frozen'])
    expect(b.edit('power off', 'power on').all()).toEqual(c.all())
  })

  it('follows a changed setting port by port', () => {
    expect(c.seeAll('follows', 'C1.fan1', 'C1.fan2')).toEqual(['yes', 'yes'])
    const b = c.fault('F1.motor:swapped-with-F2.motor')
    expect(b.seeAll('follows', 'C1.fan1', 'C1.fan2', 'C1.fan3')).toEqual(['no', 'no', 'yes'])
  })
})

describe('a controller with one channel over its ports', () => {
  it('in series loses all after a break', () => {
    const c = own({ chain: 'series' })
    expect(c.see('effect C1')).toBe('whole')
    expect(c.see('answers C1.light2')).toBe('F2')
    expect(c.fault('F2.light:open-DATA').seeAll('lit', ...FANS)).toEqual(['whole', 'dark', 'dark'])
    expect(c.fault('F1.light:open-DATA_BACK').seeAll('lit', ...FANS)).toEqual(['whole', 'dark', 'dark'])
  })

  it('in parallel loses one', () => {
    const c = own({ chain: 'parallel' })
    expect(c.see('effect C1')).toBe('whole')
    expect(c.fault('F2.light:open-DATA').seeAll('lit', ...FANS)).toEqual(['whole', 'dark', 'whole'])
  })
})

describe('a controller whose fans a board header sets', () => {
  const c = benchOf(
    build()
      .supply('SA')
      .header('SYS1', { drive: 'pwm' })
      .lightHeader('L1')
      .fan('F1..F3')
      .controller('C1', [...FANS], {
        fan_control: 'header',
        host: 'header',
        before_host: 'stored-pattern',
        chain: 'series',
        tach_from: 1,
      })
      .lead('C1.power', 'supply.SA.1')
      .lead('C1.in', 'board.SYS1')
      .lead('C1.light_in', 'board.L1')
      .set('SYS1', { curve: [[0, 50]] })
      .channel('L1', { profile: [24] })
      .plan(),
  )

  it('follows the header and returns one tach, and lights from the light header', () => {
    expect(c.seeAll('spins', ...FANS)).toEqual(['normal', 'normal', 'normal'])
    expect([c.see('rpm board.SYS1'), c.see('follows board.SYS1')]).toEqual(['plausible', 'yes'])
    expect(c.seeAll('shows', ...FANS)).toEqual(['set', 'set', 'set'])
    expect(c.see('effect board.L1')).toBe('whole')
  })

  it('offers no readings of its own', () => {
    expect(c.see('rpm C1.fan1')).toBe('none')
  })

  it('without the header lead runs full and the header reads zero', () => {
    const b = c.fault('C1.in:unplugged')
    expect(b.seeAll('spins', ...FANS)).toEqual(['full', 'full', 'full'])
    expect(b.see('rpm board.SYS1')).toBe('zero')
    expect(b.seeAll('lit', ...FANS)).toEqual(['whole', 'whole', 'whole'])
  })

  it('without the light header runs its stored pattern', () => {
    expect(c.fault('C1.light_in:unplugged').seeAll('shows', ...FANS)).toEqual(['stored', 'stored', 'stored'])
  })

  it('draws nothing from the fan header: its load hangs on the supply', () => {
    expect(c.fault('C1.power:unplugged').see('volts board.SYS1/12V')).toBe('right')
    expect(c.fault('C1.in:open-12V').seeAll('spins', ...FANS)).toEqual(['normal', 'normal', 'normal'])
  })
})

describe('one supply lead under several parts', () => {
  const b = benchOf(
    build()
      .supply('SA')
      .supply('SB')
      .header('SYS1', { drive: 'pwm' })
      .usbHeader('U1')
      .fan('F1..F2')
      .fanHub('K1', ['F1', 'F2'])
      .lightHub('H1', ['F1', 'F2'])
      .lead('K1.in', 'board.SYS1')
      .lead('K1.power', 'supply.SA.1')
      .lead('H1.power', 'supply.SA.2')
      .lead('H1.usb', 'board.U1.a')
      .set('SYS1', { curve: [[0, 50]] })
      .plan(),
  )

  it('not seated at the supply takes everything on it down', () => {
    const out = b.fault('supply.SA:unplugged')
    expect(out.seeAll('spins', 'F1', 'F2')).toEqual(['no', 'no'])
    expect(out.seeAll('lit', 'F1', 'F2')).toEqual(['dark', 'dark'])
    expect(out.see('seated supply.SA')).toBe('no')
    expect(out.see('seated K1.power')).toBe('yes')
    expect(out.see('volts supply.SA.1/12V')).toBe('none')
    expect(out.edit('reseat supply.SA').all()).toEqual(b.all())
    expect(out.edit('plug H1.power -> supply.SB.1').see('lit F1')).toBe('whole')
  })

  it('loose at the supply comes and goes', () => {
    const loose = b.fault('supply.SA:loose')
    expect([loose.see('spins F1'), loose.touching().see('spins F1')]).toEqual(['no', 'normal'])
    expect(loose.see('seated supply.SA')).toBe('doubtful')
  })
})
