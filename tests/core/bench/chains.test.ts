/**
 * Chains of lights behind one channel: where each LED of it counts, and how a running effect looks over them. What is
 * expected is counted by hand: each LED takes one frame and hands the rest on (addressable LED, data sheet).
 */
import { describe, expect, it } from 'vitest'
import { benchOf } from '../../support/bench-look.ts'
import { type Build, build, type Keys } from '../../support/build.ts'

const onHub = (lit: readonly string[], keys: Keys, profile: readonly number[], parts: (b: Build) => Build) =>
  benchOf(
    parts(build().supply('SA').usbHeader('U1'))
      .lightHub('H1', lit, keys)
      .lead('H1.power', 'supply.SA.1')
      .lead('H1.usb', 'board.U1.a')
      .channel('H1', { profile })
      .plan(),
  )

describe('a fan that passes its lights on, on the first port of a hub in series', () => {
  const chained = (profile: readonly number[]) =>
    onHub(['F1', 'F3'], {}, profile, (b) =>
      b
        .fan('F1', { light: { passes_on: true } })
        .fan('F2..F3')
        .lead('F2.light', 'F1.light_out'),
    )

  it('hands back behind the last of its chain', () => {
    const b = chained([16, 8])
    expect(b.seeAll('lit', 'F1', 'F2', 'F3')).toEqual(['whole', 'whole', 'whole'])
    expect(b.seeAll('answers', 'H1.1', 'H1.2')).toEqual(['F1+F2', 'F3'])
    expect(b.see('effect H1')).toBe('whole')
    expect(b.fault('F2:led-dead-5').seeAll('lit', 'F1', 'F2', 'F3')).toEqual(['whole', 'part', 'dark'])
  })

  it('counts all of the chain before the next port', () => {
    // 8 + 8 are gone when the third fan has its turn: 4 of 20 are left.
    expect(chained([16, 4]).seeAll('lit', 'F1', 'F2', 'F3')).toEqual(['whole', 'whole', 'part'])
    expect(chained([16, 0]).seeAll('lit', 'F1', 'F2', 'F3')).toEqual(['whole', 'whole', 'dark'])
    expect(chained([16, 0]).see('shows F3')).toBe('nothing')
  })
})

describe('a part with two sets of lights', () => {
  const sets = (lights: Keys, lit: readonly string[], profile: readonly number[], keys: Keys = {}) =>
    onHub(lit, keys, profile, (b) => b.part('F1', { kind: 'fan', motor: {}, lights }))

  it('has each set where it is plugged, with its own count', () => {
    const b = sets({ ring: { leds: 12 }, core: { leds: 6 } }, ['F1.ring', 'F1.core'], [12, 6])
    expect(b.see('effect H1')).toBe('whole')
    expect(b.edit('set channels/H1/profile = [12,12]').see('effect H1')).toBe('runs-off')
    expect(b.edit('set channels/H1/profile = [6,12]').see('effect H1')).toBe('jumps')
  })

  it('hands back from the set that hangs there, though the other hangs nowhere', () => {
    const b = onHub(['F1.core', 'F2'], {}, [6, 8], (p) =>
      p.part('F1', { kind: 'fan', motor: {}, lights: { ring: { leds: 12 }, core: { leds: 6 } } }).fan('F2'),
    )
    expect(b.seeAll('lit', 'F1', 'F2')).toEqual(['part', 'whole'])
  })

  it('with one LED dead or dark in the set that has so many shows all of the other', () => {
    // Twelve in a ring, six in the core, and plain 12 V lights, which are no chain of LEDs.
    const b = benchOf(
      build()
        .supply('SA')
        .usbHeader('U1')
        .lightHeader('R1', { volts: 12 })
        .part('F1', {
          kind: 'fan',
          motor: {},
          lights: { glow: { volts: 12, leds: 18 }, core: { leds: 6 }, ring: { leds: 12 } },
        })
        .lightHub('H1', ['F1.core', 'F1.ring'], { chain: 'parallel' })
        .lead('F1.glow', 'board.R1')
        .lead('H1.power', 'supply.SA.1')
        .lead('H1.usb', 'board.U1.a')
        .channel('H1', { profile: [6, 12] })
        .plan(),
    )
    expect(b.see('lit F1')).toBe('whole')
    expect(b.seeAll('lit', 'F1')).toEqual(['whole'])
    expect(b.fault('F1:led-dead-8').see('lit F1')).toBe('part')
    // The core is whole without the ring and the glow, and dead at its first LED it is not.
    const core = b.edit('unplug F1.ring', 'unplug F1.glow')
    expect([core.see('lit F1'), core.fault('F1:led-dead-1').see('lit F1')]).toEqual(['part', 'dark'])
  })

  it('with a dead eighth LED has it in the set that has eight', () => {
    const b = sets({ core: { leds: 6 }, ring: { leds: 12 } }, ['F1.core', 'F1.ring'], [6, 12])
    expect(b.fault('F1:led-dead-8').see('lit F1')).toBe('part')
  })

  it('passes on from each set what came to that set', () => {
    const two = benchOf(
      build()
        .lightHeader('L1')
        .lightHeader('L2')
        .part('F1', {
          kind: 'fan',
          motor: {},
          lights: { ring: { leds: 12, passes_on: true }, core: { leds: 6, passes_on: true } },
        })
        .fan('F2')
        .lead('F1.ring', 'board.L1')
        .lead('F1.core', 'board.L2')
        .lead('F2.light', 'F1.core_out')
        .channel('L1', { profile: [12] })
        .channel('L2', { profile: [14] })
        .plan(),
    )
    expect(two.fault('F1.ring:unplugged').seeAll('lit', 'F1', 'F2')).toEqual(['part', 'whole'])
    expect(two.fault('F1.core:unplugged').seeAll('lit', 'F1', 'F2')).toEqual(['part', 'dark'])
    expect(two.see('answers board.L2')).toBe('F1+F2')
  })
})

describe('a running effect', () => {
  it('stops short where a whole hub is without supply', () => {
    const b = onHub(['F1', 'F2'], {}, [8, 8], (p) => p.fan('F1..F2'))
    expect(b.fault('H1.power:unplugged').see('effect H1')).toBe('stops-short')
  })

  it('runs off where one port of a parallel hub is told more than it has, and stops short where its last part is dark', () => {
    const b = onHub(['F1', 'F2'], { chain: 'parallel' }, [12, 8], (p) =>
      p.fan('F1', { light: { leds: 12 } }).fan('F2'),
    )
    expect(b.see('effect H1')).toBe('whole')
    expect(b.edit('set channels/H1/profile = [12,10]').see('effect H1')).toBe('runs-off')
    expect(b.edit('set channels/H1/profile = [14,8]').see('effect H1')).toBe('runs-off')
    expect(b.fault('F2.light:unplugged').see('effect H1')).toBe('stops-short')
  })

  it('over a splitter runs off as soon as more is told than the longer branch has', () => {
    const b = benchOf(
      build()
        .lightHeader('L1', { amps: 5 })
        .fan('F1', { light: { leds: 12 } })
        .fan('F2')
        .lightSplitter('X1', ['F1', 'F2'], { amps: 5 })
        .lead('X1.in', 'board.L1')
        .channel('L1', { profile: [12] })
        .plan(),
    )
    expect(b.edit('set channels/L1/profile = [13]').see('effect board.L1')).toBe('runs-off')
  })

  it('over a splitter is whole with the shorter branch out: what is missing is no other order', () => {
    const b = benchOf(
      build()
        .lightHeader('L1', { amps: 5 })
        .fan('F1')
        .fan('F2', { light: { leds: 12 } })
        .lightSplitter('X1', ['F1', 'F2'], { amps: 5 })
        .lead('X1.in', 'board.L1')
        .channel('L1', { profile: [12] })
        .plan(),
    )
    expect(b.fault('F1.light:unplugged').see('effect board.L1')).toBe('whole')
  })

  it('over a hub in parallel is whole with LEDs told for an empty port', () => {
    const b = onHub(['F1', 'F2'], { ports: 3, chain: 'parallel' }, [8, 8, 8], (p) => p.fan('F1..F2'))
    expect(b.see('effect H1')).toBe('whole')
  })

  it('is whole where the same LEDs are told for a later, empty port', () => {
    const b = onHub(['F1', 'F2'], { ports: 4 }, [8, 8], (p) => p.fan('F1..F2'))
    expect(b.edit('set channels/H1/profile = [8,0,8]').see('effect H1')).toBe('whole')
    expect(b.edit('set channels/H1/profile = [6,10]').see('effect H1')).toBe('jumps')
  })
})

describe('a port lit alone', () => {
  const chained = onHub(['F1', 'F3'], {}, [16, 8], (b) =>
    b
      .fan('F1', { light: { passes_on: true } })
      .fan('F2..F3')
      .lead('F2.light', 'F1.light_out'),
  )

  it('lights only what its data reaches', () => {
    expect(chained.fault('F2.light:open-DATA').seeAll('answers', 'H1.1', 'H1.2')).toEqual(['F1', 'none'])
    expect(chained.fault('F1:lights-dead').seeAll('answers', 'H1.1', 'H1.2')).toEqual(['none', 'none'])
    expect(chained.fault('F1:led-dead-3').see('answers H1.1')).toBe('F1')
  })

  it('lights no part behind the LEDs that it is told', () => {
    const b = benchOf(
      build()
        .lightHeader('L1')
        .fan('F1', { light: { passes_on: true } })
        .fan('F2')
        .lead('F1.light', 'board.L1')
        .lead('F2.light', 'F1.light_out')
        .channel('L1', { profile: [8] })
        .plan(),
    )
    expect(b.seeAll('lit', 'F1', 'F2')).toEqual(['whole', 'dark'])
    expect(b.see('answers board.L1')).toBe('F1')
    expect(b.edit('set channels/L1/profile = [16]').see('answers board.L1')).toBe('F1+F2')
  })

  it('lights nothing where its one LED stays dark', () => {
    const one = benchOf(
      build()
        .lightHeader('L1')
        .part('S1', { kind: 'strip', light: { leds: 1 } })
        .lead('S1.light', 'board.L1')
        .channel('L1', { profile: [1] })
        .plan(),
    )
    expect([one.see('answers board.L1'), one.fault('S1:led-dark-1').see('answers board.L1')]).toEqual([
      'S1',
      'none',
    ])
  })
})

describe('LEDs that nobody has told', () => {
  const header = (chain: string) =>
    benchOf(
      build()
        .supply('SA')
        .lightHeader('L1')
        .fan('F1', { light: { leds: 12 } })
        .fan('F2')
        .lightHub('H1', ['F1', 'F2'], { host: 'header', chain })
        .lead('H1.in', 'board.L1')
        .lead('H1.power', 'supply.SA.1')
        .plan(),
    )

  it('behind a header that tells a hub are all of them in series, and the longest port in parallel', () => {
    expect(header('series').see('setting channels/L1/profile')).toBe('[20]')
    expect(header('parallel').see('setting channels/L1/profile')).toBe('[12]')
  })

  it('on a hub over USB are counted port by port, up to the last in use', () => {
    const b = benchOf(
      build()
        .supply('SA')
        .usbHeader('U1')
        .fan('F1', { light: { leds: 12 } })
        .fan('F2')
        .lightHub('H1', ['F1', 'F2'], { ports: 4 })
        .lead('H1.power', 'supply.SA.1')
        .lead('H1.usb', 'board.U1.a')
        .plan(),
    )
    expect(b.see('setting channels/H1/profile')).toBe('[12,8]')
  })
})

describe('a hub', () => {
  it('with one more fan behind its own is no other order', () => {
    const b = onHub(['F1', 'F2'], { ports: 4 }, [8, 8, 8], (p) => p.fan('F1..F3'))
    expect(b.see('effect H1')).toBe('runs-off')
    expect(b.edit('plug F3.light -> H1.3').see('effect H1')).toBe('whole')
    expect(b.edit('plug F3.light -> H1.3').see('answers H1.3')).toBe('F3')
  })

  it('that has hung lights nothing alone', () => {
    const b = onHub(['F1', 'F2'], {}, [8, 8], (p) => p.fan('F1..F2'))
    expect(b.fault('H1:hung').seeAll('answers', 'H1.1', 'H1.2')).toEqual(['none', 'none'])
  })

  it('with its own supply shows its stored pattern where the header that tells it is dead', () => {
    const b = benchOf(
      build()
        .supply('SA')
        .lightHeader('L1')
        .fan('F1')
        .lightHub('H1', ['F1'], { host: 'header', before_host: 'stored-pattern' })
        .lead('H1.in', 'board.L1')
        .lead('H1.power', 'supply.SA.1')
        .channel('L1', { profile: [8] })
        .plan(),
    )
    expect(b.see('shows F1')).toBe('set')
    expect(b.fault('board.L1:dead').see('shows F1')).toBe('stored')
  })
})

describe('a controller with a channel a port', () => {
  it('goes by what each port is told', () => {
    const b = benchOf(
      build()
        .supply('SA')
        .usbHeader('U1')
        .fan('F1..F2')
        .controller('C1', ['F1', 'F2'], { fan_control: 'own' })
        .lead('C1.power', 'supply.SA.1')
        .lead('C1.usb', 'board.U1.a')
        .channel('C1.light1', { profile: [8], colours: 'GRB' })
        .channel('C1.light2', { profile: [4], colours: 'RGB' })
        .plan(),
    )
    expect(b.seeAll('lit', 'F1', 'F2')).toEqual(['whole', 'part'])
    expect(b.seeAll('shows', 'F1', 'F2')).toEqual(['set', 'wrong-colours'])
    expect(b.seeAll('effect', 'C1.light1', 'C1.light2')).toEqual(['whole', 'stops-short'])
  })
})
