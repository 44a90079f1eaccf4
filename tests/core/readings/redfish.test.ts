/** Redfish resources, as in the public mock-ups of the standard and in its schemas of Thermal, Fan and Sensor. */
import { describe, expect, test } from 'vitest'
import { fanIn, readingFile, readingIn, readingOf } from '../../support/reading-file.ts'

describe('a Redfish resource', () => {
  test('of the old form gives speeds in RPM with their lower limit', () => {
    const reading = readingIn('redfish-01-public-thermal-rpm.json')
    expect(reading.fans.length).toBeGreaterThan(0)
    for (const fan of reading.fans) expect(fan.rpm.length).toBe(1)
    expect(reading.celsius).toContain(41)
  })

  test('in percent gives a share and no speed', () => {
    const reading = readingIn('redfish-06-public-thermal-percent.json')
    expect(reading.fans.map((f) => [f.rpm, f.percent])).toEqual([
      [[], 23],
      [[], 23],
      [[], 23],
    ])
  })

  test('of the new form gives a speed where it has one, by its name, its number and its place', () => {
    const both = fanIn(readingIn('redfish-03-public-fan-bay1-percent-and-rpm.json'), 'Fan Bay 1')
    expect(both).toMatchObject({ rpm: [2200], percent: 45, also: ['Bay1'], alarm: false })
    expect(fanIn(readingIn('redfish-02-public-fan-cpu1-percent-only.json'), 'Fan for CPU 1')).toMatchObject({
      rpm: [],
      percent: 45,
    })
    expect(fanIn(readingIn('redfish-08-public-fan-v1_5_1.json'), 'Fan 1').percent).toBe(20)
  })

  test('tells a stopped fan from a place with no fan in it', () => {
    const reading = readingIn('redfish-09-made-thermal-absent-and-stopped.json')
    expect(fanIn(reading, 'CPU Fan')).toMatchObject({ rpm: [0], alarm: true, min: 200 })
    expect(fanIn(reading, 'Chassis Fan 1')).toMatchObject({ rpm: [], absent: true })
    expect(fanIn(reading, 'Chassis Fan 2')).toMatchObject({ rpm: [1180], alarm: false })
  })

  test('with more than 100 where the percentage belongs never takes it for one', () => {
    const reading = readingIn('redfish-10-made-fan-percent-field-holds-rpm.json')
    expect(reading.fans[0]).toMatchObject({ rpm: [1345] })
    expect(reading.fans[0]).not.toHaveProperty('percent')
    expect(reading.remarks).toEqual([{ code: 'percent-over-100', at: 'Front 1' }])
  })

  // The mock-up of the standard says 45 % at the fan and 80 % at the sensor that it names as its source.
  test('beside its own sensor that says otherwise is disputed', () => {
    const text =
      readingFile('redfish-02-public-fan-cpu1-percent-only.json') +
      readingFile('redfish-04-public-sensor-cpufan1.json')
    const reading = readingOf(text)
    expect(fanIn(reading, 'Fan for CPU 1').disputed).toBe(true)
    expect(reading.remarks).toEqual([{ code: 'sources-disagree', at: 'Fan for CPU 1' }])
  })

  test('that only lists links says nothing of a fan, and may count others than it lists', () => {
    expect(readingIn('redfish-05-public-fan-collection.json').remarks.map((r) => r.code)).toEqual([
      'links-only',
    ])
    expect(
      readingIn('redfish-07-public-fan-collection-count-mismatch.json').remarks.map((r) => r.code),
    ).toEqual(['links-only', 'count-mismatch'])
  })
})
