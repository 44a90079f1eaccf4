/**
 * `sensors -j` as the tool really prints it. The expected shapes are those of lm-sensors, prog/sensors/main.c and
 * chips.c: an object a chip, "Adapter" in it, then an object a feature; all figures with three decimals.
 */
import { describe, expect, test } from 'vitest'
import { readText } from '../../../src/core/readings/recognize.ts'
import { fanIn, readingFile, readingIn, readingOf } from '../../support/reading-file.ts'

describe('a reading of sensors', () => {
  test('gives each fan with its speed, limit and alarm, flags printed as 1.000 being flags', () => {
    const reading = readingIn('sensors-j-02-case-fan-zero-alarm.json')
    expect(reading.source).toBe('sensors')
    expect(reading.fans.map((f) => [f.channel, f.rpm[0]])).toEqual([
      ['fan1', 0],
      ['fan2', 1190],
      ['fan3', 810],
      ['fan4', 803],
      ['fan5', 0],
    ])
    expect(fanIn(reading, 'fan1')).toMatchObject({
      chip: 'nct6798-isa-0290',
      min: 300,
      alarm: true,
      pulses: 2,
    })
    expect(fanIn(reading, 'fan5')).toMatchObject({ min: 0, alarm: false })
    expect(reading.celsius).toEqual([33, 40, 41])
  })

  // chips.c prints the label as the key, and a configuration file may rename labels.
  test('finds a fan by the name inside the feature when its label was changed', () => {
    const reading = readingOf('{"it8603-isa-0290":{"Adapter":"ISA adapter","Front":{"fan2_input":1320.000}}}')
    expect(fanIn(reading, 'fan2')).toMatchObject({ label: 'Front', also: ['Front'], rpm: [1320] })
  })

  // chips.c makes no label unique: two features with one label are one JSON key twice.
  test('keeps both fans that carry one label, where a plain parser keeps the last', () => {
    const text =
      '{"nct6798-isa-0290":{"Adapter":"ISA adapter","Case":{"fan1_input":810.000},"Case":{"fan3_input":0.000}}}'
    expect(Object.keys(JSON.parse(text)['nct6798-isa-0290'])).toEqual(['Adapter', 'Case'])
    const reading = readingOf(text)
    expect(reading.fans.map((f) => f.channel)).toEqual(['fan1', 'fan3'])
    expect(reading.remarks).toEqual([{ code: 'doubled-name', at: 'Case' }])
  })

  // A feature that cannot be read goes to the error stream and its object stays empty (chips.c).
  test('passes over lines of the error stream, and says so', () => {
    const text = readingFile('sensors-j-06-stderr-merged.invalid.txt')
    expect(() => JSON.parse(text)).toThrow()
    const reading = readingOf(text)
    expect(reading.fans.map((f) => [f.channel, f.rpm[0], f.alarm])).toEqual([
      ['fan1', 1320, false],
      ['fan2', 0, true],
    ])
    expect(reading.remarks.map((r) => r.code)).toEqual(['repaired-stray-lines'])
  })

  // A chip without a readable feature leaves a comma behind "Adapter" (main.c of 2021).
  test('reads past the comma that an empty chip leaves', () => {
    const text = readingFile('sensors-j-07-empty-chip-trailing-comma.invalid.txt')
    expect(() => JSON.parse(text)).toThrow()
    const reading = readingOf(text)
    expect(fanIn(reading, 'fan1').rpm).toEqual([815])
    expect(reading.remarks.map((r) => r.code)).toEqual(['repaired-comma'])
  })

  // With the flag for Fahrenheit chips.c sends every figure through °C × 1.8 + 32: 1200 RPM prints 2192.000.
  test('is refused when it was taken in Fahrenheit, since then speeds and flags are wrong too', () => {
    expect(1200 * 1.8 + 32).toBe(2192)
    expect(readText(readingFile('sensors-j-08-fahrenheit-flag-corrupts-rpm.json'))).toMatchObject({
      ok: false,
      why: 'fahrenheit',
    })
  })

  test('is refused as Fahrenheit by a stopped fan alone, which then shows 32', () => {
    const text = '{"a-isa-0290":{"Adapter":"ISA adapter","fan1":{"fan1_input":32.000}}}'
    expect(readText(text)).toMatchObject({ ok: false, why: 'fahrenheit' })
  })

  test('of a machine whose driver is missing is no word on any fan', () => {
    const reading = readingOf(
      '{"coretemp-isa-0000":{"Adapter":"ISA adapter","Core 0":{"temp2_input":38.000}}}',
    )
    expect(reading.fans).toEqual([])
    expect(reading.remarks).toEqual([{ code: 'no-fan-data', at: '' }])
  })

  test('that is cut off in the middle is refused with the line where it stops', () => {
    const text = readingFile('sensors-j-01-all-healthy.json').split('\n').slice(0, 30).join('\n')
    expect(readText(text)).toMatchObject({ ok: false, why: 'broken' })
  })

  test.each(['', '   \n'])('of nothing is refused as empty', (text) => {
    expect(readText(text)).toEqual({ ok: false, why: 'empty' })
  })

  test.each(['hello', '{"build": 3}', 'fan1: 1200 RPM'])('%s is no reading that is known', (text) => {
    expect(readText(text)).toMatchObject({ ok: false, why: 'not-known' })
  })
})
