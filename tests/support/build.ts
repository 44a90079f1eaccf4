/**
 * Builds for tests, said in a few words: `build().header('SYS1', { amps: 1 }).fan('F1').splitter('Y1', ['F1', 'F2'])`.
 * What is said is written as a plan file and read by the real reader, so every plan in a test is one that a
 * person could have written, with true places and with assumed values marked.
 */
import { stringify } from 'yaml'
import type { Plan } from '../../src/core/plan/plan.ts'
import type { Read } from '../../src/core/plan/problem.ts'
import { readPlan } from '../../src/core/plan/read.ts'

/** Keys as in a plan file: `{ motor: { amps: 0.2 }, light: { leds: 12 } }`. */
export type Keys = Readonly<Record<string, unknown>>

interface PlanFile {
  build: string
  supply: { leads: Record<string, Keys> }
  board: Record<'fan_headers' | 'light_headers' | 'usb_headers', Record<string, Keys>>
  parts: Record<string, Keys>
  leads: unknown[]
  settings: { headers: Record<string, Keys>; channels: Record<string, Keys>; [more: string]: unknown }
  light_order?: readonly string[]
  spares?: readonly string[]
}

export interface Build {
  /** A power lead of the supply; sata with three plugs unless told otherwise. */
  supply(id: string, keys?: Keys): Build
  header(id: string, keys?: Keys): Build
  lightHeader(id: string, keys?: Keys): Build
  usbHeader(id: string, keys?: Keys): Build
  /** Any part, with its keys as in a plan file. */
  part(id: string, keys: Keys): Build
  /** A fan with a four-pin motor (0.25 A) and eight LEDs (0.32 A), unless told otherwise; a range such as F1..F3 makes several. */
  fan(id: string, keys?: Keys): Build
  /** A fan with a motor only. */
  plainFan(id: string, keys?: Keys): Build
  pump(id: string, keys?: Keys): Build
  /** A fan-splitter with these fans' motors on its ways. */
  splitter(id: string, fans: readonly string[], keys?: Keys): Build
  /** A fan-hub with these fans' motors on its ports. */
  fanHub(id: string, fans: readonly string[], keys?: Keys): Build
  /** A light-hub with these parts' lights on its ports; series, SATA and USB unless told otherwise. */
  lightHub(id: string, lit: readonly string[], keys?: Keys): Build
  /** A light-splitter with these parts' lights on its ways. */
  lightSplitter(id: string, lit: readonly string[], keys?: Keys): Build
  /** A controller with these fans on fan1, fan2, … and light1, light2, … */
  controller(id: string, fans: readonly string[], keys?: Keys): Build
  lead(from: string, to: string, keys?: Keys): Build
  /** A board header's or controller port's settings. */
  set(header: string, keys: Keys): Build
  channel(id: string, keys: Keys): Build
  host(keys: Keys): Build
  /** Any other settings: `{ celsius: 60 }`, `{ ports: { 'board.U1.a': { enabled: false } } }`. */
  settings(keys: Keys): Build
  lightOrder(...parts: readonly string[]): Build
  spares(...things: readonly string[]): Build
  /** The plan file's text. */
  text(): string
  /** What the reader makes of it. */
  read(): Read<Plan>
  /** The plan; throws with the problems where there are any. */
  plan(): Plan
}

const litFan: Keys = {
  kind: 'fan',
  motor: { pins: 4, amps: 0.25, start_amps: 0.5, rpm: [450, 1500] },
  light: { volts: 5, leds: 8, amps: 0.32 },
}
export const plainFan: Keys = {
  kind: 'fan',
  motor: { pins: 4, amps: 0.25, start_amps: 0.5, rpm: [450, 1500] },
}

const isMap = (value: unknown): value is Keys =>
  typeof value === 'object' && value !== null && !Array.isArray(value)

/** Keys put over keys; maps inside are merged, undefined takes a key away. */
function over(base: Keys, own: Keys): Keys {
  const made: Record<string, unknown> = { ...base }
  for (const [key, value] of Object.entries(own)) {
    const under = made[key]
    if (value === undefined) delete made[key]
    else made[key] = isMap(under) && isMap(value) ? over(under, value) : value
  }
  return made
}

/** Problems as lines, for a test's message. */
export const problemLines = (read: Read<Plan>): string[] =>
  read.ok
    ? []
    : read.problems.map((p) => `${p.at.line}:${p.at.col} ${p.found}; expected ${p.expected}; ${p.todo}`)

export function planOf(text: string): Plan {
  const read = readPlan(text, 'test.build.yaml')
  if (!read.ok) throw new Error(`${problemLines(read).join('\n')}\n\n${text}`)
  return read.value
}

export function build(name = 'Sound archive workstation'): Build {
  const file: PlanFile = {
    build: name,
    supply: { leads: {} },
    board: { fan_headers: {}, light_headers: {}, usb_headers: {} },
    parts: {},
    leads: [],
    settings: { headers: {}, channels: {} },
  }

  const wire = (ids: readonly string[], port: string, socket: (n: number) => string): void => {
    for (const [i, id] of ids.entries())
      file.leads.push(`${id.includes('.') ? id : `${id}.${port}`} -> ${socket(i + 1)}`)
  }

  const add = (id: string, base: Keys, keys: Keys): Build => {
    file.parts[id] = over(base, keys)
    return self
  }

  const self: Build = {
    supply(id, keys = {}) {
      file.supply.leads[id] = over({ kind: 'sata', plugs: 3 }, keys)
      return self
    },
    header(id, keys = {}) {
      file.board.fan_headers[id] = over({ amps: 1, drive: 'auto' }, keys)
      return self
    },
    lightHeader(id, keys = {}) {
      file.board.light_headers[id] = over({ volts: 5, amps: 3 }, keys)
      return self
    },
    usbHeader(id, keys = {}) {
      file.board.usb_headers[id] = over({ kind: 'usb2', ports: 2 }, keys)
      return self
    },
    part: (id, keys) => add(id, {}, keys),
    fan: (id, keys = {}) => add(id, litFan, keys),
    plainFan: (id, keys = {}) => add(id, plainFan, keys),
    pump: (id, keys = {}) => add(id, { kind: 'pump', motor: { amps: 0.4, rpm: [900, 2800] } }, keys),
    splitter(id, fans, keys = {}) {
      wire(fans, 'motor', (n) => `${id}.${n}`)
      return add(id, { kind: 'fan-splitter', ways: Math.max(fans.length, 1), tach_from: 1 }, keys)
    },
    fanHub(id, fans, keys = {}) {
      wire(fans, 'motor', (n) => `${id}.${n}`)
      return add(id, { kind: 'fan-hub', ports: Math.max(fans.length, 1), power: 'sata', tach_from: 1 }, keys)
    },
    lightHub(id, lit, keys = {}) {
      wire(lit, 'light', (n) => `${id}.${n}`)
      return add(
        id,
        { kind: 'light-hub', ports: Math.max(lit.length, 1), chain: 'series', power: 'sata', host: 'usb' },
        keys,
      )
    },
    lightSplitter(id, lit, keys = {}) {
      wire(lit, 'light', (n) => `${id}.${n}`)
      return add(id, { kind: 'light-splitter', ways: Math.max(lit.length, 1), volts: 5 }, keys)
    },
    controller(id, fans, keys = {}) {
      const ports = Math.max(fans.length, 1)
      wire(fans, 'motor', (n) => `${id}.fan${n}`)
      wire(fans, 'light', (n) => `${id}.light${n}`)
      return add(
        id,
        { kind: 'controller', fan_ports: ports, light_ports: ports, power: 'sata', host: 'usb' },
        keys,
      )
    },
    lead(from, to, keys) {
      file.leads.push(keys ? { from, to, ...keys } : `${from} -> ${to}`)
      return self
    },
    set(header, keys) {
      file.settings.headers[header] = over(file.settings.headers[header] ?? {}, keys)
      return self
    },
    channel(id, keys) {
      file.settings.channels[id] = over(file.settings.channels[id] ?? {}, keys)
      return self
    },
    host: (keys) => self.settings({ host: keys }),
    settings(keys) {
      file.settings = over(file.settings as Keys, keys) as PlanFile['settings']
      return self
    },
    lightOrder(...parts) {
      file.light_order = parts
      return self
    },
    spares(...things) {
      file.spares = things
      return self
    },
    text: () => stringify(file, { lineWidth: 0 }),
    read: () => readPlan(self.text(), 'test.build.yaml'),
    plan: () => planOf(self.text()),
  }
  return self
}
