/** What hands do to a build where it is not as planned: taken sockets, bad joints of others, plugs moved on purpose. */
import { describe, expect, it } from 'vitest'
import { benchOf } from '../../support/bench-look.ts'
import { build } from '../../support/build.ts'

const two = benchOf(
  build()
    .supply('SA')
    .header('SYS1', { drive: 'pwm' })
    .header('SYS2', { drive: 'pwm' })
    .header('SYS3', { drive: 'pwm' })
    .plainFan('F1..F3')
    .splitter('Y1', ['F1'], { ways: 2 })
    .lead('Y1.in', 'board.SYS1')
    .lead('F2.motor', 'board.SYS2')
    .fanHub('G1', ['F3'])
    .lead('G1.in', 'board.SYS3')
    .lead('G1.power', 'supply.SA.1')
    .plan(),
)

describe('pushing a plug home', () => {
  it('that is out leaves it out where another sits in its place', () => {
    const taken = two.edit('unplug Y1.in', 'plug F2.motor -> board.SYS1', 'reseat Y1.in')
    expect(taken.seeAll('goes', 'Y1.in', 'F2.motor')).toEqual(['none', 'board.SYS1'])
    expect(two.edit('unplug Y1.in', 'reseat Y1.in').see('goes Y1.in')).toBe('board.SYS1')
  })

  it('that sits elsewhere leaves it there', () => {
    expect(two.edit('plug F1.motor -> Y1.2', 'reseat F1.motor').see('goes F1.motor')).toBe('Y1.2')
  })

  it('that sits in a wrong socket shows what was shown before: nobody has put it there on purpose', () => {
    const wrong = two.fault('F2.motor:swapped-with-Y1.in')
    expect(wrong.edit('reseat F2.motor', 'reseat Y1.in').all()).toEqual(wrong.all())
  })

  it('at the supply’s own end brings back all that hangs on the lead', () => {
    const out = two.edit('unplug supply.SA')
    expect([out.see('spins F3'), out.see('seated supply.SA')]).toEqual(['no', 'no'])
    expect(two.see('seated supply.SA')).toBe('yes')
    expect(out.edit('reseat supply.SA').all()).toEqual(two.all())
  })
})

it('switching off and on clears what had tripped, and mends nothing else at the socket', () => {
  const sick = two.fault('board.SYS2:tripped', 'board.SYS2:tach-dead')
  const after = sick.edit('power off', 'power on')
  expect([sick.see('spins F2'), after.see('spins F2'), after.see('rpm board.SYS2')]).toEqual([
    'no',
    'normal',
    'zero',
  ])
})

describe('another splitter in place of one', () => {
  it('has new joints with all that hangs on it', () => {
    const loose = two.fault('F1.motor:loose')
    expect(loose.see('seated F1.motor')).toBe('doubtful')
    expect(loose.edit('substitute Y1').see('seated F1.motor')).toBe('yes')
    // Another fan's joint is not touched by it.
    expect(loose.edit('substitute F2').see('seated F1.motor')).toBe('doubtful')
  })
})

describe('what should be there goes by where hands have put a plug', () => {
  it('and not by where the plan has it, once it was moved over a mistake', () => {
    // The two were exchanged; the first is put right, which drives the second out.
    const half = two.fault('F2.motor:swapped-with-Y1.in').edit('plug Y1.in -> board.SYS1')
    expect(half.seeAll('goes', 'Y1.in', 'F2.motor')).toEqual(['board.SYS1', 'none'])
    // Nothing hangs on the second header, so nothing there can follow its setting.
    expect(half.see('follows board.SYS2')).toBeNull()
    expect(half.see('follows board.SYS1')).toBe('yes')
    expect(half.edit('plug F2.motor -> board.SYS2').all()).toEqual(two.all())
  })

  it('with all that was pulled before, too', () => {
    const half = two.fault('F2.motor:swapped-with-Y1.in').edit('unplug F3.motor', 'plug Y1.in -> board.SYS1')
    expect(half.see('follows board.SYS3')).toBeNull()
  })

  it('but a plug that is out by a fault is still missed', () => {
    expect(two.fault('F2.motor:unplugged').see('follows board.SYS2')).toBe('no')
    expect(two.edit('unplug F2.motor').see('follows board.SYS2')).toBeNull()
  })

  it('and one put back with a swap is as planned again', () => {
    const wrong = two.fault('F2.motor:swapped-with-Y1.in')
    expect(wrong.edit('swap F2.motor Y1.in').all()).toEqual(two.all())
    expect(two.edit('swap F2.motor Y1.in').see('spins F1')).toBe('normal')
  })
})

it('a setting that is no number, or no list of counts, is refused', () => {
  for (const text of [
    'pulses = 1e999',
    'pulses = -1',
    'pulses = "2"',
    'alarm_below = true',
    'curve = [[1,1e999]]',
    'curve = [[1]]',
    'curve = [[1,"a"]]',
  ])
    expect(two.edit(`set headers/SYS1/${text}`).all(), text).toEqual(two.all())
  expect(two.seeAll('setting', 'channels/H9/profile', 'channels/H9/colours', 'channels/H9/nothing')).toEqual([
    null,
    null,
    null,
  ])
})
