/**
 * Plugs moved while the machine runs, and plugs exchanged of which one hangs free. Nobody is told to do the first; it
 * happens, and a bench that is asked for it must show what is seen then.
 */
import { describe, expect, it } from 'vitest'
import { benchOf } from '../../support/bench-look.ts'
import { build, planOf } from '../../support/build.ts'

const desk = benchOf(
  planOf(`
build: Print room bench
supply: {leads: {SA: {kind: sata, plugs: 2}}}
board:
  fan_headers: {SYS1: {amps: 1}, SYS2: {amps: 1}, SYS3: {amps: 1}}
  light_headers: {L1: {volts: 5, amps: 3}, L2: {volts: 12, amps: 2}}
parts:
  F1: {kind: fan, motor: {pins: 4, amps: 0.2, rpm: [450, 1500]}, light: {volts: 5, leds: 8, amps: 0.3}}
  F2: {kind: fan, motor: {pins: 4, amps: 0.2, rpm: [450, 1500]}, light: {volts: 5, leds: 8, amps: 0.3}}
  H1: {kind: light-hub, ports: 3, chain: series, power: sata, host: header}
  S1: {kind: strip, light: {volts: 12, leds: 30, amps: 0.5}}
leads:
  - F1.motor -> board.SYS1
  - F2.motor -> board.SYS2
  - F1.light -> H1.1
  - F2.light -> H1.2
  - H1.in -> board.L1
  - H1.power -> supply.SA.1
  - S1.light -> board.L2
`),
)

// One-wire LEDs latch their value when the line rests (50 µs or more in the data sheets) and have no other input: without
// new data they go on showing it, and at power-on they are dark until they get some.
describe('light data lost while the machine runs', () => {
  const pulled = desk.edit('unplug H1.in')

  it('leaves the last picture standing on lights that still have power', () => {
    expect(pulled.seeAll('lit', 'F1', 'F2')).toEqual(['whole', 'whole'])
    expect(pulled.seeAll('shows', 'F1', 'F2')).toEqual(['frozen', 'frozen'])
  })

  it('leaves them dark once the power has been away', () => {
    const again = pulled.edit('power off', 'power on')
    expect(again.seeAll('lit', 'F1', 'F2')).toEqual(['dark', 'dark'])
    expect(desk.edit('power off', 'unplug H1.in', 'power on').see('lit F1')).toBe('dark')
  })

  it('is over as soon as data comes again', () => {
    expect(pulled.edit('plug H1.in -> board.L1').all()).toEqual(desk.all())
  })

  it('darkens what loses its power with it, and holds what hangs behind it', () => {
    const own = desk.edit('unplug F1.light')
    expect(own.see('lit F1')).toBe('dark')
    // In series F2 gets its data through F1.
    expect(own.seeAll('lit', 'F2')).toEqual(['whole'])
    expect(own.see('shows F2')).toBe('frozen')
    expect(desk.edit('unplug H1.power').seeAll('lit', 'F1', 'F2')).toEqual(['dark', 'dark'])
  })

  it('holds no more LEDs than were lit', () => {
    const part = desk.fault('F1:led-dead-4')
    expect(part.see('lit F1')).toBe('part')
    expect(part.edit('unplug H1.in').seeAll('lit', 'F1', 'F2')).toEqual(['part', 'dark'])
  })

  it('darkens plain coloured lights, which have no memory', () => {
    expect(desk.edit('unplug S1.light').see('lit S1')).toBe('dark')
    const hub = benchOf(
      build()
        .supply('SA')
        .lightHeader('R1', { volts: 12 })
        .part('S1', { kind: 'strip', light: { volts: 12, leds: 18, amps: 0.4 } })
        .lightHub('H1', ['S1'], { volts: 12, chain: 'parallel', host: 'header', before_host: 'dark' })
        .lead('H1.in', 'board.R1')
        .lead('H1.power', 'supply.SA.1')
        .plan(),
    )
    // Its 12 V stays, its colours are gone.
    expect([hub.see('lit S1'), hub.edit('unplug H1.in').see('lit S1')]).toEqual(['whole', 'dark'])
  })

  it('holds what hung behind a plug that was put elsewhere', () => {
    expect(desk.edit('plug F1.light -> H1.3').see('shows F2')).toBe('frozen')
  })

  it('holds what comes to hang behind a bad plug, where that is exchanged with a good one', () => {
    const three = benchOf(
      build()
        .supply('SA')
        .lightHeader('L1')
        .fan('F1..F3')
        .lightHub('H1', ['F1', 'F2', 'F3'], { host: 'header' })
        .lead('H1.in', 'board.L1')
        .lead('H1.power', 'supply.SA.1')
        .plan(),
    ).fault('F3.light:open-DATA')
    expect(three.seeAll('shows', 'F2', 'F3')).toEqual(['set', 'nothing'])
    expect(three.edit('swap F1.light F3.light').seeAll('shows', 'F2', 'F3')).toEqual(['frozen', 'nothing'])
    // Of lights that were dark there is no picture to hold.
    expect(three.edit('unplug H1.in').seeAll('shows', 'F2', 'F3')).toEqual(['frozen', 'nothing'])
  })

  it('needs no more than the fault to have been there from the start to be dark', () => {
    expect(desk.fault('H1.in:unplugged').see('lit F1')).toBe('dark')
  })
})

describe('two plugs exchanged of which one hangs free', () => {
  const free = desk.fault('F1.motor:unplugged')

  it('end in each other’s place: the free one where the other was, the other where the free one belongs', () => {
    const after = free.edit('power off', 'swap F1.motor F2.motor', 'power on')
    expect(after.seeAll('goes', 'F1.motor', 'F2.motor')).toEqual(['board.SYS2', 'board.SYS1'])
    expect(after.seeAll('spins', 'F1', 'F2')).toEqual(['normal', 'normal'])
    expect(after.edit('swap F1.motor F2.motor').seeAll('goes', 'F1.motor', 'F2.motor')).toEqual([
      'board.SYS1',
      'board.SYS2',
    ])
  })

  it('whichever is named first', () => {
    expect(free.edit('swap F2.motor F1.motor').seeAll('goes', 'F1.motor', 'F2.motor')).toEqual([
      'board.SYS2',
      'board.SYS1',
    ])
  })

  it('put the other nowhere where its planned socket is taken', () => {
    const taken = desk.edit('unplug F1.motor', 'plug F2.motor -> board.SYS1')
    expect(taken.edit('swap F1.motor F2.motor').seeAll('goes', 'F1.motor', 'F2.motor')).toEqual([
      'board.SYS1',
      'none',
    ])
  })

  it('as a fault stay as they are: nobody looked where a plug belongs', () => {
    const both = desk.fault('F1.motor:unplugged', 'F1.motor:swapped-with-F2.motor')
    expect(both.seeAll('goes', 'F1.motor', 'F2.motor')).toEqual(['board.SYS2', 'none'])
  })
})
