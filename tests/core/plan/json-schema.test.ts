/** The exported JSON Schema, asked through a general validator for draft 2020-12, against what the reader says. */
import { readdirSync, readFileSync } from 'node:fs'
import { Ajv2020 } from 'ajv/dist/2020.js'
import { describe, expect, test } from 'vitest'
import { parse } from 'yaml'
import { planJsonSchema } from '../../../src/core/plan/json-schema.ts'
import { readPlan } from '../../../src/core/plan/read.ts'
import fc from '../../support/fast-check.ts'
import { buildOf, wiring } from '../../support/wired.ts'

const accepts = new Ajv2020({
  strict: true,
  allowUnionTypes: true,
  strictRequired: false,
  strictTypes: false,
}).compile(planJsonSchema())

const examples = new URL('../../../docs/examples/', import.meta.url)
const written = new URL('../../fixtures/plans/', import.meta.url)
const plansIn = (folder: URL): [string, URL][] =>
  readdirSync(folder)
    .filter((name) => name.endsWith('.build.yaml'))
    .map((name) => [name, new URL(name, folder)])

/** A good plan, in which each bad one changes one line. */
const good = `build: Listening desk
supply: { leads: { SA: { kind: sata, plugs: 2, awg: 18 AWG } } }
board:
  fan_headers: { SYS1: { amps: 1 A, drive: auto }, SYS2: }
  usb_headers: { U1: { kind: usb2, ports: 2 } }
stock: { quiet: { kind: fan, motor: { amps: 120 mA } } }
parts:
  F1: { kind: fan, motor: { pins: 4, amps: 0.25, rpm: [450, 1500] }, light: { volts: 5 V, leds: 8 } }
  F2: { like: quiet, at: rear, lights: [{ leds: 4 }] }
  H1: { kind: light-hub, ports: 2, chain: series, power: sata, host: usb }
leads: [F1.motor -> board.SYS1, F2.motor -> board.SYS2, F1.light -> H1.1, H1.usb -> board.U1.a]
settings: { headers: { SYS1: { drive: pwm, curve: [[30, 40 %], [70 °C, 100]] } }, host: { global_effect: off } }
light_order: [F1]
`

const bad: readonly (readonly [what: string, from: string, to: string])[] = [
  ['an unknown key at the top', 'build:', 'bild:'],
  ['an unknown key of a motor', 'pins: 4', 'pin: 4'],
  ['an unknown key of a header', 'amps: 1 A, drive', 'amp: 1 A, drive'],
  ['an unknown kind of part', 'kind: light-hub', 'kind: lighthub'],
  ['a part without a kind', 'kind: light-hub, ', ''],
  ['a hub that does not say how many ports it has', 'ports: 2, chain', 'chain'],
  ['a word that is none of the choices', 'chain: series', 'chain: sideways'],
  ['volts where amps are due', 'amps: 1 A', 'amps: 12 V'],
  ['a fan of 50 A', 'amps: 0.25', 'amps: 50'],
  ['a fan of minus a quarter ampere', 'amps: 0.25', 'amps: -0.25'],
  ['seven volts', 'volts: 5 V', 'volts: 7'],
  ['half an LED', 'leds: 8', 'leds: 8.5'],
  ['a duty over 100', '[70 °C, 100]', '[70 °C, 110]'],
  ['a list where a map is due', 'board:\n', 'board: []\nspares:\n'],
  ['a lead without an arrow', 'F1.light -> H1.1', 'F1.light H1.1'],
  ['a name with a dot', '  F1:', '  F.1:'],
  ['a plan without parts', 'parts:', 'supplies:'],
]

describe('the JSON Schema of a plan file', () => {
  test('accepts a plan that uses every form of writing, as the reader does', () => {
    expect(readPlan(good, 'good.build.yaml')).toMatchObject({ ok: true })
    expect(accepts(parse(good)) || accepts.errors).toBe(true)
  })

  test.each([...plansIn(examples), ...plansIn(written)])('accepts the plan %s', (_, file) => {
    expect(accepts(parse(readFileSync(file, 'utf8'))) || accepts.errors).toBe(true)
  })

  test.each(bad)('refuses %s, as the reader does', (_, from, to) => {
    const text = good.replace(from, to)
    expect(text).not.toBe(good)
    expect(readPlan(text, 'bad.build.yaml').ok).toBe(false)
    expect(accepts(parse(text))).toBe(false)
  })

  test('accepts every wired build', () => {
    fc.assert(
      fc.property(wiring, (made) => {
        expect(accepts(parse(buildOf(made).text())) || accepts.errors).toBe(true)
      }),
      { numRuns: 30 },
    )
  })

  test('says of every key what it is for', () => {
    const bare: string[] = []
    const look = (node: unknown, path: string): void => {
      if (typeof node !== 'object' || node === null) return
      const properties = (node as Record<string, unknown>).properties
      if (typeof properties === 'object' && properties !== null)
        for (const [key, value] of Object.entries(properties))
          if (
            typeof value === 'object' &&
            !JSON.stringify(value).includes('"description"') &&
            !('const' in value)
          )
            bare.push(`${path}.${key}`)
      for (const [key, value] of Object.entries(node)) look(value, `${path}.${key}`)
    }
    look(planJsonSchema(), '')
    expect(bare).toEqual([])
  })
})
