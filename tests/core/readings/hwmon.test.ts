/** Copies of hwmon files. Meanings are those of the kernel's sysfs-class-hwmon page and sysfs-interface.rst. */
import { describe, expect, test } from 'vitest'
import { readText } from '../../../src/core/readings/recognize.ts'
import { fanIn, readingIn, readingOf } from '../../support/reading-file.ts'

const driveIn = (name: string, channel: string) => readingIn(name).drives.find((d) => d.channel === channel)

describe('a copy of hwmon files', () => {
  test('gives speed, limit and the curve of a real chip: millidegrees and 255ths', () => {
    const reading = readingIn('hwmon-01-public.tsv')
    expect(fanIn(reading, 'fan2')).toMatchObject({
      chip: 'nct6779',
      rpm: [1098],
      min: 0,
      alarm: false,
      pulses: 2,
    })
    // 153 of 255 is 60 %, 30000 millidegrees are 30 °C.
    expect(driveIn('hwmon-01-public.tsv', 'pwm1')?.curve?.slice(0, 2)).toEqual([
      [30, 60],
      [70, 100],
    ])
    expect(driveIn('hwmon-01-public.tsv', 'pwm1')).toMatchObject({ enable: 5, mode: 'pwm' })
  })

  test('with an empty file leaves that figure out: it is not known, never 0', () => {
    const reading = readingIn('hwmon-02-public-zero-below-min-no-alarm-file.tsv')
    expect(fanIn(reading, 'fan1')).toEqual({
      channel: 'fan1',
      chip: 'smc-chip',
      label: 'Left side',
      also: ['Left side'],
      rpm: [0],
      min: 2160,
    })
    expect(readingOf('/sys/class/hwmon/hwmon0/fan1_input\t').fans[0]?.rpm).toEqual([])
  })

  test('names DC drive by mode 0 and the share by 255ths', () => {
    const drive = driveIn('hwmon-04-dc-mode-below-start-stalled.tsv', 'pwm3')
    expect(drive?.mode).toBe('dc')
    expect(drive?.percent).toBeCloseTo(25.1, 1)
    expect(fanIn(readingIn('hwmon-04-dc-mode-below-start-stalled.tsv'), 'fan3').alarm).toBe(true)
  })

  test('knows a fault flag, and a drive without a tach beside it', () => {
    const reading = readingIn('hwmon-06-fault-flag-and-missing-tach.tsv')
    expect(fanIn(reading, 'fan1').fault).toBe(true)
    expect(fanIn(reading, 'fan2').fault).toBe(false)
    expect(reading.fans.map((f) => f.channel)).toEqual(['fan1', 'fan2'])
    expect(reading.drives.map((d) => d.channel)).toEqual(['pwm1', 'pwm2', 'pwm3'])
  })

  test('taken over some seconds is a series', () => {
    expect(fanIn(readingIn('hwmon-07-splitter-erratic-tach-series.tsv'), 'fan2').rpm).toEqual([
      1203, 2391, 1206, 2104, 0, 2410, 1198, 1777,
    ])
  })

  test('of a channel that is turned off says so', () => {
    const reading = readingOf('hwmon3/fan1_input\t0\nhwmon3/fan1_enable\t0')
    expect(fanIn(reading, 'fan1').off).toBe(true)
  })

  test('as grep prints it, with a colon or an equals sign, is read too', () => {
    expect(fanIn(readingOf('/sys/class/hwmon/hwmon3/fan1_input: 1200'), 'fan1').rpm).toEqual([1200])
    expect(fanIn(readingOf('/sys/class/hwmon/hwmon3/fan1_input=1200'), 'fan1').rpm).toEqual([1200])
  })

  test('with a line of another kind in it is refused, with the number of the line', () => {
    expect(readText('/sys/class/hwmon/hwmon3/fan1_input\t1200\nno such line')).toEqual({
      ok: false,
      why: 'broken',
      line: 2,
      found: 'no such line',
    })
  })
})
