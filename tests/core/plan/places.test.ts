import { readdirSync, readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import { readPlan } from '../../../src/core/plan/read.ts'
import { planOf } from '../../support/build.ts'
import fc from '../../support/fast-check.ts'
import { standsAt } from '../../support/plan-text.ts'
import { buildOf, wiring } from '../../support/wired.ts'

const text = `build: Cutting room
supply:
  leads: { SA: { kind: sata, awg: 18 } }
board:
  fan_headers:
    SYS1: { amps: 1 A }
  pump_headers: { W1: { amps: 2 A } }
parts:
  F1..F2:
    kind: fan
    motor: { amps: 0.2, rpm: [450, 1500] }
    lights: [{ leds: 8 }, { leds: 4 }]
  F3: { like: F1, motor: { amps: 0.3 } }
  Y1: { kind: fan-splitter, ways: 3 }
leads:
  - F1..F3.motor -> Y1.1..3
  - { from: Y1.in, to: board.SYS1, mm: 300 }
settings:
  headers: { SYS1: { curve: [[30, 40], [70, 100]] } }
light_order: [F1, F2]
`

describe('everything that a finding may point at has a place', () => {
  const { places, leads } = planOf(text)
  const at = (what: string, nth = 1) => standsAt(text, what, 'test.build.yaml', nth)

  test.each([
    ['supply.leads.SA', 'SA:', 1],
    ['supply.leads.SA.awg', '18 }', 1],
    ['board.fan_headers.SYS1', 'SYS1: { amps', 1],
    ['board.fan_headers.SYS1.amps', '1 A', 1],
    ['board.pump_headers.W1', 'W1', 1],
    ['board.fan_headers.W1.amps', '2 A', 1],
    ['parts.F1', 'F1..F2', 1],
    ['parts.F2', 'F1..F2', 1],
    ['parts.F2.motor.amps', '0.2', 1],
    ['parts.F2.motor.rpm', 'rpm', 1],
    ['parts.F2.light.leds', '8 }, {', 1],
    ['parts.F2.light2.leds', '4 }', 1],
    ['parts.F3', 'F3: {', 1],
    ['parts.F3.motor.amps', '0.3', 1],
    ['parts.F3.motor.rpm.1', '1500', 1],
    ['parts.Y1.ways', '3 }', 2],
    ['settings.headers.SYS1', 'SYS1: { curve', 1],
    ['settings.headers.SYS1.curve', 'curve', 1],
    ['leads', 'leads:', 2],
    ['leads.0', 'F1..F3.motor', 1],
    ['leads.2', 'F1..F3.motor', 1],
    ['leads.3', '{ from', 1],
    ['light_order', 'light_order', 1],
  ])('%s stands where a person wrote it', (path, what, nth) => {
    expect(places.get(path)).toEqual(at(what, nth))
  })

  test('each lead carries the place of its line', () => {
    expect(leads.map((lead) => lead.place.line)).toEqual([16, 16, 16, 17])
  })

  test('in any wired build each part, header and lead has its line', () => {
    fc.assert(
      fc.property(wiring, (made) => {
        const b = buildOf(made)
        const lines = b.text().split('\n')
        const plan = b.plan()
        for (const part of plan.parts) {
          const place = plan.places.get(`parts.${part.id}`)
          expect(lines[(place?.line ?? 0) - 1]?.slice((place?.col ?? 1) - 1)).toMatch(
            new RegExp(`^${part.id}:`),
          )
        }
        for (const header of plan.board.fanHeaders) {
          const place = plan.places.get(`board.fan_headers.${header.id}`)
          expect(lines[(place?.line ?? 0) - 1]).toContain(header.id)
        }
        for (const lead of plan.leads) {
          expect(lines[lead.place.line - 1]).toContain(lead.plug)
          expect(lines[lead.place.line - 1]).toContain(lead.socket)
        }
      }),
      { numRuns: 25 },
    )
  })
})

const folder = new URL('../../../docs/examples/', import.meta.url)

describe('the examples', () => {
  test.each(readdirSync(folder).filter((name) => name.endsWith('.build.yaml')))(
    '%s reads without problems',
    (name) => {
      expect(readPlan(readFileSync(new URL(name, folder), 'utf8'), name)).toMatchObject({ ok: true })
    },
  )

  test('the large one has ten lit fans, a pump, a hub in series, a controller, splitters and a USB hub', () => {
    const name = 'archive-ten-fans.build.yaml'
    const plan = planOf(readFileSync(new URL(name, folder), 'utf8'))
    const kinds = (kind: string) => plan.parts.filter((part) => part.kind === kind)
    expect(kinds('fan').filter((fan) => 'lights' in fan && fan.lights.length > 0)).toHaveLength(10)
    expect(kinds('pump')).toHaveLength(1)
    expect(kinds('light-hub')).toMatchObject([{ chain: 'series' }])
    expect(kinds('controller')).toHaveLength(1)
    expect(kinds('fan-splitter').length).toBeGreaterThan(1)
    expect(kinds('usb-hub')).toHaveLength(1)
  })
})
