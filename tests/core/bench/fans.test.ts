/**
 * Motors, control and tach on the bench. Speeds are worked by hand from the public four-wire fan specification as
 * told beside each group: rpm follows duty in percent of the top speed, an open control pin means full speed,
 * under the lowest duty a fan does as its kind does, and a header counts 60 × Hz ÷ pulses a turn.
 */
import { describe, expect, it } from 'vitest'
import { benchOf } from '../../support/bench-look.ts'
import { build, type Keys } from '../../support/build.ts'

/** One fan, 450 to 1500 rpm, on one header that asks for a fixed duty. */
const oneFan = (duty: number, header: Keys = {}, motor: Keys = {}, set: Keys = {}) =>
  benchOf(
    build()
      .header('SYS1', header)
      .header('SYS2')
      .plainFan('F1', { motor })
      .lead('F1.motor', 'board.SYS1')
      .set('SYS1', { curve: [[0, duty]], ...set })
      .plan(),
  )

const pwm = { drive: 'pwm' }
const dc = { drive: 'dc' }

describe('a four-wire fan on a PWM header', () => {
  const half = oneFan(50, pwm)

  it('turns at half its top speed at half duty, is read, is followed and raises no alarm', () => {
    // 50 % of 1500 rpm is 750 rpm: what is asked.
    expect(half.see('spins F1')).toBe('normal')
    expect(half.see('rpm board.SYS1')).toBe('plausible')
    expect(half.see('follows board.SYS1')).toBe('yes')
    expect(half.see('alarm board.SYS1')).toBe('no')
    expect(half.see('volts F1.motor/12V')).toBe('right')
  })

  it.each([
    ['12V', 'no', 'zero', 'no', 'none'],
    ['GND', 'no', 'zero', 'no', 'none'],
    // The specification: rpm comes from the tach wire alone.
    ['TACH', 'normal', 'zero', 'yes', 'right'],
    // The specification, 3.3: with the control wire open a fan runs at its top.
    ['CONTROL', 'full', 'high', 'no', 'right'],
  ])('with its %s wire open spins %s and reads %s', (wire, spins, rpm, follows, volts) => {
    const b = half.fault(`F1.motor:open-${wire}`)
    expect(b.see('spins F1')).toBe(spins)
    expect(b.see('rpm board.SYS1')).toBe(rpm)
    expect(b.see('follows board.SYS1')).toBe(follows)
    expect(b.see('volts F1.motor/12V')).toBe(volts)
    expect(b.see('volts board.SYS1/12V')).toBe('right')
    expect(b.see('seated F1.motor')).toBe('yes')
  })

  it('stands still and reads zero with its plug out, and the header still has its volts', () => {
    const b = half.fault('F1.motor:unplugged')
    expect(b.seeAll('spins', 'F1')).toEqual(['no'])
    expect(b.see('rpm board.SYS1')).toBe('zero')
    expect(b.see('seated F1.motor')).toBe('no')
    expect(b.see('goes F1.motor')).toBe('none')
    expect(b.see('volts board.SYS1/12V')).toBe('right')
    expect(b.see('volts F1.motor/12V')).toBe('none')
  })

  it('is dead while a loose plug is broken, and right while it touches', () => {
    const b = half.fault('F1.motor:loose')
    expect(b.see('spins F1')).toBe('no')
    expect(b.touching().see('spins F1')).toBe('normal')
    expect(b.touching().see('rpm board.SYS1')).toBe('plausible')
    expect(b.see('seated F1.motor')).toBe('doubtful')
    expect(b.edit('reseat F1.motor').see('spins F1')).toBe('normal')
  })

  it('is at full speed on a header whose control output is dead, until it is moved', () => {
    const b = half.fault('board.SYS1:control-dead')
    expect(b.see('spins F1')).toBe('full')
    expect(b.see('follows board.SYS1')).toBe('no')
    const moved = b.edit('plug F1.motor -> board.SYS2')
    // SYS2 has no curve of its own and asks the usual 40 to 100 % over 30 to 70 degrees: 55 % at 40 degrees.
    expect(moved.see('spins F1')).toBe('normal')
    expect(moved.see('rpm board.SYS2')).toBe('plausible')
    expect(moved.see('rpm board.SYS1')).toBe('zero')
  })

  it('reads zero, but turns, on a header whose tach input is dead', () => {
    const b = half.fault('board.SYS1:tach-dead')
    expect([b.see('spins F1'), b.see('rpm board.SYS1')]).toEqual(['normal', 'zero'])
    expect(b.edit('substitute F1').see('rpm board.SYS1')).toBe('zero')
  })

  it('gives nothing on a dead header, and a good fan there stays dead too', () => {
    const b = half.fault('board.SYS1:dead')
    expect([b.see('spins F1'), b.see('rpm board.SYS1'), b.see('volts board.SYS1/12V')]).toEqual([
      'no',
      'zero',
      'none',
    ])
    expect(b.edit('substitute F1').see('spins F1')).toBe('no')
    expect(b.edit('plug F1.motor -> board.SYS2').see('spins F1')).toBe('normal')
  })

  it('comes back on a tripped header after the power was cut, not before', () => {
    const b = half.fault('board.SYS1:tripped')
    expect(b.see('spins F1')).toBe('no')
    expect(b.edit('reseat F1.motor').see('spins F1')).toBe('no')
    expect(b.edit('power off', 'power on').see('spins F1')).toBe('normal')
  })

  it('with both its tach and its control dead shows both, and cutting the power cures neither', () => {
    const b = half.fault('board.SYS1:tach-dead', 'board.SYS1:control-dead')
    expect([b.see('spins F1'), b.see('rpm board.SYS1')]).toEqual(['full', 'zero'])
    expect(b.edit('power off', 'power on').all()).toEqual(b.all())
  })

  it('a bad motor lead moves with the fan and a bad header stays', () => {
    const lead = half.fault('F1.motor:open-TACH').edit('plug F1.motor -> board.SYS2')
    expect(lead.see('rpm board.SYS2')).toBe('zero')
    expect(lead.edit('substitute F1').see('rpm board.SYS2')).toBe('plausible')
  })

  it('asks for its top where the curve does, and its top is then normal', () => {
    expect(oneFan(100, pwm).see('spins F1')).toBe('normal')
    expect(oneFan(100, pwm).fault('F1.motor:open-CONTROL').see('spins F1')).toBe('normal')
  })

  it('reads double with one pulse a turn set, and half with a fan that gives one', () => {
    // rpm = 60 x Hz / pulses: set 1 where the fan gives 2 shows twice the speed.
    expect(half.fault('headers/SYS1/pulses:wrong').see('rpm board.SYS1')).toBe('high')
    expect(half.fault('headers/SYS1/pulses:wrong').see('spins F1')).toBe('normal')
    // 1500 x 1 / 2 = 750 where 1500 is asked.
    expect(oneFan(100, pwm, { pulses: 1 }).see('rpm board.SYS1')).toBe('low')
    expect(oneFan(100, pwm, { pulses: 1 }, { pulses: 1 }).see('rpm board.SYS1')).toBe('plausible')
  })

  it('turns but reads zero where its third wire gives a level and no pulses', () => {
    const b = oneFan(50, pwm, { tach: 'level' })
    expect([b.see('spins F1'), b.see('rpm board.SYS1')]).toEqual(['normal', 'zero'])
  })

  it('with a dead tach turns, reads zero everywhere, and a spare reads right', () => {
    const b = half.fault('F1:tach-dead')
    expect([b.see('spins F1'), b.see('rpm board.SYS1')]).toEqual(['normal', 'zero'])
    expect(b.edit('plug F1.motor -> board.SYS2').see('rpm board.SYS2')).toBe('zero')
    expect(b.edit('substitute F1').see('rpm board.SYS1')).toBe('plausible')
  })
})

describe('a fan under its lowest duty', () => {
  // Specification 3.4: kind A keeps its minimum even at 0, kind B keeps it and stops at 0, kind C stops below.
  const kind = (below_min: string, duty: number) =>
    oneFan(duty, pwm, { start_duty: 30, below_min }).see('spins F1')

  it.each([
    ['keeps', 20, 'normal'],
    ['keeps', 0, 'normal'],
    ['stops-at-zero', 20, 'normal'],
    ['stops-at-zero', 0, 'no'],
    // Asked for a turn and given too little to start: it tries and gives up.
    ['stops', 20, 'twitches'],
    ['stops', 0, 'no'],
    ['stops', 30, 'normal'],
  ])('of the kind that %s, at %d %% is %s', (below, duty, spins) => {
    expect(kind(below, duty)).toBe(spins)
  })

  it('that keeps its minimum is read at it, and at 0 % that is what is asked of it', () => {
    expect(oneFan(0, pwm, { below_min: 'keeps' }).see('rpm board.SYS1')).toBe('plausible')
    // With the control wire open it does 1500 of the 450 asked.
    expect(oneFan(0, pwm, { below_min: 'keeps' }).fault('F1.motor:open-CONTROL').see('rpm board.SYS1')).toBe(
      'high',
    )
  })

  it('a curve that rests at zero stops a fan that may stop and slows one that keeps its minimum', () => {
    const rests = (below_min: string) =>
      oneFan(60, pwm, { start_duty: 30, below_min }).fault('headers/SYS1/curve:rests-at-zero')
    expect(rests('stops-at-zero').see('spins F1')).toBe('no')
    // 450 rpm where 900 is asked.
    expect(rests('keeps').see('spins F1')).toBe('slow')
    expect(rests('keeps').see('rpm board.SYS1')).toBe('low')
  })

  it('a curve that rests at zero by plan is no fault: standing still is what is asked', () => {
    const b = oneFan(0, pwm, { below_min: 'stops-at-zero' })
    expect(b.see('spins F1')).toBe('no')
    // Given a duty by hand it starts.
    expect(b.edit('set headers/SYS1/curve = [[0,50]]').see('spins F1')).toBe('normal')
  })

  it('a curve under the start point leaves a fan of the stopping kind twitching until it is set right', () => {
    const b = oneFan(60, pwm, { start_duty: 30, below_min: 'stops' }).fault('headers/SYS1/curve:under-start')
    expect(b.see('spins F1')).toBe('twitches')
    expect(b.edit('set headers/SYS1/curve = [[0,60]]').see('spins F1')).toBe('normal')
  })

  it('a flat-out curve has the fan at its top though less is asked', () => {
    const b = oneFan(50, pwm).fault('headers/SYS1/curve:flat-out')
    expect(b.see('spins F1')).toBe('full')
    expect(b.see('setting headers/SYS1/curve')).toBe('[[0,100]]')
    expect(b.edit('set headers/SYS1/curve = [[0,50]]').see('spins F1')).toBe('normal')
  })
})

describe('drive by voltage', () => {
  it('a three-pin fan on a header set to DC follows by its voltage, and the lowered volts are right', () => {
    // 50 % of 12 V is 6 V: half of 1500 rpm for a fan that starts at 5 V.
    const b = oneFan(50, dc, { pins: 3, start_volts: 5 })
    expect(b.see('spins F1')).toBe('normal')
    expect(b.see('rpm board.SYS1')).toBe('plausible')
    expect(b.see('follows board.SYS1')).toBe('yes')
    expect(b.see('volts board.SYS1/12V')).toBe('right')
  })

  it('a four-pin fan on a header in DC drive is slowed once, by its voltage alone', () => {
    // 60 % of 12 V: 900 of 1500 RPM. Slowed by control as well it would be 540.
    const b = oneFan(60, dc, { pins: 4 })
    expect([b.see('spins F1'), b.see('rpm board.SYS1')]).toEqual(['normal', 'plausible'])
  })

  it('a fan that needs 7 V to start twitches on 6 V', () => {
    expect(oneFan(50, dc, { pins: 3, start_volts: 7 }).see('spins F1')).toBe('twitches')
    expect(oneFan(60, dc, { pins: 3, start_volts: 7 }).see('spins F1')).toBe('normal')
  })

  it('a three-pin fan on a PWM header runs at its top with a live reading', () => {
    const b = oneFan(50, pwm, { pins: 3 })
    expect(b.see('spins F1')).toBe('full')
    expect(b.see('rpm board.SYS1')).toBe('high')
    expect(b.see('follows board.SYS1')).toBe('no')
    expect(b.see('volts board.SYS1/12V')).toBe('right')
  })

  it('an auto header takes DC for a three-pin fan and PWM for a four-pin one, unless it is set', () => {
    expect(oneFan(60, { drive: 'auto' }, { pins: 3 }).see('spins F1')).toBe('normal')
    expect(oneFan(60, { drive: 'auto' }, { pins: 3 }, { drive: 'pwm' }).see('spins F1')).toBe('full')
    expect(oneFan(60, { drive: 'auto' }, { pins: 4 }).see('volts board.SYS1/12V')).toBe('right')
  })

  it('a header set to PWM by mistake lets a three-pin fan run full, and setting it back cures that', () => {
    const b = oneFan(60, { drive: 'auto' }, { pins: 3 }, { drive: 'dc' }).fault(
      'headers/SYS1/drive:wrong-mode',
    )
    expect(b.see('spins F1')).toBe('full')
    // 12 V where 60 % of it is called for.
    expect(b.see('volts board.SYS1/12V')).toBe('high')
    expect(b.see('setting headers/SYS1/drive')).toBe('pwm')
    expect(b.edit('set headers/SYS1/drive = dc').see('spins F1')).toBe('normal')
  })

  it('a four-pin fan on a header set to DC by mistake has too few volts, and too few to start at low duty', () => {
    const b = oneFan(50, { drive: 'auto' }, { start_volts: 7 }, { drive: 'pwm' }).fault(
      'headers/SYS1/drive:wrong-mode',
    )
    expect(b.see('volts board.SYS1/12V')).toBe('low')
    expect(b.see('spins F1')).toBe('twitches')
  })

  it('a four-pin fan on a three-pin header is slowed by the voltage', () => {
    const b = oneFan(60, { pins: 3, drive: 'dc' }, { pins: 4 })
    expect([b.see('spins F1'), b.see('rpm board.SYS1')]).toEqual(['normal', 'plausible'])
  })

  it('a header that has lost its control stands at 12 V in DC drive', () => {
    const b = oneFan(60, dc, { pins: 3 }).fault('board.SYS1:control-dead')
    expect([b.see('spins F1'), b.see('volts board.SYS1/12V')]).toEqual(['full', 'high'])
  })
})

describe('motors that fail', () => {
  const half = oneFan(50, pwm)

  it('a seized and a blocked fan both twitch while power is on and are told apart by hand', () => {
    const seized = half.fault('F1:seized')
    const blocked = half.fault('F1:blocked')
    expect([seized.see('spins F1'), blocked.see('spins F1')]).toEqual(['twitches', 'twitches'])
    expect([seized.off().see('spins F1'), blocked.off().see('spins F1')]).toEqual(['no', 'twitches'])
    expect([seized.see('rpm board.SYS1'), blocked.see('rpm board.SYS1')]).toEqual(['zero', 'zero'])
  })

  it('a dead motor does not move under power and turns freely by hand', () => {
    const b = half.fault('F1:motor-dead')
    expect([b.see('spins F1'), b.off().see('spins F1')]).toEqual(['no', 'normal'])
  })

  it('freeing the blades mends a blocked fan only', () => {
    expect(half.fault('F1:blocked').edit('free F1').see('spins F1')).toBe('normal')
    expect(half.fault('F1:seized').edit('free F1').see('spins F1')).toBe('twitches')
    expect(half.fault('F1:motor-dead').edit('free F1').see('spins F1')).toBe('no')
  })

  it('a seized fan without power does not even twitch', () => {
    expect(half.fault('F1:seized', 'F1.motor:unplugged').see('spins F1')).toBe('no')
  })

  it('a spare mends all of them', () => {
    for (const mode of ['seized', 'blocked', 'motor-dead', 'worn', 'tach-dead'])
      expect(half.fault(`F1:${mode}`).edit('substitute F1').seeAll('spins', 'F1')).toEqual(['normal'])
  })

  it('a worn bearing turns too slowly at its top', () => {
    const b = oneFan(100, pwm).fault('F1:worn')
    expect([b.see('spins F1'), b.see('rpm board.SYS1')]).toEqual(['slow', 'low'])
  })

  it('every blade is felt with the mains off, wired or not', () => {
    expect(half.off().see('spins F1')).toBe('normal')
    expect(half.fault('F1.motor:unplugged').off().see('spins F1')).toBe('normal')
  })
})

describe('alarms', () => {
  const cpu = benchOf(
    build()
      .header('CPU', { drive: 'pwm', role: 'cpu' })
      .header('SYS1', { drive: 'pwm' })
      .plainFan('F1')
      .lead('F1.motor', 'board.CPU')
      .set('CPU', { curve: [[0, 50]] })
      .plan(),
  )

  it('a CPU header without pulses raises one: plug out, tach open, blade held, fan elsewhere', () => {
    expect(cpu.see('alarm board.CPU')).toBe('no')
    for (const fault of ['F1.motor:unplugged', 'F1.motor:open-TACH', 'F1:blocked', 'F1.motor:in-board.SYS1'])
      expect(cpu.fault(fault).see('alarm board.CPU'), fault).toBe('yes')
  })

  it('a limit above the real speed raises one though the fan is right', () => {
    const b = cpu.fault('headers/CPU/alarm_below:too-high')
    expect([b.see('alarm board.CPU'), b.see('spins F1'), b.see('rpm board.CPU')]).toEqual([
      'yes',
      'normal',
      'plausible',
    ])
    expect(b.edit('set headers/CPU/alarm_below = 300').see('alarm board.CPU')).toBe('no')
  })

  it('other headers have none unless they are given a limit', () => {
    const b = oneFan(50, pwm).fault('F1.motor:unplugged')
    expect(b.see('alarm board.SYS1')).toBe('no')
    expect(
      oneFan(50, pwm, {}, { alarm_below: 300 }).fault('F1.motor:unplugged').see('alarm board.SYS1'),
    ).toBe('yes')
  })
})

describe('plugs in the wrong place', () => {
  const two = benchOf(
    build()
      .header('SYS1', pwm)
      .header('SYS2', pwm)
      .header('SYS3', pwm)
      .plainFan('F1')
      .plainFan('F2')
      .lead('F1.motor', 'board.SYS1')
      .lead('F2.motor', 'board.SYS2')
      .set('SYS1', { curve: [[0, 40]] })
      .set('SYS2', { curve: [[0, 90]] })
      .plan(),
  )

  it('two exchanged fans follow each other: the slow one races, the fast one crawls', () => {
    const b = two.fault('F1.motor:swapped-with-F2.motor')
    // F1 turns at 1350 of the 600 asked: faster but short of its top, which no eye tells; F2 at 600 of 1350.
    expect(b.seeAll('spins', 'F1', 'F2')).toEqual(['normal', 'slow'])
    // Each header sees a fan that does what that header asks.
    expect(b.seeAll('rpm', 'board.SYS1', 'board.SYS2')).toEqual(['plausible', 'plausible'])
    expect(b.seeAll('follows', 'board.SYS1', 'board.SYS2')).toEqual(['no', 'no'])
    expect(b.seeAll('goes', 'F1.motor', 'F2.motor')).toEqual(['board.SYS2', 'board.SYS1'])
    expect(b.seeAll('seated', 'F1.motor', 'F2.motor')).toEqual(['yes', 'yes'])
  })

  it('exchanging them again makes all right', () => {
    const cured = two.fault('F1.motor:swapped-with-F2.motor').edit('swap F1.motor F2.motor')
    expect(cured.all()).toEqual(two.all())
  })

  it('after a swap by hand each is asked for what its new header asks', () => {
    const b = two.edit('swap F1.motor F2.motor')
    expect(b.seeAll('spins', 'F1', 'F2')).toEqual(['normal', 'normal'])
    expect(b.seeAll('follows', 'board.SYS1', 'board.SYS2')).toEqual(['yes', 'yes'])
  })

  it('a swap by hand takes a bad fan along and leaves a bad header behind', () => {
    const fan = two.fault('F1:motor-dead').edit('swap F1.motor F2.motor')
    expect(fan.seeAll('spins', 'F1', 'F2')).toEqual(['no', 'normal'])
    const header = two.fault('board.SYS1:dead').edit('swap F1.motor F2.motor')
    expect(header.seeAll('spins', 'F1', 'F2')).toEqual(['normal', 'no'])
  })

  it('a fan in a free header turns, and its own header reads zero', () => {
    const b = two.fault('F1.motor:in-board.SYS3')
    expect(b.see('goes F1.motor')).toBe('board.SYS3')
    expect(b.seeAll('rpm', 'board.SYS1', 'board.SYS3')).toEqual(['zero', 'plausible'])
    expect(b.edit('plug F1.motor -> board.SYS1').all()).toEqual(two.all())
  })

  it('unplugging by hand stops the fan, and plugging it back makes all right', () => {
    const out = two.edit('unplug F1.motor')
    expect([out.see('spins F1'), out.see('seated F1.motor')]).toEqual(['no', 'no'])
    expect(out.edit('plug F1.motor -> board.SYS1').all()).toEqual(two.all())
    expect(out.edit('reseat F1.motor').all()).toEqual(two.all())
  })
})

describe('with the mains off', () => {
  it('nothing that needs power has a value, and no pin has volts', () => {
    const b = oneFan(50, pwm).off()
    for (const what of ['rpm', 'follows', 'alarm'] as const) expect(b.see(`${what} board.SYS1`)).toBeNull()
    expect(b.see('setting headers/SYS1/curve')).toBeNull()
    expect(b.see('volts board.SYS1/12V')).toBe('none')
    expect([b.see('seated F1.motor'), b.see('goes F1.motor')]).toEqual(['yes', 'board.SYS1'])
  })
})
