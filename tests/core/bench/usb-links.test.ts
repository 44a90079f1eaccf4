/**
 * Which parts are listed over USB. Budgets from the USB 2.0 power rules: 500 mA on a port of the board or of a
 * hub with its own supply, 100 mA on each port of a hub fed by the bus, which takes 100 mA for itself; at most
 * five hubs in a path.
 */
import { describe, expect, it } from 'vitest'
import { benchOf } from '../../support/bench-look.ts'
import { type Build, build } from '../../support/build.ts'

const lightHub = (b: Build, id: string, usb: string, milliamps: number, plug: string) =>
  b
    .part(id, {
      kind: 'light-hub',
      ports: 2,
      chain: 'series',
      power: 'sata',
      host: 'usb',
      usb_milliamps: milliamps,
    })
    .lead(`${id}.usb`, usb)
    .lead(`${id}.power`, plug)

const direct = (milliamps: number) =>
  benchOf(lightHub(build().supply('SA').usbHeader('U1'), 'H1', 'board.U1.a', milliamps, 'supply.SA.1').plan())

describe('a part on a board port', () => {
  it.each([
    [100, 'yes'],
    [500, 'yes'],
    // Up to a quarter over: comes and goes; above, not listed (judgement).
    [600, 'comes-and-goes'],
    [625, 'comes-and-goes'],
    [626, 'no'],
  ])('of %i mA is listed: %s', (milliamps, listed) => {
    expect(direct(milliamps).see('listed H1')).toBe(listed)
  })

  it('needs 5 V, ground and data there', () => {
    for (const wire of ['5V', 'GND', 'USB'])
      expect(direct(100).fault(`H1.usb:open-${wire}`).see('listed H1')).toBe('no')
  })

  it('is listed again in the row beside', () => {
    const b = direct(100).fault('board.U1.a:dead')
    expect(b.see('listed H1')).toBe('no')
    expect(b.edit('plug H1.usb -> board.U1.b').see('listed H1')).toBe('yes')
  })

  it('one pin off or turned round is not listed until it is pushed home', () => {
    for (const mode of ['offset', 'reversed', 'unplugged']) {
      const b = direct(100).fault(`H1.usb:${mode}`)
      expect(b.see('listed H1'), mode).toBe('no')
      expect(b.edit('reseat H1.usb').see('listed H1'), mode).toBe('yes')
    }
  })

  it('turned off in firmware is listed when turned on', () => {
    const b = direct(100).fault('ports/board.U1.a/enabled:off')
    expect(b.see('setting ports/board.U1.a/enabled')).toBe('false')
    expect(b.edit('set ports/board.U1.a/enabled = true').see('listed H1')).toBe('yes')
  })
})

const behindHub = (power: 'bus' | 'sata', milliamps: readonly number[]) => {
  const b = build()
    .supply('SA', { plugs: 6 })
    .usbHeader('U1')
    .part('N1', { kind: 'usb-hub', ports: 4, power })
    .lead('N1.usb', 'board.U1.a')
  for (const [i, mA] of milliamps.entries()) lightHub(b, `H${i + 1}`, `N1.${i + 1}`, mA, `supply.SA.${i + 1}`)
  if (power === 'sata') b.lead('N1.power', 'supply.SA.6')
  return benchOf(b.plan())
}

describe('a USB hub', () => {
  it('fed by the bus lists parts of 100 mA, not of 200', () => {
    expect(behindHub('bus', [100, 100]).seeAll('listed', 'N1', 'H1', 'H2')).toEqual(['yes', 'yes', 'yes'])
    expect(behindHub('bus', [200]).see('listed H1')).toBe('no')
  })

  it('with a supply of its own gives 500 mA a port', () => {
    const b = behindHub('sata', [500, 500, 500])
    expect(b.seeAll('listed', 'N1', 'H1', 'H2', 'H3')).toEqual(['yes', 'yes', 'yes', 'yes'])
  })

  it('with a supply of its own and that plug out takes all its parts with it', () => {
    const b = behindHub('sata', [100, 100]).fault('N1.power:unplugged')
    expect(b.seeAll('listed', 'N1', 'H1', 'H2')).toEqual(['no', 'no', 'no'])
  })

  it('needs 5 V and ground of that supply', () => {
    for (const wire of ['5V', 'GND'])
      expect(behindHub('sata', [100]).fault(`N1.power:open-${wire}`).see('listed H1'), wire).toBe('no')
    expect(behindHub('sata', [100]).fault('N1.power:open-GND').see('listed N1')).toBe('no')
  })

  it('is up on either rail of that supply, and down without both', () => {
    const b = behindHub('sata', [100]).fault('N1.power:open-12V')
    expect(b.seeAll('listed', 'N1', 'H1')).toEqual(['yes', 'yes'])
    expect(b.fault('N1.power:open-5V').see('listed N1')).toBe('no')
    expect(behindHub('sata', [100]).fault('N1.power:open-5V').see('listed N1')).toBe('yes')
  })

  it('that is steady has parts over the current of their own port come and go', () => {
    expect(behindHub('sata', [600, 100]).seeAll('listed', 'N1', 'H1', 'H2')).toEqual([
      'yes',
      'comes-and-goes',
      'yes',
    ])
  })

  it('not listed lists nothing behind it', () => {
    for (const fault of ['N1.usb:open-USB', 'N1:dead', 'N1:not-answering', 'board.U1.a:dead'])
      expect(behindHub('sata', [100]).fault(fault).seeAll('listed', 'N1', 'H1'), fault).toEqual(['no', 'no'])
  })

  it('with one port dead loses the part there, which is listed in another', () => {
    const b = behindHub('sata', [100, 100]).fault('N1.2:dead')
    expect(b.seeAll('listed', 'N1', 'H1', 'H2')).toEqual(['yes', 'yes', 'no'])
    expect(b.edit('plug H2.usb -> N1.4').see('listed H2')).toBe('yes')
  })

  it('fed by the bus adds its parts to its own draw on the port above', () => {
    // 100 + 4 x 100 = 500 mA: just what a port gives. A fifth of that hub's kind does not exist.
    expect(behindHub('bus', [100, 100, 100, 100]).see('listed N1')).toBe('yes')
    const small = build()
      .supply('SA')
      .usbHeader('U1', { milliamps: 250 })
      .part('N1', { kind: 'usb-hub', ports: 4, power: 'bus' })
      .lead('N1.usb', 'board.U1.a')
    lightHub(small, 'H1', 'N1.1', 100, 'supply.SA.1')
    lightHub(small, 'H2', 'N1.2', 100, 'supply.SA.2')
    // 300 mA on 250: a fifth over.
    expect(benchOf(small.plan()).seeAll('listed', 'N1', 'H1')).toEqual(['comes-and-goes', 'comes-and-goes'])
    expect(benchOf(small.plan()).edit('unplug H2.usb').seeAll('listed', 'N1', 'H1')).toEqual(['yes', 'yes'])
  })
})

describe('depth', () => {
  /** A part behind so many hubs with a supply of their own. */
  const deep = (hubs: number) => {
    const b = build()
      .supply('SA', { plugs: hubs + 1 })
      .usbHeader('U1')
    for (let n = 1; n <= hubs; n++)
      b.part(`N${n}`, { kind: 'usb-hub', ports: 2, power: 'sata' })
        .lead(`N${n}.usb`, n === 1 ? 'board.U1.a' : `N${n - 1}.1`)
        .lead(`N${n}.power`, `supply.SA.${n}`)
    lightHub(b, 'H1', `N${hubs}.1`, 100, `supply.SA.${hubs + 1}`)
    return benchOf(b.plan())
  }

  it('five hubs in a path are listed, and what hangs on the fifth', () => {
    expect(deep(5).seeAll('listed', 'N5', 'H1')).toEqual(['yes', 'yes'])
  })

  it('a sixth is not, nor what hangs on it', () => {
    const b = deep(6)
    expect(b.seeAll('listed', 'N5', 'N6', 'H1')).toEqual(['yes', 'no', 'no'])
  })

  it('all that hangs on hubs fed by the bus, down to the last one, loads the port of the board', () => {
    // Five hubs of 100 mA each and a part of 100 mA: 600 mA, a fifth over the 500 of the port.
    const chain = (last: boolean) => {
      const b = build().supply('SA').usbHeader('U1')
      for (let n = 1; n <= 5; n++)
        b.part(`N${n}`, { kind: 'usb-hub', ports: 1, power: 'bus' }).lead(
          `N${n}.usb`,
          n === 1 ? 'board.U1.a' : `N${n - 1}.1`,
        )
      if (last) lightHub(b, 'H1', 'N5.1', 100, 'supply.SA.1')
      return benchOf(b.plan()).see('listed N1')
    }
    expect([chain(false), chain(true)]).toEqual(['yes', 'comes-and-goes'])
  })

  it('hubs that hang on each other are not listed', () => {
    const b = build().usbHeader('U1')
    for (const [id, at] of [
      ['N1', 'board.U1.a'],
      ['N2', 'N1.1'],
    ] as const)
      b.part(id, { kind: 'usb-hub', ports: 2, power: 'bus' }).lead(`${id}.usb`, at)
    const ring = benchOf(b.plan()).edit('plug N1.usb -> N2.1')
    expect(ring.seeAll('listed', 'N1', 'N2')).toEqual(['no', 'no'])
  })
})

describe('adapters between', () => {
  it('from a USB 3 header to a USB 2 plug carry data and power', () => {
    const b = build()
      .supply('SA')
      .usbHeader('U3', { kind: 'usb3' })
      .part('A1', { kind: 'adapter', from: 'usb3', to: 'usb2' })
      .lead('A1.in', 'board.U3')
    lightHub(b, 'H1', 'A1.out', 100, 'supply.SA.1')
    const bench = benchOf(b.plan())
    expect(bench.see('listed H1')).toBe('yes')
    expect(bench.fault('A1.in:unplugged').see('listed H1')).toBe('no')
    expect(bench.fault('A1.in:open-USB').see('listed H1')).toBe('no')
  })

  it('leave the budget of the USB 3 header what it is', () => {
    // 300 mA on 250: a fifth over.
    const b = build()
      .supply('SA')
      .usbHeader('U3', { kind: 'usb3', milliamps: 250 })
      .part('A1', { kind: 'adapter', from: 'usb3', to: 'usb2' })
      .lead('A1.in', 'board.U3')
    expect(benchOf(lightHub(b, 'H1', 'A1.out', 300, 'supply.SA.1').plan()).see('listed H1')).toBe(
      'comes-and-goes',
    )
  })
})
