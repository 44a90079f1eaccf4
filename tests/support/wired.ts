/**
 * Generated builds that are wired as builds are: every plug in a socket of its kind, nothing in a ring, headers
 * and supply plugs enough. A build is a short list of branches, each a header or hub with its fans; shrinking
 * drops branches and fans, so what is left is still wired. Electrically they may be over their limits: only what
 * goes into what is promised, not that it is wise.
 */

import type { Plan } from '../../src/core/plan/plan.ts'
import { type Build, build, type Keys } from './build.ts'
import fc from './fast-check.ts'

interface FanSpec {
  readonly pins: 3 | 4
  readonly amps: number
  readonly leds: number
}

type Branch =
  | { readonly is: 'direct'; readonly fan: FanSpec }
  | { readonly is: 'splitter'; readonly fans: readonly FanSpec[]; readonly tachFrom: number }
  | { readonly is: 'fan-hub'; readonly fans: readonly FanSpec[] }
  | { readonly is: 'controller'; readonly fans: readonly FanSpec[] }
  | { readonly is: 'chain'; readonly fans: readonly FanSpec[] }
  | { readonly is: 'pump'; readonly amps: number; readonly leds: number }

export interface Wiring {
  readonly branches: readonly Branch[]
  /** How lights that hang on no controller are fed. */
  readonly lights: 'series-hub' | 'parallel-hub' | 'splitter' | 'usb-hub'
  readonly headerAmps: number
  readonly drive: 'auto' | 'pwm' | 'dc'
}

const fan: fc.Arbitrary<FanSpec> = fc.record(
  {
    pins: fc.constantFrom<3 | 4>(4, 3),
    amps: fc.integer({ min: 5, max: 40 }).map((n) => n / 100),
    leds: fc.integer({ min: 0, max: 24 }),
  },
  { noNullPrototype: true },
)
const fans = fc.array(fan, { minLength: 1, maxLength: 4 })

const branch: fc.Arbitrary<Branch> = fc.oneof(
  fan.map((one): Branch => ({ is: 'direct', fan: one })),
  fans.chain((several) =>
    fc
      .integer({ min: 1, max: several.length })
      .map((tachFrom): Branch => ({ is: 'splitter', fans: several, tachFrom })),
  ),
  fans.map((several): Branch => ({ is: 'fan-hub', fans: several })),
  fans.map((several): Branch => ({ is: 'controller', fans: several })),
  fans.map((several): Branch => ({ is: 'chain', fans: several })),
  fc
    .record(
      { amps: fc.constantFrom(0.3, 0.5, 1), leds: fc.integer({ min: 0, max: 12 }) },
      { noNullPrototype: true },
    )
    .map((pump): Branch => ({ is: 'pump', ...pump })),
)

/** What a wired build is made from; `buildOf` writes it down. */
export const wiring: fc.Arbitrary<Wiring> = fc.record(
  {
    branches: fc.array(branch, { minLength: 1, maxLength: 5 }),
    lights: fc.constantFrom('series-hub', 'parallel-hub', 'splitter', 'usb-hub'),
    headerAmps: fc.constantFrom(1, 2, 3),
    drive: fc.constantFrom('auto', 'pwm', 'dc'),
  },
  { noNullPrototype: true },
)

const fanKeys = (spec: FanSpec, more: Keys = {}): Keys => ({
  motor: { pins: spec.pins, amps: spec.amps, start_amps: spec.amps * 2, ...more },
  light: spec.leds > 0 ? { leds: spec.leds, amps: Math.round(spec.leds * 40) / 1000 } : undefined,
})

/** Fans and headers are numbered through; supply plugs are given out in order. */
export function buildOf(made: Wiring): Build {
  const b = build('Generated build')
  const lit: string[] = []
  const ledsOf = new Map<string, number>()
  let fanCount = 0
  let headers = 0
  let hubs = 0
  let plugs = 0
  let usb = 0

  const header = (role = 'fan'): string => {
    headers += 1
    b.header(`SYS${headers}`, { amps: made.headerAmps, drive: made.drive, role })
    b.set(`SYS${headers}`, {
      curve: [
        [30, 50],
        [70, 100],
      ],
    })
    return `board.SYS${headers}`
  }
  const power = (plug: string): void => {
    const lead = `S${Math.floor(plugs / 3) + 1}`
    if (plugs % 3 === 0) b.supply(lead)
    b.lead(plug, `supply.${lead}.${(plugs % 3) + 1}`)
    plugs += 1
  }
  const usbPort = (plug: string): void => {
    const id = `U${Math.floor(usb / 2) + 1}`
    if (usb % 2 === 0) b.usbHeader(id)
    b.lead(plug, `board.${id}.${usb % 2 === 0 ? 'a' : 'b'}`)
    usb += 1
  }
  const addFan = (spec: FanSpec, more: Keys = {}): string => {
    fanCount += 1
    const id = `F${fanCount}`
    b.fan(id, fanKeys(spec, more))
    return id
  }
  const addFans = (specs: readonly FanSpec[]): string[] => specs.map((spec) => addFan(spec))
  const light = (id: string, spec: { readonly leds: number }): void => {
    if (spec.leds === 0) return
    lit.push(id)
    ledsOf.set(id, spec.leds)
  }
  const hubName = (letter: string): string => `${letter}${++hubs}`

  for (const one of made.branches) {
    switch (one.is) {
      case 'direct': {
        const id = addFan(one.fan)
        b.lead(`${id}.motor`, header())
        light(id, one.fan)
        break
      }
      case 'splitter': {
        const ids = addFans(one.fans)
        const id = hubName('Y')
        b.splitter(id, ids, { tach_from: one.tachFrom }).lead(`${id}.in`, header())
        for (const [i, spec] of one.fans.entries()) light(ids[i] ?? '', spec)
        break
      }
      case 'fan-hub': {
        const ids = addFans(one.fans)
        const id = hubName('K')
        b.fanHub(id, ids).lead(`${id}.in`, header())
        power(`${id}.power`)
        for (const [i, spec] of one.fans.entries()) light(ids[i] ?? '', spec)
        break
      }
      case 'controller': {
        const ids = addFans(one.fans)
        const id = hubName('C')
        b.part(id, {
          kind: 'controller',
          fan_ports: ids.length,
          light_ports: ids.length,
          power: 'sata',
          host: 'usb',
        })
        for (const [i, fanId] of ids.entries()) {
          b.lead(`${fanId}.motor`, `${id}.fan${i + 1}`)
          const leds = one.fans[i]?.leds ?? 0
          if (leds === 0) continue
          b.lead(`${fanId}.light`, `${id}.light${i + 1}`)
          b.channel(`${id}.light${i + 1}`, { profile: [leds] })
        }
        power(`${id}.power`)
        usbPort(`${id}.usb`)
        break
      }
      case 'chain': {
        const ids = one.fans.map((spec) => addFan(spec, { passes_on: true }))
        for (const [i, id] of ids.entries())
          b.lead(`${id}.motor`, i === 0 ? header() : `${ids[i - 1]}.motor_out`)
        for (const [i, spec] of one.fans.entries()) light(ids[i] ?? '', spec)
        break
      }
      case 'pump': {
        const id = hubName('P')
        b.pump(id, {
          motor: { amps: one.amps, start_amps: one.amps * 2 },
          ...(one.leds > 0 ? { light: { leds: one.leds, amps: one.leds * 0.04 } } : {}),
        }).lead(`${id}.motor`, header('pump'))
        light(id, one)
        break
      }
    }
  }

  const counts = lit.map((id) => ledsOf.get(id) ?? 0)
  if (lit.length > 0) {
    if (made.lights === 'splitter') {
      b.lightHeader('L1', { amps: 5 }).lightSplitter('LS', lit).lead('LS.in', 'board.L1')
      b.channel('L1', { profile: [Math.max(...counts)] })
    } else {
      const series = made.lights !== 'parallel-hub'
      b.lightHub('LH', lit, { chain: series ? 'series' : 'parallel' }).channel('LH', { profile: counts })
      power('LH.power')
      if (made.lights === 'usb-hub') {
        b.part('UH', { kind: 'usb-hub', ports: 4, power: 'bus' }).lead('LH.usb', 'UH.1')
        usbPort('UH.usb')
      } else usbPort('LH.usb')
    }
    b.lightOrder(...lit)
  }
  return b
}

/** Plans of wired builds. */
export const wiredPlan: fc.Arbitrary<Plan> = wiring.map((made) => buildOf(made).plan())
