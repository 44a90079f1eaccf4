/** The page about the plan file says what the reader does: its examples read, its keys are all there, its usual values hold. */
import { readFileSync } from 'node:fs'
import { describe, expect, test } from 'vitest'
import * as z from 'zod/mini'
import { audit } from '../../../src/core/audit/audit.ts'
import { leadSchema } from '../../../src/core/plan/lead-line.ts'
import type { Part } from '../../../src/core/plan/part.ts'
import { partForms, partKinds } from '../../../src/core/plan/parts/every.ts'
import { lightSchema } from '../../../src/core/plan/parts/light.ts'
import { motorSchema } from '../../../src/core/plan/parts/motor.ts'
import { CONNECTORS } from '../../../src/core/plan/parts/others.ts'
import { portsOf } from '../../../src/core/plan/ports.ts'
import { readPlan, TOP_KEYS } from '../../../src/core/plan/read.ts'
import { settingsSchema } from '../../../src/core/plan/settings.ts'
import { boardSchema, supplySchema } from '../../../src/core/plan/surroundings.ts'
import { planOf, problemLines } from '../../support/build.ts'

const page = readFileSync(new URL('../../../docs/plan-file.md', import.meta.url), 'utf8')
const blocks = [...page.matchAll(/^```yaml\n([\s\S]*?)^```$/gm)].map((match) => match[1] ?? '')
const stock = blocks.find((block) => block.startsWith('stock:')) ?? ''

/** The text from a heading to the next of its rank or above. */
function under(heading: string): string {
  const level = /^#+/.exec(heading)?.[0].length ?? 1
  const start = page.indexOf(`\n${heading}\n`)
  expect(start, heading).toBeGreaterThan(0)
  const rest = page.slice(start + heading.length + 2)
  const end = rest.search(new RegExp(`^#{1,${level}} `, 'm'))
  return end < 0 ? rest : rest.slice(0, end)
}

const words = (text: string): Set<string> =>
  new Set([...text.matchAll(/`([^`]+)`/g)].map((match) => match[1] ?? ''))

/** Every key of a schema and of the schemas inside it. */
function keysOf(schema: z.core.$ZodType): string[] {
  if (schema instanceof z.ZodMiniOptional) return keysOf(schema.def.innerType as z.core.$ZodType)
  if (schema instanceof z.ZodMiniRecord) return keysOf(schema.def.valueType)
  if (!(schema instanceof z.ZodMiniObject)) return []
  return Object.entries(schema.shape).flatMap(([key, value]) => [key, ...keysOf(value as z.core.$ZodType)])
}

describe('the examples on the page', () => {
  test.each(blocks.filter((block) => block !== stock).map((block) => [block.split('\n')[0], block]))(
    '"%s" reads without problems',
    (_, block) => {
      const read = readPlan(block, 'page.build.yaml', (name) =>
        name === 'bench.stock.yaml' ? { text: stock, file: name } : undefined,
      )
      expect(problemLines(read)).toEqual([])
    },
  )

  test('the first is whole: nothing in it must be changed', () => {
    const found = audit(planOf(blocks[0] ?? ''))
    expect(found.map((f) => [f.severity, f.rule])).toEqual([['untidy', 'tach-unseen']])
  })

  test('there are examples of every kind of part', () => {
    const all = blocks.join('\n')
    for (const kind of partKinds) expect(all).toContain(`kind: ${kind}`)
  })
})

describe('the tables on the page', () => {
  const sections: readonly (readonly [heading: string, schema: z.core.$ZodType])[] = [
    ['## supply', supplySchema],
    ['## board', boardSchema],
    ['## leads', leadSchema],
    ['## settings', settingsSchema],
    ['### fan', z.object({ motor: motorSchema, light: lightSchema })],
  ]
  test.each(sections)('%s names every key', (heading, schema) => {
    const text = under(heading)
    for (const key of keysOf(schema)) expect(text, key).toMatch(new RegExp(`\\b${key}\\b`))
  })

  test('name every section of the file', () => {
    const known = words(under('## The sections'))
    for (const key of TOP_KEYS) expect([...known]).toContain(key)
  })

  test.each(partKinds)('### %s names every key of its own', (kind) => {
    const text = under(`### ${kind}`)
    const shared = words(under('## parts').split('\n### ')[0] ?? '')
    for (const key of Object.keys(partForms[kind].schema.shape))
      if (!shared.has(key)) expect([...words(text)], key).toContain(key)
  })

  test.each(partKinds)('### %s names every port that such a part can have', (kind) => {
    const known = words(under(`### ${kind}`))
    const general = kind === 'pump' ? words(under('### fan')) : new Set<string>()
    const forms: Record<string, string[]> = {
      fan: ['motor: { passes_on: yes, feed: sata }, light: { passes_on: yes }'],
      pump: ['host: usb, light: {}'],
      strip: ['light: { passes_on: yes }'],
      'fan-splitter': ['ways: 2'],
      'fan-hub': ['ports: 2'],
      'light-hub': ['ports: 2, host: usb', 'ports: 2, host: header'],
      controller: [
        'fan_ports: 2, light_ports: 2, host: usb, fan_control: header',
        'fan_ports: 1, light_ports: 1, host: header',
      ],
      'light-splitter': ['ways: 2'],
      'usb-hub': ['ports: 2, power: sata'],
      adapter: ['from: sata, to: fan4', 'from: sata, to: fan4, outs: 2'],
      'usb-device': [''],
    }
    for (const keys of forms[kind] ?? [])
      for (const port of portsOf(planOf(`parts: { X1: { kind: ${kind}, ${keys} } }`).parts[0] as Part))
        expect(known.has(port.name) || general.has(port.name), port.name).toBe(true)
  })

  test('name every connector that an adapter can have', () => {
    const known = words(under('### adapter'))
    for (const connector of CONNECTORS) expect([...known]).toContain(connector)
  })

  test('give the usual values that are really taken', () => {
    const plan =
      planOf(`board: { fan_headers: { S1:, CPU:, PUMP1: }, light_headers: { L1: }, usb_headers: { U1:, U3: { kind: usb3 } } }
supply: { leads: { SA:, M1: { kind: peripheral } } }
parts:
  F1: { kind: fan, light: {}, motor: {} }
  P1: { kind: pump }
  S1: { kind: strip }
  Y1: { kind: fan-splitter, ways: 2 }
  K1: { kind: fan-hub, ports: 2 }
  H1: { kind: light-hub, ports: 2 }
  C1: { kind: controller, fan_ports: 2, light_ports: 2 }
  X1: { kind: light-splitter, ways: 2 }
  N1: { kind: usb-hub, ports: 2 }
  D1: { kind: usb-device }
  A1: { kind: adapter, from: sata, to: fan4 }
`)
    expect(plan.build).toBe('unnamed build')
    expect(plan.supply.leads).toMatchObject([
      { kind: 'sata', plugs: 3, amps5: 4.5, amps12: 4.5, modular: true },
      { kind: 'peripheral', amps5: 11, amps12: 11 },
    ])
    expect(plan.board.fanHeaders).toMatchObject([
      { role: 'fan', pins: 4, amps: 1, drive: 'auto', protected: true },
      { role: 'cpu', amps: 1 },
      { role: 'pump', amps: 2 },
    ])
    expect(plan.board.lightHeaders).toMatchObject([{ volts: 5, amps: 3 }])
    expect(plan.board.usbHeaders).toMatchObject([
      { kind: 'usb2', ports: 2, milliamps: 500 },
      { kind: 'usb3', milliamps: 900 },
    ])
    expect(plan.parts).toMatchObject([
      {
        flow: 'unknown',
        reach: 'open',
        motor: {
          pins: 4,
          amps: 0.25,
          startAmps: 0.5,
          rpm: [450, 1500],
          startVolts: 7,
          startDuty: 30,
          belowMin: 'keeps',
          pulses: 2,
          tach: 'pulses',
          passesOn: false,
          feed: 'lead',
        },
        lights: [
          { port: 'light', volts: 5, leds: 8, amps: 0.48, colours: 'GRB', returns: true, passesOn: false },
        ],
      },
      {
        motor: { amps: 0.5, startAmps: 1, rpm: [840, 2800] },
        lights: [],
        host: 'none',
        beforeHost: 'stored-pattern',
        usbMilliamps: 100,
      },
      { lights: [{ leds: 30, amps: 1.8, returns: false }] },
      { tachFrom: 1, passesControl: true },
      { power: 'sata', amps: 4.5, portAmps: 1, tachFrom: 1, passesControl: true },
      {
        volts: 5,
        chain: 'parallel',
        power: 'sata',
        host: 'header',
        beforeHost: 'dark',
        amps: 4.5,
        portAmps: 2,
        usbMilliamps: 100,
      },
      {
        volts: 5,
        chain: 'separate',
        power: 'sata',
        host: 'usb',
        fanControl: 'own',
        tachFrom: 1,
        beforeHost: 'stored-pattern',
        fanAmps: 4.5,
        lightAmps: 4.5,
        fanPortAmps: 1,
        lightPortAmps: 2,
        usbMilliamps: 100,
      },
      { volts: 5, amps: 3 },
      { power: 'bus', portMilliamps: 100, ownMilliamps: 100 },
      { ports: 1, usbMilliamps: 500 },
      { outs: 1, moulded: false },
    ])
    expect(plan.settings).toMatchObject({ celsius: 40, host: { program: 'running', globalEffect: 'off' } })
  })
})
